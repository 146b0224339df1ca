#include <gtest/gtest.h>

#include <cmath>

#include "valve/valve.h"

// With the real plate solver behind it.

namespace shimwright::valve {
namespace {

constexpr oil::Liquid kOil{.density = 860.0, .viscosity = 0.010};

/// The disc of physics case 4.3: 16 mm outside on an 8 mm clamp, 0.20 mm, full-face pressure.
plate::Stack single_disc() {
  plate::Disc disc;
  disc.outer_radius = 16e-3;
  disc.bore_radius = 4e-3;
  disc.thickness = 0.2e-3;
  disc.youngs_modulus = 206e9;
  disc.poisson_ratio = 0.3;
  plate::Stack stack;
  stack.discs = {disc};
  stack.clamp_radius = 8e-3;
  stack.load.inner_radius = 8e-3;
  stack.load.outer_radius = 16e-3;
  stack.seat.radius = 16e-3;
  return stack;
}

ValveModel benchmark_model() {
  const flow::Discharge fixed = flow::fixed_discharge(0.7);
  ValveModel model;
  model.compression.ports = flow::Orifice{.area = 120e-6, .hydraulic_diameter = 5e-3, .discharge = fixed};
  model.compression.stack = single_disc();
  model.compression.curtain_discharge = fixed;
  model.rebound = model.compression;
  model.bleeds = {{.passage = flow::Orifice{.area = 3e-6, .hydraulic_diameter = 1.9e-3, .discharge = fixed}}};
  return model;
}

const plate::Options kLinearThin{.theory = Theory::Linear, .shear_flexible = false};

// physics cases QS-01 and QS-06, from the disc's own geometry to the drop: plate, curtain, port and bleed
// together.
TEST(SolveValve, TheWholeChainReadsTheQuasiStaticBenchmark) {
  plate::Workspace workspace;
  const SolvedValve solved = solve_valve(benchmark_model(), kOil, 2.5 * 1548.805e-6, kLinearThin, workspace);
  EXPECT_NEAR(drop_at(solved.law, 1548.805e-6 * 0.05) / 28544.6, 1.0, 5e-4);  // tolerance of the case
  EXPECT_NEAR(drop_at(solved.law, 1548.805e-6 * 2.0) / 931407.0, 1.0, 5e-4);
  EXPECT_NEAR(state_at(solved.law, 28544.6).lift * 1e3 / 0.10563, 1.0, 5e-4);
}

TEST(SolveValve, SolvesAsFarAsTheFlowNeedsAndNotMuchFurther) {
  plate::Workspace workspace;
  for (const Theory theory : {Theory::Linear, Theory::Large})
    for (const double q_max : {1e-4, 3e-3, 1e-2}) {
      const SolvedValve solved = solve_valve(benchmark_model(), kOil, q_max, {.theory = theory}, workspace);
      const ValveState state = state_at(solved.law, drop_at(solved.law, q_max));
      EXPECT_FALSE(state.beyond_table) << q_max;
      EXPECT_LT(solved.stacks.compression->pressure.back(), 8.0 * state.pocket) << q_max;
      EXPECT_TRUE(std::isfinite(drop_at(solved.law, -q_max)));
    }
}

TEST(SolveValve, ItsStackIsReadyForAClosedNeedle) {
  ValveModel model = benchmark_model();
  model.bleeds = {{.passage = flow::Needle{.bore_diameter = 3e-3,
                                           .half_angle = 0.2,
                                           .pitch = 1e-3,
                                           .clicks_per_turn = 10.0,
                                           .clicks = 20.0}}};
  plate::Workspace workspace;
  const double q_max = 3e-4;
  const SolvedValve solved = solve_valve(model, kOil, q_max, {}, workspace);
  std::get<flow::Needle>(model.bleeds[0].passage).clicks = 0.0;
  const ValveLaw shut = valve_law(model, solved.stacks, kOil);
  for (const double q : {q_max, -q_max}) EXPECT_FALSE(state_at(shut, drop_at(shut, q)).beyond_table) << q;
}

// What is asked beside must not move a number: a range with its end inside the first piece of the curve
// would.
TEST(SolveValve, AnsweredAlikeWhateverTheLargestFlow) {
  plate::Workspace workspace;
  ValveModel model = benchmark_model();
  model.compression.stack->slide = {.travel = 0.3e-3, .spring_force = 4.0, .spring_rate = 2e3};
  const double q = 2e-5;
  const auto drop = [&](double q_max) {
    return drop_at(solve_valve(model, kOil, q_max, {}, workspace).law, q);
  };
  const double alone = drop(4e-5);
  for (const double q_max : {1e-4, 1e-3, 5e-3}) EXPECT_NEAR(drop(q_max) / alone, 1.0, 1e-6) << q_max;
}

TEST(SolveValve, LargeDeflectionIsStifferThanLinear) {
  plate::Workspace workspace;
  const double q = 3e-3;
  const SolvedValve linear = solve_valve(benchmark_model(), kOil, q, {.theory = Theory::Linear}, workspace);
  const SolvedValve large = solve_valve(benchmark_model(), kOil, q, {.theory = Theory::Large}, workspace);
  EXPECT_GT(drop_at(large.law, q), drop_at(linear.law, q));
  // and the same where the lift is a tenth of the thickness
  EXPECT_NEAR(drop_at(large.law, 3e-5) / drop_at(linear.law, 3e-5), 1.0, 0.01);
}

TEST(SolveValve, AValveThatCannotPassTheFlowEndsAtTheLimit) {
  ValveModel model = benchmark_model();
  model.compression.ports->area = 0.01e-6;
  plate::Workspace workspace;
  const SolvedValve solved = solve_valve(model, kOil, 1.0, kLinearThin, workspace, {.drop_max = 2e6});
  EXPECT_TRUE(state_at(solved.law, drop_at(solved.law, 1.0)).beyond_table);
}

TEST(SolveValve, AFloatingCheckPlateOpensAtOnce) {
  ValveModel model = benchmark_model();
  model.rebound.stack->slide.travel = 1e-3;
  model.rebound.stack->slide.spring_force = 1.0;
  model.rebound.stack->slide.spring_rate = 500.0;
  plate::Workspace workspace;
  const SolvedValve solved = solve_valve(model, kOil, 3e-3, {}, workspace);
  // 1 N on the pocket is a couple of kilopascals, and the plate is fully back within a few more
  EXPECT_GT(state_at(solved.law, -2e4).lift, 0.95e-3);
  EXPECT_LT(std::abs(drop_at(solved.law, -1e-3)), 0.5 * drop_at(solved.law, 1e-3));
}

}  // namespace
}  // namespace shimwright::valve
