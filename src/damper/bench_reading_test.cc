#include "damper/bench_reading.h"

#include <gtest/gtest.h>

#include "damper/test_motions.h"

namespace shimwright::damper {
namespace {

const SineDrive kLoop{.middle = 0.1, .amplitude = 0.05, .frequency = 3.0, .n_cycles = 3};

/// What a bench would measure: force over the last cycle.
std::vector<double> measured(const MotionModel& model) {
  const MotionResult result = run_motion(model, kLoop);
  std::vector<double> force;
  for (std::size_t i = result.samples.size() - 201; i + 1 < result.samples.size(); ++i)
    force.push_back(result.samples[i].force);
  return force;
}

TEST(BenchReading, AirComesBackOutOfTheLoopItMade) {
  const MotionModel clean = sprung_cartridge();
  for (const Chamber chamber : {Chamber::Compression, Chamber::Rod})
    for (const double air : {0.5e-6, 2e-6, 5e-6}) {
      MotionModel damper = clean;
      (chamber == Chamber::Rod ? damper.rod : damper.compression).trapped_air = air;
      const AirEstimate estimate = air_from_loop(measured(damper), clean, kLoop, 10e-6);
      EXPECT_EQ(estimate.chamber, chamber) << air;
      EXPECT_NEAR(estimate.air, air, 0.02e-6);  // twice the width of the search
      EXPECT_LT(estimate.misfit, 1e-4);
      EXPECT_GT(estimate.misfit_clean, 10 * estimate.misfit);
      EXPECT_TRUE(estimate.outcome.ok());
    }
}

TEST(BenchReading, ACleanDamperHasNoAir) {
  const AirEstimate estimate = air_from_loop(measured(sprung_cartridge()), sprung_cartridge(), kLoop, 10e-6);
  EXPECT_LT(estimate.air, 0.02e-6);
}

TEST(BenchReading, AnOffsetAndAnotherSealFrictionDoNotCountAsAir) {
  MotionModel damper = sprung_cartridge();
  damper.rod.trapped_air = 2e-6;
  damper.seal_friction += 8.0;
  std::vector<double> force = measured(damper);
  for (double& f : force) f += 12.0;
  const AirEstimate estimate = air_from_loop(force, sprung_cartridge(), kLoop, 10e-6);
  EXPECT_EQ(estimate.chamber, Chamber::Rod);
  EXPECT_NEAR(estimate.air, 2e-6, 0.05e-6);
}

TEST(BenchReading, ValvesAFewPercentOffStillShowTheAirInTheRightPlace) {
  MotionModel damper = sprung_cartridge();
  damper.rod.trapped_air = 5e-6;
  TestDamper other = cartridge();
  other.liquid.density *= 1.03;
  solve(other);
  damper.laws[0].laws = other.solved.laws;
  const AirEstimate estimate = air_from_loop(measured(damper), sprung_cartridge(), kLoop, 10e-6);
  EXPECT_EQ(estimate.chamber, Chamber::Rod);
  EXPECT_NEAR(estimate.air, 5e-6, 1.5e-6);  // an estimate: to a third
}

TEST(BenchReading, MoreAirThanWasTriedIsSaid) {
  MotionModel damper = sprung_cartridge();
  damper.rod.trapped_air = 5e-6;
  EXPECT_EQ(air_from_loop(measured(damper), sprung_cartridge(), kLoop, 2e-6).outcome.status,
            Status::OutOfRange);
}

TEST(BenchReading, FadeIsTheShareOfEnergyThatIsGone) {
  CycleFigures first, last;
  first.energy_in = 50.0;
  last.energy_in = 40.0;
  EXPECT_NEAR(fade(first, last), 0.2, 1e-15);
}

TEST(BenchReading, AHotDamperFadesByWhatItsLawsSay) {
  // a linear passage of oil half as thick when 50 K warmer; heat makes it so
  MotionModel model = linear_damper(2e-11, 30e6, 1.0);
  model.laws.push_back({343.15, 870.0, {linear_law(4e-11), std::nullopt}});
  model.heat = HeatModel{.capacity = 600.0, .loss = 0.0};
  const MotionResult result =
      run_motion(model, SineDrive{.middle = 0.05, .amplitude = 0.03, .frequency = 1.0, .n_cycles = 30},
                 {.samples_per_cycle = 0});
  const CycleFigures& first = result.cycles.front();
  const CycleFigures& last = result.cycles.back();
  // energy goes as 1 / conductance, which rises straight with temperature; mean of the cycle stands for it
  const auto conductance = [&](std::size_t i) {
    const double before = i == 0 ? model.temperature : result.cycles[i - 1].temperature_end;
    return 1.0 + (0.5 * (before + result.cycles[i].temperature_end) - 293.15) / 50.0;
  };
  EXPECT_NEAR(fade(first, last), 1.0 - conductance(0) / conductance(result.cycles.size() - 1), 2e-3);
  EXPECT_GT(fade(first, last), 0.2);
}

TEST(BenchReading, TheReservoirPressureThatIsNamedHoldsTheMargin) {
  MotionModel model = motion_of(cartridge());
  model.reservoir.gas = GasCushion{.pressure = 0.11e6, .volume = 1e-3};
  const SineDrive drive{.middle = 0.1, .amplitude = 0.05, .frequency = 12.0, .n_cycles = 2};
  const ReservoirNeed need = reservoir_need(model, drive, 30e3, 3e6);
  EXPECT_LT(need.lowest, 50e3);
  EXPECT_GT(need.raise_by, 0.0);
  EXPECT_TRUE(need.outcome.ok());
  const MotionResult cured = run_motion(with_reservoir_raised(model, need.raise_by), drive);
  EXPECT_NEAR(cured.cycles.back().lowest.value, 50e3, 2e3);
  EXPECT_EQ(cured.cycles.back().released_air, 0.0);
  EXPECT_EQ(reservoir_need(model, drive, 30e3, 1e3).outcome.status, Status::Stalled);
}

TEST(BenchReading, RaisingTheReservoirRaisesItsRestPressure) {
  for (MotionModel model : {sprung_cartridge(), crowded_cartridge()}) {
    const double before = rest_at(model, 0.0).pressure;
    EXPECT_NEAR(rest_at(with_reservoir_raised(model, 1e5), 0.0).pressure - before, 1e5,
                3e3);  // air gives a little
  }
}

}  // namespace
}  // namespace shimwright::damper
