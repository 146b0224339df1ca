// Piles of equal discs at large lift: one layer against the same discs one by one, and against shells.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "plate/lift_curve.h"
#include "plate/stack.h"
#include "plate/test_shapes.h"
#include "plate/test_stacks.h"

namespace shimwright::plate {
namespace {

constexpr double kApart = 0.1e-6;  // of radius: discs that differ by this are layers of their own [m]

Stack pile(int n, double thickness_mm) {
  Stack stack = test_stack({{12, thickness_mm}});
  stack.load = {6.5e-3, 10.5e-3, 1.0, 0.0};
  stack.seat = {false, 11e-3, 0.0};
  stack.discs.assign(static_cast<std::size_t>(n), stack.discs[0]);
  return stack;
}

/// The same discs, every second of equal neighbours narrower by nothing that counts.
Stack one_by_one(Stack stack) {
  for (std::size_t i = 1; i < stack.discs.size(); ++i)
    if (stack.discs[i] == stack.discs[i - 1]) stack.discs[i].outer_radius -= kApart;
  return stack;
}

StackPoint solve(const Stack& stack, double pressure) {
  Workspace workspace;
  const double pressures[] = {pressure};
  return stack_response(stack, pressures, Options{}, workspace).points[0];
}

TEST(EqualPile, LiftsAsIndependentShellsSay) {
  // 15 x 24 x 0.20 mm on a clamp of 12 mm: lift at the seat by a geometrically exact shell of revolution for
  // each disc, which slide on each other's surfaces; computed outside this project
  const double pressure_mpa[] = {1.0, 3.0, 6.0, 10.0};
  const double lift_um[] = {27.035, 77.942, 142.762, 209.784};
  for (int i = 0; i < 4; ++i) {
    const StackPoint point = solve(pile(15, 0.20), 1e6 * pressure_mpa[i]);
    EXPECT_NEAR(point.lift_seat * 1e6 / lift_um[i], 1.0, 1e-3) << pressure_mpa[i];
    // and says so itself
    EXPECT_GE(point.mesh_error, std::abs(point.lift_seat * 1e6 / lift_um[i] - 1.0)) << pressure_mpa[i];
  }
}

struct PileCase {
  int n;
  double thickness_mm, pressure_mpa;
};

TEST(EqualPile, BendsAsItsDiscsOneByOne) {
  for (const auto& [n, thickness, pressure] :
       {PileCase{15, 0.20, 10.0}, {20, 0.20, 14.7}, {8, 0.15, 2.5}, {3, 0.30, 3.0}}) {
    const Stack stack = pile(n, thickness);
    const StackPoint together = solve(stack, 1e6 * pressure);
    const StackPoint apart = solve(one_by_one(stack), 1e6 * pressure);
    EXPECT_NEAR(together.lift_seat / apart.lift_seat, 1.0, 1e-3) << n;
    EXPECT_NEAR(together.lift_rim / apart.lift_rim, 1.0, 1e-3) << n;
    EXPECT_NEAR(together.max_stress / apart.max_stress, 1.0, 1e-2) << n;
    for (std::size_t i = 0; i < stack.discs.size(); ++i)
      EXPECT_NEAR(together.discs[i].max_stress / apart.discs[i].max_stress, 1.0, 2e-2) << n << ' ' << i;
    EXPECT_GE(together.mesh_error, std::abs(together.lift_seat / apart.lift_seat - 1.0)) << n;
  }
}

TEST(EqualPile, BendsAsItsDiscsOneByOneWithPreloadGapAndRing) {
  // behind a gap shim, on a seat above the clamp plane, around a ring, under a coil spring
  Stack two_stages = test_stack({{12, 0.20},
                                 {12, 0.20},
                                 {12, 0.20},
                                 {12, 0.20},
                                 {7, 0.10},
                                 {11, 0.25},
                                 {11, 0.25},
                                 {11, 0.25},
                                 {9, 0.30},
                                 {9, 0.30}});
  two_stages.seat = {true, 10.5e-3, 0.05e-3};
  Stack ringed = test_stack({{12, 0.15},
                             {12, 0.15},
                             {12, 0.15},
                             {6.8, 0.15},
                             {11.5, 0.20},
                             {11.5, 0.20},
                             {11, 0.20},
                             {11, 0.20},
                             {11, 0.20}});
  ringed.discs[4].bore_radius = ringed.discs[5].bore_radius = 9e-3;
  ringed.discs[4].thickness = ringed.discs[5].thickness = 0.10e-3;
  Stack sprung = pile(6, 0.20);
  sprung.back_spring = {true, 10e-3, 80e3, 5.0, 0.0};
  for (const Stack& stack : {two_stages, ringed, sprung}) {
    for (const double pressure : {1e6, 3e6}) {
      const StackPoint together = solve(stack, pressure);
      const StackPoint apart = solve(one_by_one(stack), pressure);
      ASSERT_NE(apart.outcome.status, Status::Stalled);
      // of the lift, or of a twentieth of the 0.1 mm that these lift in the end
      EXPECT_NEAR(together.lift_seat, apart.lift_seat, 1e-3 * std::max(apart.lift_seat, 5e-6))
          << described(stack);
    }
  }
}

// RC_PARAMS=max_success=1000 build-check/plate_tests --gtest_filter='EqualPile.Random*' tries a thousand.
constexpr double kSame = 1e-3;  // of how far it bends, or of a twentieth of the most that it does
// loose rings move by where they touch, and rims of notches become places of contact of their own
constexpr double kSameWithRings = 1e-2;
constexpr int kMostSolves = 1100;

RC_GTEST_PROP(EqualPile, RandomStacksBendAsTheirDiscsOneByOneAndRise, ()) {
  const Stack stack = any_shape();
  RC_PRE(validate(stack).empty());
  RC_LOG() << described(stack);
  const double p_max = any_pressure_for(stack);
  const std::vector<double> pressures = {0.25 * p_max, 0.5 * p_max, p_max};
  Options options;
  options.refinement = 2;  // or the place of a contact, which falls between the points of either, decides
  options.estimate_mesh_error = false;
  Workspace workspace;
  const StackResult together = stack_response(stack, pressures, options, workspace);
  const StackResult apart = stack_response(one_by_one(stack), pressures, options, workspace);
  RC_CLASSIFY(together.outcome.status == Status::Stalled, "stalled");
  RC_PRE(together.outcome.status != Status::Stalled && apart.outcome.status != Status::Stalled);
  const auto bend = [&](const StackPoint& point) { return std::abs(point.lift_seat + stack.seat.height); };
  const double largest = bend(together.points.back());
  const bool plain = std::ranges::all_of(stack.discs, [&](const Disc& disc) {
    return disc.notches.count == 0 && disc.bore_radius < 0.8 * stack.clamp_radius;
  });
  double before = -1.0;
  for (std::size_t i = 0; i < pressures.size(); ++i) {
    const StackPoint& point = together.points[i];
    RC_ASSERT(std::isfinite(point.lift_seat + point.lift_rim + point.max_stress + point.slope));
    RC_ASSERT(point.lift_seat >= before - 1e-6 * largest - 1e-12);
    before = point.lift_seat;
    const double of = std::max({bend(point), 0.05 * largest, 1e-6});
    RC_LOG() << point.pressure << ": " << point.lift_seat << " and " << apart.points[i].lift_seat << '\n';
    RC_ASSERT(std::abs(point.lift_seat - apart.points[i].lift_seat) < (plain ? kSame : kSameWithRings) * of);
  }
}

RC_GTEST_PROP(EqualPile, RandomCurvesTakeABoundedNumberOfSolves, ()) {
  Stack stack = any_shape();
  RC_PRE(validate(stack).empty());
  RC_LOG() << described(stack);
  const double p_max = any_pressure_for(stack) * between(0.1, 10.0);
  Workspace workspace;
  const LiftCurve curve = lift_curve(stack, p_max, Options{}, workspace);
  RC_ASSERT(curve.outcome.iterations <= kMostSolves);
  for (std::size_t k = 0; k < curve.lift.size(); ++k)
    RC_ASSERT(std::isfinite(curve.lift[k] + curve.slope[k] + curve.pressure[k]));
}

}  // namespace
}  // namespace shimwright::plate
