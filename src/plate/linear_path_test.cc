#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "plate/stack.h"
#include "plate/test_stacks.h"

namespace shimwright::plate {
namespace {

/// Invented: a face stage, a gap shim and a second stage of discs that are all different, so that its onset
/// sends contact points wandering over every pair.
Stack wandering_stack() {
  Stack stack = test_stack({{12, 0.10},
                            {12, 0.10},
                            {7, 0.10},
                            {11.5, 0.10},
                            {11, 0.15},
                            {10.4, 0.10},
                            {9.7, 0.15},
                            {9, 0.10},
                            {8.2, 0.15},
                            {7.4, 0.15}});
  stack.seat = {true, 11e-3, 0.0};
  return stack;
}

double lift_on(const LinearPath& path, double pressure) {
  std::size_t k = 1;
  while (k + 1 < path.pressure.size() && path.pressure[k] < pressure) ++k;
  const double share = (pressure - path.pressure[k - 1]) / (path.pressure[k] - path.pressure[k - 1]);
  return path.lift_seat[k - 1] + share * (path.lift_seat[k] - path.lift_seat[k - 1]);
}

TEST(LinearPath, IsTheResponseAtEveryPressureWhereContactsWander) {
  const Stack stack = wandering_stack();
  Workspace workspace;
  Options linear;
  linear.theory = Theory::Linear;
  const double p_max = 1.2e6;
  const LinearPath path = linear_path(stack, p_max, linear, workspace);
  ASSERT_TRUE(path.outcome.ok());
  EXPECT_GT(path.breakpoints.size(), 20u);
  const double largest = path.lift_seat.back();
  for (int i = 1; i < 400; ++i) {
    // each pressure solved from rest, so that no state on the path helps
    const double pressures[] = {p_max * i / 400};
    const double solved = stack_response(stack, pressures, linear, workspace).points[0].lift_seat;
    // rounding, summed over every breakpoint
    EXPECT_NEAR(lift_on(path, pressures[0]), solved, 1e-8 * largest) << pressures[0];
  }
}

TEST(LinearPath, PhysicalBreakpointsAreTheMeetingOfTheStagesAndTheRimsThatLand) {
  const Stack stack = wandering_stack();
  Workspace workspace;
  const LinearPath path = linear_path(stack, 1.2e6, Options{}, workspace);
  int n_physical = 0;
  for (const Breakpoint& breakpoint : path.breakpoints) {
    if (!is_physical(breakpoint)) continue;
    ++n_physical;
    if (breakpoint.kind != BreakpointKind::Edge) continue;
    const double r = breakpoint.contact.radius;
    const bool at_a_rim = std::any_of(stack.discs.begin(), stack.discs.end(), [&](const Disc& disc) {
      return std::abs(disc.outer_radius - r) < 1e-9;
    });
    EXPECT_TRUE(at_a_rim) << r;
  }
  const Breakpoint& first = path.breakpoints.front();
  EXPECT_EQ(first.kind, BreakpointKind::Pair);
  EXPECT_EQ(first.contact.lower, 1);
  EXPECT_EQ(first.contact.upper, 3);
  EXPECT_GT(n_physical, 1);
  EXPECT_LT(n_physical, static_cast<int>(path.breakpoints.size()) / 2);  // most are steps of the mesh
}

TEST(LinearPath, PhysicalBreakpointsStayWhereTheMeshIsFiner) {
  const Stack stack = wandering_stack();
  Workspace workspace;
  double closes[2];
  for (int refinement : {1, 2}) {
    Options options;
    options.refinement = refinement;
    const LinearPath path = linear_path(stack, 1.2e6, options, workspace);
    closes[refinement - 1] = path.breakpoints.front().pressure;
  }
  EXPECT_NEAR(closes[0] / closes[1], 1.0, 1e-3);  // the mesh's own error
}

TEST(LinearPath, AUnitInTheLastPlaceOfAThicknessChangesNoEvent) {
  // a preloaded taper on four equal discs, whose discs lie on each other over whole widths
  Stack stack = test_stack(
      {{18, 0.15}, {18, 0.15}, {18, 0.15}, {18, 0.15}, {16.5, 0.15}, {15, 0.15}, {13.5, 0.15}, {12, 0.15}});
  stack.clamp_radius = 10e-3;
  stack.load = {12e-3, 16.25e-3, 0.6, 17e-3};
  stack.seat = {true, 17e-3, 0.05e-3};
  Workspace workspace;
  const double p_max = 0.5e6;
  const LinearPath path = linear_path(stack, p_max, Options{}, workspace);
  ASSERT_TRUE(path.outcome.ok());
  for (std::size_t disc = 4; disc < 8; ++disc) {
    for (const double towards : {0.0, 1.0}) {
      Stack changed = stack;
      changed.discs[disc].thickness = std::nextafter(stack.discs[disc].thickness, towards);
      const LinearPath other = linear_path(changed, p_max, Options{}, workspace);
      ASSERT_EQ(other.breakpoints.size(), path.breakpoints.size()) << disc;
      for (std::size_t i = 0; i < path.breakpoints.size(); ++i) {
        EXPECT_NEAR(other.breakpoints[i].pressure, path.breakpoints[i].pressure, 1e-6 * p_max);
        EXPECT_EQ(is_physical(other.breakpoints[i]), is_physical(path.breakpoints[i]));
      }
    }
  }
}

}  // namespace
}  // namespace shimwright::plate
