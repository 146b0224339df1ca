#include <gtest/gtest.h>

#include <cmath>

#include "damper/motion.h"
#include "damper/test_motions.h"

namespace shimwright::damper {
namespace {

/// Linear damper with constant gas pressure and nearly rigid oil.
MotionModel plain(double gas_pressure) {
  MotionModel model = linear_damper(2e-10, gas_pressure, 1.0);
  model.oil.bulk_modulus = 1e14;
  return model;
}

// m v' = F - c v from rest: v = F/c (1 - e^(-t/tau)), tau = m / c
TEST(Release, ALinearDamperComesOutAsTheTextbookSays) {
  const MotionModel model = plain(1e6);
  const double ring = model.piston_area - model.rod_area;
  const double c = ring * ring / 2e-10;
  const double push = (1e6 - kAtmosphere) * model.rod_area;
  const double mass = 400.0;  // heavy, so that speeding up shows: tau 0.1 s
  const ReleaseResult result = rod_release(model, {.pushed_to = 0.08, .moving_mass = mass});
  EXPECT_TRUE(result.fully_out);
  EXPECT_EQ(result.rest_travel, 0.0);
  EXPECT_TRUE(result.outcome.ok());
  const double tau = mass / c;
  const auto out_by = [&](double t) { return push / c * (t - tau * (1.0 - std::exp(-t / tau))); };
  EXPECT_NEAR(out_by(result.time), 0.08, 1e-6);
  EXPECT_NEAR(out_by(result.time_to_half), 0.04, 1e-6);
  EXPECT_NEAR(result.peak_speed, push / c * (1.0 - std::exp(-result.time / tau)), 1e-6);
  ASSERT_GT(result.samples.size(), 100u);
  const MotionSample& s = result.samples[50];
  EXPECT_NEAR(0.08 - s.travel, out_by(s.time), 1e-5);
}

TEST(Release, ADraggingSealSlowsTheRodAndThenHoldsIt) {
  MotionModel model = plain(1e6);
  const double ring = model.piston_area - model.rod_area;
  const double push = (1e6 - kAtmosphere) * model.rod_area;  // 101.6 N
  double last = INFINITY;
  for (const double friction : {0.0, 20.0, 60.0, 85.0}) {
    model.seal_friction = friction;
    const ReleaseResult result =
        rod_release(model, {.pushed_to = 0.08, .moving_mass = 0.5, .time_max = 30.0});
    EXPECT_TRUE(result.fully_out) << friction;
    EXPECT_NEAR(result.peak_speed / ((push - friction) * 2e-10 / (ring * ring)), 1.0, 1e-3) << friction;
    EXPECT_LT(result.peak_speed, last);
    last = result.peak_speed;
  }
  model.seal_friction = 110.0;
  const ReleaseResult held = rod_release(model, {.pushed_to = 0.08, .moving_mass = 0.5});
  EXPECT_FALSE(held.fully_out);
  EXPECT_NEAR(held.rest_travel, 0.08, 1e-5);  // the friction law lets it creep a little
  EXPECT_TRUE(std::isinf(held.time_to_half));
  EXPECT_TRUE(held.outcome.ok());
}

/// A pressurised cartridge whose free piston stands on its stop with the rod fully out.
MotionModel on_the_stop(double air) {
  MotionModel model = plain(1e5);
  model.reservoir.gas.reset();
  model.reservoir.piston = FreePiston{.area = disc_area(26e-3),
                                      .spring_force = 90.0,
                                      .spring_rate = 3000.0,
                                      .travel_in = 0.0,
                                      .travel_out = 0.085};
  model.laws[0].laws.piston = linear_law(2e-9);
  model.oil.bulk_modulus = 1.5e9;
  model.oil.air_exponent = 1.0;
  model.compression.trapped_air = air;
  model.seal_friction = 5.0;
  model.friction_speed = 1e-5;  // nearly dry: creep ends early
  return model;
}

// the acceptance test: air that was compressed lets the rod stop short by V (1 - p0/p) / A_r, p = p0 + F_seal
// / A_r
TEST(Release, ARodWithAirStopsShortByTheAirsLostVolume) {
  EXPECT_TRUE(rod_release(on_the_stop(0.0), {.pushed_to = 0.08, .moving_mass = 0.05}).fully_out);
  double last = 0.0;
  for (const double air : {1e-6, 2e-6, 5e-6}) {
    const MotionModel model = on_the_stop(air);
    const ReleaseResult result =
        rod_release(model, {.pushed_to = 0.08, .moving_mass = 0.05, .time_max = 20.0});
    EXPECT_FALSE(result.fully_out) << air;
    EXPECT_TRUE(result.arrived) << air;
    const double pressure = kAtmosphere + model.seal_friction / model.rod_area;
    const double expected = air * (1.0 - kAtmosphere / pressure) / model.rod_area;
    // oil that springs back and the stop that gives: five percent of the least air
    EXPECT_NEAR(result.rest_travel / expected, 1.0, 0.05) << air;
    EXPECT_GT(result.rest_travel, last);
    last = result.rest_travel;
  }
}

TEST(Release, MoreAirBringsTheRodBackMoreSlowly) {
  MotionModel model = sprung_cartridge();
  double last = 0.0;
  for (const double air : {0.0, 1e-6, 2e-6, 5e-6}) {
    model.compression.trapped_air = air;
    model.seal_friction = 5.0;
    const ReleaseResult result =
        rod_release(model, {.pushed_to = 0.15, .moving_mass = 0.5, .time_max = 20.0});
    EXPECT_GT(result.time_to_half, last) << air;
    last = result.time_to_half;
  }
}

TEST(Release, ARodThatIsStillOnItsWayWhenTheTimeIsUpStillKnowsWhereItGoes) {
  const ReleaseResult result =
      rod_release(plain(1e6), {.pushed_to = 0.08, .moving_mass = 0.5, .time_max = 1e-3});
  EXPECT_FALSE(result.arrived);
  EXPECT_GT(result.end_travel, 0.07);
  EXPECT_TRUE(result.fully_out);
  EXPECT_EQ(result.rest_travel, 0.0);
  EXPECT_EQ(result.time, 1e-3);
}

}  // namespace
}  // namespace shimwright::damper
