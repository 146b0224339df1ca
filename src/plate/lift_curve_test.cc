#include "plate/lift_curve.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "plate/test_stacks.h"

namespace shimwright::plate {
namespace {

Stack taper() {
  Stack stack = test_stack({{12, 0.10}, {12, 0.10}, {11, 0.10}, {10, 0.10}, {9, 0.15}, {8, 0.15}});
  stack.seat = {true, 10.5e-3, 0.0};
  return stack;
}

/// The curve against the response solved at many pressures.
void expect_follows(const Stack& stack, double p_max, const Options& options) {
  Workspace workspace;
  const LiftCurve curve = lift_curve(stack, p_max, options, workspace);
  std::vector<double> pressures;
  for (int i = 0; i <= 100; ++i) pressures.push_back(p_max * i / 100);
  const StackResult solved = stack_response(stack, pressures, options, workspace);
  double before = -1.0;
  for (std::size_t i = 0; i < pressures.size(); ++i) {
    const double exact = std::max(solved.points[i].lift_seat, 0.0);
    const double lift = lift_at(curve, pressures[i]);
    // three times the promise, which is met at the middles of the pieces, where it was tested while building
    EXPECT_NEAR(lift, exact,
                3.0 * options.curve_tolerance * std::max(exact, 0.05 * stack.discs.front().thickness))
        << pressures[i];
    EXPECT_GE(lift, before);
    before = lift;
  }
}

TEST(LiftCurve, FollowsATaper) {
  expect_follows(taper(), 8e5, Options{});
}

TEST(LiftCurve, FollowsATwoStageStackThroughItsClosing) {
  Stack stack = test_stack({{12, 0.15}, {12, 0.15}, {7, 0.10}, {11, 0.15}, {10, 0.15}, {9, 0.20}});
  stack.seat = {true, 10.5e-3, 0.0};
  expect_follows(stack, 1.5e6, Options{});
  Options linear;
  linear.theory = Theory::Linear;
  expect_follows(stack, 1.5e6, linear);
}

TEST(LiftCurve, StaysShutUpToTheOpeningOfAPreload) {
  Stack stack = taper();
  stack.seat.height = 0.1e-3;
  expect_follows(stack, 1.5e6, Options{});
  Workspace workspace;
  const LiftCurve curve = lift_curve(stack, 1.5e6, Options{}, workspace);
  EXPECT_GT(curve.opening_pressure, 1e4);
  EXPECT_EQ(lift_at(curve, 0.99 * curve.opening_pressure), 0.0);
  EXPECT_GT(lift_at(curve, 1.01 * curve.opening_pressure), 0.0);
  EXPECT_EQ(lift_at(lift_curve(stack, 0.5 * curve.opening_pressure, Options{}, workspace),
                    0.4 * curve.opening_pressure),
            0.0);
}

TEST(LiftCurve, LeavesTheOpeningOfALowSeatAtRest) {
  Stack stack = taper();
  stack.seat.height = -0.05e-3;
  Workspace workspace;
  const LiftCurve curve = lift_curve(stack, 5e5, Options{}, workspace);
  EXPECT_NEAR(lift_at(curve, 0.0), 0.05e-3, 1e-12);
  expect_follows(stack, 5e5, Options{});
}

/// What the stack bends at a pressure with its middle held and nothing under its rim.
double bend_of(Stack stack, double pressure, const Options& options, Workspace& workspace) {
  stack.slide = {};
  stack.seat.present = false;
  const double pressures[] = {pressure};
  return stack_lifts(stack, pressures, options, workspace)[0].seat;
}

// equilibrium: the middle stands where its spring balances the pressure, (p A - F) / k, and the disc is bent
// by p
TEST(LiftCurve, TheFloatAddsItsSlideToAllThatBends) {
  Stack stack = taper();
  stack.slide = {0.2e-3, 2.0, 5e3};
  Workspace workspace;
  for (const Theory theory : {Theory::Linear, Theory::Large}) {
    Options options;
    options.theory = theory;
    const LiftCurve curve = lift_curve(stack, 8e5, options, workspace);
    const double area = 3.14159265358979 * (100e-6 - 36e-6);
    const auto bend = [&](double p) { return bend_of(stack, p, options, workspace); };
    // it leaves the seat where middle and bend together are up: a little before the pressure alone lifts the
    // middle
    const double opening = curve.opening_pressure;
    EXPECT_LT(opening, 2.0 / area);
    EXPECT_NEAR((opening * area - 2.0) / 5e3 + bend(opening), 0.0, 1e-8);
    EXPECT_EQ(lift_at(curve, 0.9 * opening), 0.0);
    for (const double share : {0.3, 0.5, 0.9, 1.0}) {
      const double p = (2.0 + share * 0.2e-3 * 5e3) / area;
      EXPECT_NEAR(lift_at(curve, p), share * 0.2e-3 + bend(p), 2e-7) << share;
    }
    // beyond the stop all the travel is used: nothing of the bend before it is lost
    EXPECT_NEAR(lift_at(curve, 6e5), 0.2e-3 + bend(6e5), 2e-3 * bend(6e5));
    EXPECT_GT(bend((2.0 + 0.2e-3 * 5e3) / area), 1e-6);
    expect_follows(stack, 8e5, options);
  }
}

TEST(LiftCurve, AtAPressureDoesNotDependOnHowFarTheCurveGoes) {
  Stack preloaded = taper();
  preloaded.seat.height = 0.1e-3;
  Stack two_stage = test_stack({{12, 0.15}, {12, 0.15}, {7, 0.10}, {11, 0.15}, {10, 0.15}, {9, 0.20}});
  two_stage.seat = {true, 10.5e-3, 0.0};
  Stack floating = taper();
  floating.slide = {0.2e-3, 2.0, 5e3};
  for (const Stack& stack : {taper(), preloaded, two_stage, floating}) {
    Workspace workspace;
    const double short_end = 8e5;
    const LiftCurve curve = lift_curve(stack, short_end, Options{}, workspace);
    for (const double end : {8.1e5, 1.1e6, 4e6}) {
      const LiftCurve longer = lift_curve(stack, end, Options{}, workspace);
      for (double pressure = 1e3; pressure < short_end / kCurveGrowth; pressure *= 1.07)
        EXPECT_EQ(lift_at(curve, pressure), lift_at(longer, pressure)) << end << ' ' << pressure;
    }
  }
}

TEST(LiftCurve, SlopeIsThatOfTheLift) {
  Workspace workspace;
  const LiftCurve curve = lift_curve(taper(), 8e5, Options{}, workspace);
  for (double p = 1e4; p < 9e5; p += 1.37e4) {
    const double step = 10.0;
    const double difference = (lift_at(curve, p + step) - lift_at(curve, p - step)) / (2.0 * step);
    EXPECT_NEAR(lift_slope_at(curve, p) / difference, 1.0, 1e-3);  // a knot between the two differences
  }
}

// The curtain between seat and shim, as a strip of small plane quadrangles: corners on the seat, corners
// above.
TEST(LiftCurve, AreaIsThatOfTheOpenArc) {
  Stack stack = taper();
  stack.load.arc_fraction = 0.6;
  Workspace workspace;
  const LiftCurve curve = lift_curve(stack, 8e5, Options{}, workspace);
  const double lift = lift_at(curve, 4e5), radius = 10.5e-3;
  const int n = 20000;
  double area = 0.0;
  for (int i = 0; i < n; ++i) {
    const double a = 2.0 * std::numbers::pi * 0.6 * i / n, b = 2.0 * std::numbers::pi * 0.6 * (i + 1) / n;
    area += lift * std::hypot(radius * (std::cos(b) - std::cos(a)), radius * (std::sin(b) - std::sin(a)));
  }
  EXPECT_NEAR(opening_area_at(curve, 4e5) / area, 1.0, 1e-8);
}

TEST(LiftCurve, FindsItsOpeningInFewSolves) {
  // rims that come to press one after the other on the way to the opening
  Stack stack = test_stack({{15, 0.10}});
  stack.discs.assign(30, stack.discs[0]);
  for (int i = 0; i < 3; ++i) stack.discs.push_back(test_stack({{13.5, 0.30}}).discs[0]);
  stack.discs.push_back(test_stack({{13, 0.25}}).discs[0]);
  stack.clamp_radius = 7e-3;
  stack.load = {9.22527e-3, 13.296317e-3, 0.584, 0.0};
  stack.seat = {true, 14.2063e-3, 0.0419e-3};
  Workspace workspace;
  const LiftCurve curve = lift_curve(stack, 3e6, Options{}, workspace);
  EXPECT_TRUE(curve.outcome.ok());
  EXPECT_LT(curve.outcome.iterations, 300);
  // solved on both sides of it
  const double pressures[] = {0.999 * curve.opening_pressure, 1.001 * curve.opening_pressure};
  const StackResult solved = stack_response(stack, pressures, Options{}, workspace);
  EXPECT_GT(solved.points[0].seat_force, 0.0);
  EXPECT_EQ(solved.points[1].seat_force, 0.0);

  // a pile whose heights add up to a gap of rounding is not preloaded
  stack.seat.height = 0.0;
  const LiftCurve flat = lift_curve(stack, 3e6, Options{}, workspace);
  EXPECT_EQ(flat.opening_pressure, 0.0);
  EXPECT_LT(flat.outcome.iterations, 300);
}

TEST(LiftCurve, OpeningIsThatOfItsTheory) {
  // a seat far above the clamp plane: the dished discs press on it with far more than linear theory says
  Stack stack = test_stack({{12, 0.15}, {12, 0.15}, {12, 0.15}, {12, 0.15}});
  stack.load = {6.5e-3, 10.5e-3, 1.0, 0.0};
  stack.seat = {true, 11e-3, 1.5e-3};
  Options linear;
  linear.theory = Theory::Linear;
  Workspace workspace;
  const auto in_linear = opening_pressure(stack, 20e6, linear, workspace);
  ASSERT_TRUE(in_linear.has_value());
  EXPECT_NEAR(*in_linear, 6.19e6, 0.01e6);
  EXPECT_FALSE(opening_pressure(stack, 20e6, Options{}, workspace).has_value());
  const double beyond[] = {20e6};
  EXPECT_GT(stack_response(stack, beyond, Options{}, workspace).points[0].seat_force, 0.0);
  // below what would open it there is none to tell, in either theory
  EXPECT_FALSE(opening_pressure(stack, 1e6, linear, workspace).has_value());
  stack.seat.height = 0.05e-3;
  const auto found = opening_pressure(stack, 5e6, Options{}, workspace);
  ASSERT_TRUE(found.has_value());
  EXPECT_NEAR(*found, lift_curve(stack, 5e6, Options{}, workspace).opening_pressure, 1.0);
  stack.seat.height = 0.0;
  EXPECT_EQ(opening_pressure(stack, 5e6, Options{}, workspace), 0.0);
}

TEST(LinearPath, EveryBreakpointIsOneAndNothingBendsBetween) {
  // between two breakpoints the solved response lies on the straight line; a two-stage stack, preloaded
  Stack stack = test_stack({{12, 0.15}, {7, 0.10}, {11, 0.15}, {9, 0.20}});
  stack.seat = {true, 10.5e-3, 0.05e-3};
  Workspace workspace;
  Options linear;
  linear.theory = Theory::Linear;
  const double p_max = 1e6;
  const LinearPath path = linear_path(stack, p_max, linear, workspace);
  ASSERT_TRUE(path.outcome.ok());
  ASSERT_GE(path.breakpoints.size(), 2u);
  EXPECT_GT(path.opening_pressure.value_or(0.0), 0.0);
  std::vector<double> pressures;
  for (std::size_t k = 0; k + 1 < path.pressure.size(); ++k) {
    EXPECT_LE(path.pressure[k], path.pressure[k + 1]);
    pressures.push_back(0.3 * path.pressure[k] + 0.7 * path.pressure[k + 1]);
  }
  const StackResult solved = stack_response(stack, pressures, linear, workspace);
  const double largest = path.lift_seat.back();
  for (std::size_t k = 0; k < pressures.size(); ++k) {
    const double line = 0.3 * path.lift_seat[k] + 0.7 * path.lift_seat[k + 1];
    EXPECT_NEAR(solved.points[k].lift_seat, line, 1e-8 * largest);
  }
}

TEST(LinearPath, SecondStageBeginsToCarryWhenItsGapCloses) {
  // the gap shim ends at the clamp, so that nothing presses on the second stage before the face disc comes
  const Stack stack = test_stack({{12, 0.15}, {6, 0.10}, {11, 0.15}, {9, 0.20}});
  Workspace workspace;
  const LinearPath path = linear_path(stack, 2e6, Options{}, workspace);
  ASSERT_FALSE(path.breakpoints.empty());
  const Breakpoint& first = path.breakpoints.front();
  EXPECT_EQ(first.change, ContactChange::Closed);
  EXPECT_EQ(first.contact.lower, 0);
  EXPECT_EQ(first.contact.upper, 2);
  EXPECT_NEAR(first.contact.radius, 11e-3, 1e-12);
  EXPECT_NE(std::find(first.starts.begin(), first.starts.end(), 2), first.starts.end());
  // the closing is where the face disc alone has lifted by the gap at that rim
  Stack alone = test_stack({{12, 0.15}});
  alone.seat.radius = 11e-3;
  const double pressures[] = {first.pressure};
  Options linear;
  linear.theory = Theory::Linear;
  EXPECT_NEAR(stack_response(alone, pressures, linear, workspace).points[0].lift_seat, 0.10e-3, 1e-12);
}

TEST(LinearPath, WithoutGapOrPreloadIsOneLine) {
  const Stack stack = test_stack({{12, 0.15}, {11, 0.15}, {10, 0.15}, {8, 0.2}});
  Workspace workspace;
  const LinearPath path = linear_path(stack, 1e6, Options{}, workspace);
  EXPECT_TRUE(path.breakpoints.empty());
  EXPECT_EQ(path.pressure.size(), 2u);
}

}  // namespace
}  // namespace shimwright::plate
