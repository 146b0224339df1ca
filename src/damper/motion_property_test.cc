#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstring>

#include "damper/motion.h"
#include "damper/test_motions.h"

namespace shimwright::damper {
namespace {

double drawn_between(double low, double high) {
  return low + (high - low) * (*rc::gen::inRange(0, 1000001)) * 1e-6;
}

/// A stroke as a rider might make it: 20 random travels, 30 ms apart, both ends at rest.
SampledDrive any_stroke(double travel) {
  SampledDrive drive;
  for (int i = 0; i < 20; ++i) {
    drive.time.push_back(0.03 * i);
    drive.travel.push_back(travel * drawn_between(0.2, 0.8));
  }
  drive.smoothness = *rc::gen::element(Smoothness::Speed, Smoothness::Acceleration);
  return drive;
}

MotionModel any_model() {
  MotionModel model = *rc::gen::inRange(0, 2) == 0 ? sprung_cartridge() : crowded_cartridge();
  model.rod.trapped_air = drawn_between(0.0, 2e-6);
  model.compression.trapped_air = drawn_between(0.0, 5e-6);
  model.seal_friction = drawn_between(0.0, 40.0);
  if (*rc::gen::inRange(0, 3) == 0)
    for (LawsAt& at : model.laws) at.laws.foot.reset();
  return model;
}

RC_GTEST_PROP(MotionProperty, ADamperGivesNoMoreThanItTookInAnyStroke, ()) {
  const MotionModel model = any_model();
  const MotionResult result = run_motion(model, any_stroke(model.travel));
  RC_ASSERT(result.outcome.status != Status::Stalled);
  const CycleFigures& cycle = result.cycles.at(0);
  RC_ASSERT(cycle.heat >= 0.0);
  // the energy that left with oil through the port is not in the balance: a ten-thousandth
  RC_ASSERT(std::abs(cycle.energy_in - cycle.heat - cycle.stored_change) <= 1e-4 * cycle.heat + 1e-9);
}

RC_GTEST_PROP(MotionProperty, PressuresStayAboveNothingAndGasIsNeverNegative, ()) {
  const MotionModel model = any_model();
  const MotionResult result = run_motion(model, any_stroke(model.travel));
  for (const MotionSample& s : result.samples) {
    RC_ASSERT(std::min({s.p_compression, s.p_rod, s.p_reservoir}) > 0.0);
    RC_ASSERT(s.released >= -1e-12 && s.gas_compression >= 0.0 && s.gas_rod >= 0.0);
  }
}

RC_GTEST_PROP(MotionProperty, FrictionOfTheSealsAddsItsOwnWorkAndNothingElse, ()) {
  MotionModel model = sprung_cartridge();
  model.heat.reset();
  const Drive drive = any_stroke(model.travel);
  model.seal_friction = 0.0;
  const MotionResult without = run_motion(model, drive);
  model.seal_friction = 20.0;
  const MotionResult with = run_motion(model, drive);
  // pressures do not know of it, but the steps do: their tolerance, with some to add up
  for (std::size_t i = 0; i < with.samples.size(); ++i)
    RC_ASSERT(std::abs(with.samples[i].p_rod - without.samples[i].p_rod) <= 1e-3 * without.samples[i].p_rod);
  RC_ASSERT(with.cycles[0].energy_in >= without.cycles[0].energy_in);
}

TEST(MotionProperty, TheSameRunGivesTheSameBits) {
  const auto run = [] {
    return run_motion(crowded_cartridge(),
                      SineDrive{.middle = 0.1, .amplitude = 0.08, .frequency = 2.0, .n_cycles = 1});
  };
  const MotionResult a = run(), b = run();
  ASSERT_EQ(a.samples.size(), b.samples.size());
  EXPECT_EQ(std::memcmp(a.samples.data(), b.samples.data(), a.samples.size() * sizeof(MotionSample)), 0);
}

TEST(MotionProperty, EnergyBalancesOverACycleToATenThousandth) {
  for (const MotionModel& model : {sprung_cartridge(), crowded_cartridge()})
    for (const double frequency : {0.5, 2.0, 6.0}) {
      const MotionResult result = run_motion(
          model, SineDrive{.middle = 0.1, .amplitude = 0.05, .frequency = frequency, .n_cycles = 2});
      ASSERT_EQ(result.cycles.size(), 2u);
      for (const CycleFigures& cycle : result.cycles) EXPECT_LT(cycle.energy_error, 1e-4) << frequency;
    }
}

/// A smooth damper: linear passage, gas, air in the oil; nothing switches.
MotionModel smooth_damper() {
  MotionModel model = linear_damper(2e-10, 2e6, 60e-6);
  model.rod.trapped_air = 1e-6;
  return model;
}

double end_force(double step, double tolerance) {
  const StepDrive drive{.from = 0.02, .to = 0.07, .rise_time = 0.1};
  const MotionResult result =
      run_motion(smooth_damper(), drive, {.tolerance = tolerance, .samples_per_cycle = 4, .step_max = step});
  return result.samples[2].force;  // in the middle of the rise
}

TEST(MotionProperty, HalvingTheStepConvergesAtTheMethodsOrder) {
  // a tolerance of a thousand lets every step pass: the step alone counts. Steps of 1/50, 1/100 of the
  // middle's time
  const double exact = end_force(1e-4, 1e-12);
  double last = 0.0;
  for (const int n : {40, 80, 160}) {
    const double off = std::abs(end_force(0.1 / n, 1e3) - exact);
    if (last > 0.0) {
      EXPECT_GT(std::log2(last / off), 3.5) << n;
    }
    last = off;
  }
}

TEST(MotionProperty, TheErrorFallsWithTheTolerance) {
  const MotionModel model = sprung_cartridge();
  const SineDrive drive{.middle = 0.1, .amplitude = 0.05, .frequency = 2.0, .n_cycles = 1};
  const auto energy = [&](double tolerance) {
    return run_motion(model, drive, {.tolerance = tolerance}).cycles.at(0).energy_in;
  };
  const double exact = energy(1e-10);
  for (const double tolerance : {1e-4, 1e-5, 1e-6, 1e-7})
    EXPECT_LT(std::abs(energy(tolerance) / exact - 1.0), 10 * tolerance) << tolerance;
}

TEST(MotionProperty, AirTakesTheLoopFurtherFromADamperTowardsASpring) {
  MotionModel model = sprung_cartridge();
  const SineDrive drive{.middle = 0.1, .amplitude = 0.05, .frequency = 4.0, .n_cycles = 3};
  double last = -1.0;
  for (const double air : {0.0, 1e-6, 2e-6, 5e-6}) {
    model.rod.trapped_air = air;
    const double lag = run_motion(model, drive).cycles.back().phase_lag;
    EXPECT_GT(lag, last) << air;
    last = lag;
  }
}

}  // namespace
}  // namespace shimwright::damper
