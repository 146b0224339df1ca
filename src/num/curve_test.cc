#include "num/curve.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

namespace shimwright::num {
namespace {

std::vector<double> sampled(const std::vector<double>& x, double (*f)(double)) {
  std::vector<double> y;
  for (const double value : x) y.push_back(f(value));
  return y;
}

double largest_error(const Curve& curve, double (*f)(double)) {
  double error = 0.0;
  for (const double x : evenly_spaced(curve.x.front(), curve.x.back(), 501)) {
    error = std::max(error, std::abs(value_at(curve, x) - f(x)));
  }
  return error;
}

TEST(Curve, GoesThroughItsPoints) {
  const std::vector<double> x{0.0, 1.0, 2.5, 3.0, 7.0}, y{1.0, 3.0, 2.0, 2.0, -4.0};
  for (const Curve& curve : {monotone_curve(x, y), smooth_curve(x, y)}) {
    for (std::size_t i = 0; i < x.size(); ++i) EXPECT_NEAR(value_at(curve, x[i]), y[i], 1e-14);  // rounding
  }
}

TEST(Curve, GivesSlopeAndCurvatureOfItsOwnValues) {
  const Curve curve = smooth_curve({0.0, 1.0, 2.5, 3.0, 7.0}, {1.0, 3.0, 2.0, 2.0, -4.0});
  const double h = 1e-5;
  for (const double x : {0.4, 1.7, 2.6, 5.0}) {
    const CurvePoint here = curve_at(curve, x), below = curve_at(curve, x - h),
                     above = curve_at(curve, x + h);
    EXPECT_NEAR(here.slope, (above.value - below.value) / (2.0 * h),
                1e-8);  // difference error h^2 and rounding / h
    EXPECT_NEAR(here.curvature, (above.slope - below.slope) / (2.0 * h), 1e-8);  // same
  }
}

TEST(Curve, MonotoneStaysFlatBetweenEqualPointsAndAtPeaks) {
  const Curve curve = monotone_curve({0.0, 1.0, 2.0, 3.0, 4.0}, {0.0, 1.0, 1.0, 1.0, 5.0});
  EXPECT_EQ(value_at(curve, 1.5), 1.0);
  EXPECT_EQ(curve_at(curve, 2.0).slope, 0.0);
}

TEST(Curve, SmoothReproducesACubicExactlyAndAParabolaFromThreePoints) {
  // not-a-knot: four points or more carry one cubic
  const auto cubic = [](double x) { return 1.0 - 2.0 * x + 0.5 * x * x + 0.25 * x * x * x; };
  const std::vector<double> x{-1.0, 0.0, 0.5, 2.0, 3.0};
  EXPECT_LT(largest_error(smooth_curve(x, sampled(x, cubic)), cubic),
            1e-13);  // rounding of values of order ten
  const auto parabola = [](double t) { return 3.0 * t * t - t; };
  const std::vector<double> three{0.0, 1.0, 3.0};
  EXPECT_LT(largest_error(smooth_curve(three, sampled(three, parabola)), parabola), 1e-13);
  EXPECT_EQ(curve_at(smooth_curve({0.0, 2.0}, {1.0, 5.0}), 0.7).slope, 2.0);
}

TEST(Curve, SmoothErrorFallsWithTheFourthPowerOfTheSpacing) {
  const auto wave = [](double x) { return std::sin(x); };
  const auto error = [&](int n) {
    const std::vector<double> x = evenly_spaced(0.0, 3.0, n);
    return largest_error(smooth_curve(x, sampled(x, wave)), wave);
  };
  const double ratio = error(21) / error(41);
  EXPECT_GT(ratio, 12.0);  // 2^4 in the limit; the ends make it uneven on grids this coarse
  EXPECT_LT(ratio, 24.0);
}

TEST(Curve, GoesOnStraightBeyondItsEnds) {
  const Curve curve = monotone_curve({0.0, 1.0, 2.0}, {0.0, 1.0, 4.0});
  const CurvePoint end = curve_at(curve, 2.0), beyond = curve_at(curve, 5.0);
  EXPECT_DOUBLE_EQ(beyond.value, 4.0 + 3.0 * end.slope);
  EXPECT_EQ(beyond.curvature, 0.0);
  EXPECT_NEAR(value_at(curve, argument_at(curve, 9.0)), 9.0, 1e-12);
  EXPECT_EQ(argument_at(curve, 4.0), 2.0);
}

TEST(Curve, TakesSlopesAsGiven) {
  const Curve curve = curve_with_slopes({0.0, 1.0}, {0.0, 1.0}, {0.0, 0.0});
  EXPECT_DOUBLE_EQ(value_at(curve, 0.25), 3 * 0.0625 - 2 * 0.015625);  // 3 s^2 - 2 s^3
}

TEST(Curve, RefusesTablesThatAreNone) {
  EXPECT_THROW(monotone_curve({0.0, 1.0}, {0.0}), LogicFault);
  EXPECT_THROW(monotone_curve({0.0, 0.0}, {0.0, 1.0}), LogicFault);
  EXPECT_THROW(smooth_curve({0.0}, {0.0}), LogicFault);
  EXPECT_THROW(smooth_curve({0.0, 1.0}, {0.0, std::nan("")}), LogicFault);
  EXPECT_THROW(argument_at(monotone_curve({0.0, 1.0}, {1.0, 0.0}), 0.5), LogicFault);
  EXPECT_THROW(evenly_spaced(0.0, 1.0, 1), LogicFault);
}

TEST(Grid, HasBothEndsExactly) {
  const std::vector<double> x = evenly_spaced(0.1, 0.7, 7);
  EXPECT_EQ(x.size(), 7u);
  EXPECT_EQ(x.front(), 0.1);
  EXPECT_EQ(x.back(), 0.7);
  EXPECT_NEAR(x[3], 0.4, 1e-15);
}

RC_GTEST_PROP(CurveProperty, RisingPointsGiveARisingCurveThatInverts, ()) {
  const int n = *rc::gen::inRange(2, 9);
  std::vector<double> x{0.0}, y{0.0};
  for (int i = 1; i < n; ++i) {
    x.push_back(x.back() + *rc::gen::inRange(1, 100) / 100.0);
    y.push_back(y.back() + *rc::gen::inRange(1, 10000) / 1000.0);
  }
  const Curve curve = monotone_curve(x, y);
  double before = y.front();
  for (const double at : evenly_spaced(x.front(), x.back(), 101)) {
    const double here = value_at(curve, at);
    RC_ASSERT(here >= before - 1e-12);  // rounding of values up to 100
    before = here;
    RC_ASSERT(std::abs(value_at(curve, argument_at(curve, here)) - here) <
              1e-9);  // 1e-12 of x times slopes up to 1e3
  }
}

}  // namespace
}  // namespace shimwright::num
