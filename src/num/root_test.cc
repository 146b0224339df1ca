#include "num/root.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

namespace shimwright::num {
namespace {

/// A root is checked by where the sign of the function changes, not by the method that found it.
void check(const Root& root, double expected) {
  EXPECT_EQ(root.status, Status::Converged);
  // the interval is closed to 1e-12 of its larger end, which is at most 10 here
  EXPECT_NEAR(root.x, expected, 1e-11);
}

TEST(Root, FindsWhereSmoothFunctionsCrossZero) {
  check(root_between([](double x) { return std::cos(x) - x; }, 0.0, 1.0), 0.739085133215160642);
  check(root_between([](double x) { return x * x * x - 2.0 * x - 5.0; }, 2.0, 3.0), 2.0945514815423265915);
  check(root_between([](double x) { return std::sin(x); }, 3.0, 4.0), std::numbers::pi);
}

TEST(Root, SurvivesFlatAndSteepFunctions) {
  check(root_between([](double x) { return std::pow(x - 1.0, 3); }, -4.0, 10.0 / 3.0), 1.0);
  check(root_between([](double x) { return std::tanh(1e3 * (x - 0.3)); }, -5.0, 10.0), 0.3);
  check(root_between([](double x) { return x < 0.7 ? -1.0 : 1.0; }, 0.0, 1.0), 0.7);
}

TEST(Root, OfASmoothFunctionNeedsFarFewerPointsThanHalving) {
  // halving closes 1e-12 in 40 rounds; the interpolation must be worth having
  EXPECT_LE(root_between([](double x) { return std::cos(x) - x; }, 0.0, 1.0).iterations, 12);
}

TEST(Root, AtAnEndOfTheIntervalIsTakenAtOnce) {
  const Root low = root_between([](double x) { return x; }, 0.0, 1.0);
  EXPECT_EQ(low.x, 0.0);
  EXPECT_EQ(low.iterations, 0);
  EXPECT_EQ(root_by_slope([](double x) { return ValueSlope{x - 1.0, 1.0}; }, 0.0, 1.0, 0.5).x, 1.0);
}

TEST(Root, WithoutAChangeOfSignGivesTheBetterEndAndSaysSo) {
  const Root root = root_between([](double x) { return 1.0 + x * x; }, -1.0, 3.0);
  EXPECT_EQ(root.status, Status::OutOfRange);
  EXPECT_EQ(root.x, -1.0);
  EXPECT_EQ(root.value, 2.0);
  EXPECT_EQ(root_by_slope([](double x) { return ValueSlope{x, 1.0}; }, 2.0, 3.0, 2.5).status,
            Status::OutOfRange);
}

TEST(Root, OutOfRoundsSaysStalledAndKeepsTheBestPoint) {
  const Root root = root_between([](double x) { return std::cos(x) - x; }, 0.0, 1.0, {.max_iterations = 2});
  EXPECT_EQ(root.status, Status::Stalled);
  EXPECT_NEAR(root.x, 0.739, 0.3);  // two rounds: at least a quarter of the interval is left out
}

TEST(Root, RefusesAnIntervalUpsideDownAndValuesThatAreNotFinite) {
  EXPECT_THROW(static_cast<void>(root_between([](double x) { return x; }, 1.0, -1.0)), LogicFault);
  EXPECT_THROW(static_cast<void>(root_between([](double) { return std::nan(""); }, 0.0, 1.0)), LogicFault);
}

TEST(Root, BySlopeConvergesInFewStepsFromAGoodGuess) {
  const Root root = root_by_slope([](double x) { return ValueSlope{x * x - 2.0, 2.0 * x}; }, 0.0, 10.0, 1.5);
  check(root, std::numbers::sqrt2);
  EXPECT_LE(root.iterations, 8);  // quadratic convergence: digits double each round
}

TEST(Root, BySlopeNeverLeavesTheBracketEvenIfTheSlopeLies) {
  check(root_by_slope([](double x) { return ValueSlope{std::atan(x - 0.2), 1e-3}; }, -10.0, 10.0, 9.0), 0.2);
  check(root_by_slope([](double x) { return ValueSlope{x - 0.2, 0.0}; }, -10.0, 10.0, 9.0), 0.2);
}

RC_GTEST_PROP(RootProperty, BothMethodsFindTheRootOfAnyRisingCubic, ()) {
  // a (x - r)^3 + b (x - r) rises and has the one root r, whatever the bracket around it
  const double r = *rc::gen::inRange(-1000, 1000) / 100.0;
  const double a = *rc::gen::inRange(0, 100) / 10.0;
  const double b = *rc::gen::inRange(1, 100) / 10.0;
  const double below = *rc::gen::inRange(1, 500) / 100.0;
  const double above = *rc::gen::inRange(1, 500) / 100.0;
  const auto f = [=](double x) {
    const double d = x - r;
    return ValueSlope{a * d * d * d + b * d, 3.0 * a * d * d + b};
  };
  const Root plain = root_between([&](double x) { return f(x).value; }, r - below, r + above);
  const Root newton = root_by_slope(f, r - below, r + above, r + 0.5 * above);
  RC_ASSERT(plain.ok() && newton.ok());
  // ends are at most 15 in size, closed to 1e-12 of that
  RC_ASSERT(std::abs(plain.x - r) < 2e-11);
  RC_ASSERT(std::abs(newton.x - r) < 2e-11);
}

}  // namespace
}  // namespace shimwright::num
