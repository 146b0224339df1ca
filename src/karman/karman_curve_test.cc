#include "karman/karman_curve.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/check.h"
#include "karman/test_random_stacks.h"
#include "plate/lift_curve.h"

namespace shimwright::karman {
namespace {

plate::Stack stack_of(std::initializer_list<std::pair<double, double>> diameter_and_thickness_mm) {
  plate::Stack stack = RandomStacks(1).stack(StackClass::Taper, kTestValves[0], 2, 2);
  stack.discs.clear();
  for (const auto& [diameter, thickness] : diameter_and_thickness_mm) {
    plate::Disc disc;
    disc.bore_radius = 3e-3;
    disc.outer_radius = 0.5e-3 * diameter;
    disc.thickness = 1e-3 * thickness;
    stack.discs.push_back(disc);
  }
  return stack;
}

Curve curve_of(const plate::Stack& stack, double p_max) {
  static const DiscTable table = test_table(kTestValves[0]);
  Workspace workspace;
  Curve curve;
  find_curve(table, stack, p_max, workspace, curve);
  return curve;
}

TEST(KarmanCurve, OpensWhereTheFullSolverDoes) {
  for (const double height : {0.02e-3, 0.1e-3, 0.25e-3}) {
    plate::Stack stack = stack_of({{24, 0.15}, {24, 0.15}, {21, 0.15}, {18, 0.2}});
    stack.seat.height = height;
    plate::Workspace workspace;
    const double full = *plate::opening_pressure(stack, 5e6, plate::Options{}, workspace);
    const Curve curve = curve_of(stack, 1.5 * full);
    EXPECT_NEAR(curve.opening_pressure / full, 1.0, 5e-3) << height;
    EXPECT_EQ(lift_at(curve, 0.99 * curve.opening_pressure), 0.0);
    EXPECT_GT(lift_at(curve, 1.01 * curve.opening_pressure), 0.0);
  }
}

TEST(KarmanCurve, StaysShutWhereThePressureDoesNotOpen) {
  plate::Stack stack = stack_of({{24, 0.3}, {22, 0.3}});
  stack.seat.height = 0.3e-3;
  const Curve curve = curve_of(stack, 1e5);
  EXPECT_EQ(curve.outcome.status, Status::Converged);
  EXPECT_EQ(curve.opening_pressure, 1e5);
  EXPECT_EQ(lift_at(curve, 1e5), 0.0);
}

TEST(KarmanCurve, HasAKinkWhereAGapCloses) {
  const Curve curve = curve_of(stack_of({{24, 0.15}, {14, 0.15}, {24, 0.3}, {20, 0.3}}), 1e6);
  int n_kinks = 0;
  for (std::size_t k = 1; k < curve.pressure.size(); ++k)
    if (curve.pressure[k] == curve.pressure[k - 1]) {
      ++n_kinks;
      EXPECT_GT(curve.slope[k - 1], 1.5 * curve.slope[k]) << "the second stage is far stiffer";
    }
  EXPECT_EQ(n_kinks, 1);
}

TEST(KarmanCurve, LowSeatIsOpenAtRest) {
  plate::Stack stack = stack_of({{24, 0.15}, {20, 0.15}});
  stack.seat.height = -0.05e-3;
  const Curve curve = curve_of(stack, 3e5);
  EXPECT_EQ(curve.opening_pressure, 0.0);
  EXPECT_DOUBLE_EQ(lift_at(curve, 0.0), 0.05e-3);
  EXPECT_DOUBLE_EQ(lift_at(curve, -1.0), 0.05e-3);
}

TEST(KarmanCurve, ReadsManyAsOneByOneAndGivesTheArea) {
  const Curve curve = curve_of(stack_of({{24, 0.15}, {20, 0.15}}), 4e5);
  std::vector<double> pressures, lifts(31);
  for (int k = 0; k <= 30; ++k) pressures.push_back(2e4 * k);  // half as far again as the curve was solved
  lifts_at(curve, pressures, lifts);
  for (std::size_t k = 0; k < pressures.size(); ++k) {
    EXPECT_EQ(lifts[k], lift_at(curve, pressures[k]));
    EXPECT_GE(lifts[k], lifts[k > 0 ? k - 1 : 0]);
    // 2 pi x 11 mm x 0.8 of the circle
    EXPECT_DOUBLE_EQ(opening_area_at(curve, pressures[k]),
                     2.0 * 3.14159265358979323846 * 11e-3 * 0.8 * lifts[k]);
  }
}

TEST(KarmanCurve, GivesTheSameBitsAfterAnyOther) {
  RandomStacks random(5);
  const DiscTable table = test_table(kTestValves[0]);
  Workspace used;
  Curve again, fresh;
  for (int i = 0; i < 40; ++i) {
    const StackClass of = static_cast<StackClass>(i % 4);
    const plate::Stack stack = random.stack(of, kTestValves[0], 2, 12);
    Workspace unused;
    find_curve(table, stack, 1e6, unused, fresh);
    find_curve(table, stack, 1e6, used, again);
    EXPECT_EQ(fresh.pressure, again.pressure);
    EXPECT_EQ(fresh.lift, again.lift);
    EXPECT_EQ(fresh.slope, again.slope);
  }
}

TEST(KarmanCurve, SaysWhereItWasNeverHeldToTheFullSolver) {
  const Curve curve = curve_of(stack_of({{24, 0.10}}), 2e7);
  EXPECT_EQ(curve.outcome.status, Status::OutOfRange);
  EXPECT_FALSE(curve.outcome.note.empty());
}

TEST(KarmanCurve, SettlesOnEveryRandomStack) {
  RandomStacks random(11);
  Workspace workspace;
  Curve curve;
  for (const TestValve& valve : kTestValves) {
    const DiscTable table = test_table(valve);
    for (int i = 0; i < 500; ++i) {
      const plate::Stack stack = random.stack(static_cast<StackClass>(i % 4), valve, 1, 12);
      find_curve(table, stack, 1e5 * random.between(1, 30), workspace, curve);
      EXPECT_NE(curve.outcome.status, Status::Stalled) << i;
    }
  }
}

}  // namespace
}  // namespace shimwright::karman
