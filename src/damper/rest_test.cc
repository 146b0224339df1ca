#include <gtest/gtest.h>

#include <cmath>

#include "damper/test_motions.h"

namespace shimwright::damper {
namespace {

/// Rigid oil in front of a free piston on a spring, air of constant temperature: everything has a closed
/// form.
MotionModel sprung(double trapped) {
  MotionModel model = linear_damper(1e-9, 1e5, 1e-3);
  model.reservoir.gas.reset();
  model.reservoir.piston = FreePiston{.area = disc_area(26e-3),
                                      .spring_force = 90.0,
                                      .spring_rate = 3000.0,
                                      .travel_in = 0.0,
                                      .travel_out = 0.085};
  model.oil.bulk_modulus = 1e15;
  model.oil.air_exponent = 1.0;
  model.compression.trapped_air = trapped;
  return model;
}

// physics 8.1: p = p_atm + (F0 + k y) / A_fp, y = A_r x / A_fp
TEST(Rest, ASprungPistonMovesByTheRodsVolume) {
  const MotionModel model = sprung(0.0);
  for (const double x : {0.0, 0.03, 0.1}) {
    const RestPoint rest = rest_at(model, x);
    const double area = model.reservoir.piston->area;
    const double y = model.rod_area * x / area;
    EXPECT_NEAR(rest.piston_travel, y, 1e-9);
    EXPECT_NEAR(rest.pressure, kAtmosphere + (90.0 + 3000.0 * y) / area, 1e-2);
    EXPECT_NEAR(rest.force, (rest.pressure - kAtmosphere) * model.rod_area, 1e-9);
    EXPECT_EQ(rest.gas_volume, 0.0);
  }
}

// Boyle: V of air in place of as much oil leaves the piston V (1 - p0/p) behind
TEST(Rest, AirIsSqueezedAndThePistonStaysBehind) {
  const double air = 2e-6;
  MotionModel model = sprung(air);
  model.reservoir.piston->travel_in = 0.01;
  const RestPoint rest = rest_at(model, 0.05);
  EXPECT_NEAR(rest.gas_volume, air * kAtmosphere / rest.pressure, 1e-15);
  EXPECT_NEAR(rest.reservoir_taken, model.rod_area * 0.05 - (air - rest.gas_volume), 1e-12);
  EXPECT_TRUE(rest.outcome.ok());
}

// with the piston on its inner stop the air alone holds the pressure: p (V - A_r x) = p0 V
TEST(Rest, WithThePistonOnItsStopTheAirAloneHoldsThePressure) {
  const double air = 5e-6;
  const MotionModel model = sprung(air);
  for (const double x : {0.0, 0.005, 0.01}) {
    const RestPoint rest = rest_at(model, x);
    // the stop gives by 90 N over its rate
    EXPECT_NEAR(rest.pressure / (kAtmosphere * air / (air - model.rod_area * x)), 1.0, 2e-3) << x;
    EXPECT_EQ(rest.outcome.status, Status::OutOfRange);
  }
}

TEST(Rest, ARodThatTheReservoirCannotTakeIsSaid) {
  MotionModel model = sprung(0.0);
  model.reservoir.piston->travel_out = 0.01;  // takes 5.3 of the rod's 11.3 cm3
  const RestPoint rest = rest_at(model, 0.1);
  EXPECT_NE(rest.outcome.status, Status::Converged);
  EXPECT_TRUE(rest_at(model, 0.02).outcome.ok());
}

// the gauge was read with the bubbles in the oil: rod fully out, what was set stands there, however many
TEST(Rest, BubblesLeaveTheSetPressureAlone) {
  for (const double share : {0.0, 0.002, 0.01, 0.05}) {
    MotionModel bubbles = sprung(0.0);
    bubbles.reservoir.piston->travel_in = 0.05;
    bubbles.oil.entrained_air = share;
    const double set = kAtmosphere + 90.0 / bubbles.reservoir.piston->area;
    EXPECT_NEAR(rest_at(bubbles, 0.0).pressure / set, 1.0, 1e-9) << share;
  }
}

// Boyle: from the set pressure on, bubbles of V at one atmosphere leave the piston V (p0/p_set - p0/p) behind
TEST(Rest, BubblesAreSqueezedFromTheSetPressureOn) {
  MotionModel bubbles = sprung(0.0);
  bubbles.reservoir.piston->travel_in = 0.02;
  bubbles.oil.entrained_air = 0.01;
  const RestPoint rest = rest_at(bubbles, 0.05);
  const double room = bubbles.compression.volume + bubbles.rod.volume + bubbles.reservoir.oil.volume;
  const double set = kAtmosphere + 90.0 / bubbles.reservoir.piston->area;
  // what fills it at the set pressure takes more room at one atmosphere
  const double air = 0.01 * room / (0.99 + 0.01 * kAtmosphere / set);
  const double squeezed = air * kAtmosphere * (1.0 / set - 1.0 / rest.pressure);
  EXPECT_GT(squeezed, 0.0);
  EXPECT_NEAR(rest.reservoir_taken, bubbles.rod_area * 0.05 - squeezed, 1e-12);
}

}  // namespace
}  // namespace shimwright::damper
