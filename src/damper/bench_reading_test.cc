#include "damper/bench_reading.h"

#include <gtest/gtest.h>

#include "damper/test_motions.h"

namespace shimwright::damper {
namespace {

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
