#include "damper/motion_system.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "damper/test_motions.h"

namespace shimwright::damper::motion {
namespace {

double between(double low, double high) {
  return low + (high - low) * (*rc::gen::inRange(0, 1000001)) * 1e-6;
}

/// A state from all over the place: pressures below release and high, the piston at its stops, the rod in the
/// lock.
FullState any_state(const MotionModel& model) {
  FullState y{};
  for (const int p : {kPressureC, kPressureR, kPressureS}) y[p] = std::pow(10.0, between(3.7, 6.5));
  // a trace at least: a difference from none would reach to less than none, which counts as none
  y[kReleasedC] = between(1e-9, 5e-6);
  y[kReleasedR] = between(1e-9, 1e-6);
  y[kReleasedS] = between(1e-9, 1e-6);
  const double area = model.reservoir.piston ? model.reservoir.piston->area : 1e-3;
  y[kTaken] = area * between(-7e-3, 60e-3);
  y[kTakenRate] = area * between(-0.5, 0.5);
  y[kLift] = between(0.0, 0.3e-3);
  y[kTemperature] = between(280.0, 340.0);
  y[kTravel] = between(0.0, 0.199);
  y[kSpeed] = between(-3.0, 3.0);
  if (!model.reservoir.piston || model.reservoir.piston->mass == 0.0) {
    // nothing to speed up: the oil stands at the pressure that holds it
    y[kTaken] = std::abs(y[kTaken]);
    y[model.laws.front().laws.foot ? kPressureS : kPressureC] =
        holding_pressure(model.reservoir, y[kTaken], y[kTravel]).value;
  }
  return y;
}

MotionModel any_model() {
  MotionModel model = crowded_cartridge();
  switch (*rc::gen::inRange(0, 5)) {
    case 0:
      break;
    case 1:
      model.reservoir.piston->mass = model.reservoir.piston->friction = 0.0;
      break;
    case 2:
      model.reservoir.piston.reset();
      model.reservoir.gas->travel_area = 200e-6;
      break;
    case 3:
      for (LawsAt& at : model.laws) at.laws.foot.reset();
      break;
    default:
      for (LawsAt& at : model.laws) at.laws.foot.reset();
      model.reservoir.piston->mass = model.reservoir.piston->friction = 0.0;
      model.reservoir.gas->travel_area = 100e-6;
      model.float_valve->in_compression = false;
      break;
  }
  if (*rc::gen::inRange(0, 2) == 0) model.springs = springs_of_a_leg(model.travel);
  return model;
}

RC_GTEST_PROP(MotionSystem, DerivativesAreThoseOfTheRates, ()) {
  const MotionModel model = any_model();
  RC_ASSERT(validate(model).empty());
  MotionSystem system(model, 0.7);
  system.let_air_out();
  const FullState y = any_state(model);
  // an orifice is vertical at no drop: differences say nothing there
  RC_PRE(std::abs(y[kPressureC] - y[kPressureR]) > 1e3 && std::abs(y[kPressureC] - y[kPressureS]) > 1e3);
  FullJacobian j;
  FullState f_time, up, down;
  system.jacobian(y, j, f_time);
  for (const int column : system.places()) {
    const double h = 1e-6 * kScale[column];
    FullState moved = y;
    moved[column] = y[column] + h;
    system.rates(moved, up);
    moved[column] = y[column] - h;
    system.rates(moved, down);
    FullState here;
    system.rates(y, here);
    for (int row = 0; row < kAllPlaces; ++row) {
      const double slope = (up[row] - down[row]) / (2 * h);
      // a kink between the two points makes both sides differ; it says nothing of the derivative
      const double left = (here[row] - down[row]) / h;
      const double right = (up[row] - here[row]) / h;
      const double scale = kScale[column] / kScale[row];
      // rounding of the difference, and its second order
      const double noise = 1e-9 * std::abs(here[row]) / kScale[row] * 1e6 * 1e-3 +
                           1e-3 * std::abs(slope) * scale + 2.0 * std::abs(right - left) * scale + 1e-2;
      if (std::abs(slope - j[row][column]) * scale > noise)
        RC_LOG() << "row " << row << " column " << column << ": " << j[row][column] << " for " << slope;
      RC_ASSERT(std::abs(slope - j[row][column]) * scale <= noise);
    }
  }
}

RC_GTEST_PROP(MotionSystem, WorkGoesIntoHeatOrIsStoredAtEveryMoment, ()) {
  const MotionModel model = any_model();
  MotionSystem system(model, 0.7);
  system.let_air_out();
  const FullState y = any_state(model);
  FullState f;
  system.rates(y, f);
  // dE/dt along the rates; the rod's kinetic energy is in E, so that no work comes in
  FullState ahead = y, behind = y;
  double step = 1e-9;
  for (const int p : system.places()) step = std::min(step, 1e-4 * kScale[p] / (std::abs(f[p]) + 1e-30));
  for (const int p : system.places()) {
    ahead[p] += step * f[p];
    behind[p] -= step * f[p];
  }
  const double stored = (system.stored_energy(ahead) - system.stored_energy(behind)) / (2 * step);
  double lost = 0.0;  // oil that leaves by the port takes its own along
  if (model.reservoir.piston && model.reservoir.piston->port)
    lost = f[kLost] * squeezed_at(model.oil, model.reservoir.piston->port->outside_pressure).oil_enthalpy;
  const double rounding = 1e-13 / step;  // of energies of some 100 J
  RC_ASSERT(std::abs(stored + f[kHeat] + lost) <=
            1e-5 * (std::abs(f[kHeat]) + std::abs(f[kWork])) + rounding + 1e-4);
}

RC_GTEST_PROP(MotionSystem, HeatIsNeverNegative, ()) {
  const MotionModel model = any_model();
  MotionSystem system(model, 0.7);
  system.let_air_out();
  const FullState y = any_state(model);
  FullState f;
  system.rates(y, f);
  RC_ASSERT(f[kHeat] >= -1e-9 * std::abs(f[kWork]));
}

TEST(MotionSystem, OilIsNeitherMadeNorLost) {
  // closed at the port: oil and trapped air as amounts stay while the rod moves
  MotionModel model = crowded_cartridge();
  model.reservoir.piston->port.reset();
  model.oil.bunsen = 0.0;
  MotionSystem system(model, 0.7);
  FullState y = system.rest_state(0.1);
  y[kSpeed] = 0.8;
  y[kPressureR] *= 0.7;
  FullState f;
  system.rates(y, f);
  const auto amount = [&](const FullState& s) {
    double sum = 0.0;
    const double ring = model.piston_area - model.rod_area;
    const double volumes[] = {model.compression.volume - model.piston_area * s[kTravel],
                              model.rod.volume + ring * s[kTravel], model.reservoir.oil.volume + s[kTaken]};
    const double compliances[] = {model.compression.compliance, model.rod.compliance, 0.0};
    const double air[] = {model.compression.trapped_air, model.rod.trapped_air, 0.0};
    for (int i = 0; i < 3; ++i) {
      const double p = s[kPressureC + i];
      const Squeezed q = squeezed_at(model.oil, p);
      sum += (volumes[i] + compliances[i] * (p - oil::kAtmosphere) - air[i] * q.air) / q.oil;
    }
    return sum;
  };
  const double h = 1e-9;
  FullState ahead = y, behind = y;
  for (const int p : system.places()) {
    ahead[p] += h * f[p];
    behind[p] -= h * f[p];
  }
  // relative to the flows of some 1e-4 m^3/s; rounding of 1e-4 m^3 over the step
  EXPECT_NEAR((amount(ahead) - amount(behind)) / (2 * h), 0.0, 1e-9);
}

TEST(QuickLaw, IsTheValveLaw) {
  const TestDamper damper = cartridge();
  QuickLaw quick(damper.solved.laws.piston);
  for (int i = -400; i <= 400; ++i) {
    const double drop = std::copysign(std::pow(std::abs(i) / 100.0, 8) * 100.0, i);  // up to 6.5 MPa
    const flow::FlowPoint exact = valve::flow_at(damper.solved.laws.piston, drop);
    const QuickLaw::Point point = quick.at(drop);
    EXPECT_NEAR(point.q, exact.q, 1e-12 * std::abs(exact.q) + 1e-20) << drop;
    if (drop != 0.0) {
      EXPECT_NEAR(point.by_drop / exact.dq_ddp, 1.0, 1e-9) << drop;
    }
  }
}

// A step that is tried with no number in it must not read beside a table.
TEST(MotionElements, NoNumberAsksForNoPlaceBesideATable) {
  const double none = std::numeric_limits<double>::quiet_NaN();
  const PositionBleed bleed{.travel = {0.05, 0.1, 0.12}, .area = {0.0, 3e-6, 1e-6}};
  EXPECT_EQ(bleed_area(bleed, none).value, 0.0);
  EXPECT_DOUBLE_EQ(bleed_area(bleed, 0.075).value, 1.5e-6);
  EXPECT_EQ(bleed_area(bleed, 0.12).value, 1e-6);
  EXPECT_EQ(bleed_area(bleed, 0.2).value, 1e-6);
}

}  // namespace
}  // namespace shimwright::damper::motion
