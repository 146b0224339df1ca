#pragma once
#include <span>
#include <vector>

#include "num/root.h"

namespace shimwright::num {

/// A smooth curve through points: one cubic between each two neighbours, given by values and slopes.
/// Beyond its ends it goes on as a straight line.
struct Curve {
  std::vector<double> x;      // strictly rising (n >= 2)
  std::vector<double> y;      // values (n)
  std::vector<double> slope;  // dy/dx at the points (n)
};

struct CurvePoint {
  double value = 0.0;
  double slope = 0.0;      // first derivative
  double curvature = 0.0;  // second derivative; where two cubics meet, that of the upper one
};

/// True for at least two finite numbers, each larger than the one before.
bool strictly_rises(std::span<const double> values);

/// Curve that never overshoots its points: it rises where they rise, and is flat at a peak of theirs.
///
/// Model:  cubic Hermite; slopes are weighted harmonic means of the neighbouring secants, three-point at
///         the ends. The first derivative is continuous, the second is not.
/// Valid:  x strictly rises, as many y as x, at least two points.
/// Errors: SW_CHECK on the above.
/// Source: [fritsch1984] (slopes), [fritsch1980] (why they keep it monotone); formulas from memory
/// Tested: curve_test.cc
Curve monotone_curve(std::vector<double> x, std::vector<double> y);

/// Curve with a continuous second derivative; may overshoot. For smooth tables whose slope is itself of
/// interest.
///
/// Model:  cubic spline, not-a-knot ends; a parabola through three points, a line through two.
/// Valid:  as monotone_curve.
/// Source: [deboor1978] ch. IV; formulas from memory
/// Tested: curve_test.cc
Curve smooth_curve(std::vector<double> x, std::vector<double> y);

/// Curve through points whose slopes are known as well.
Curve curve_with_slopes(std::vector<double> x, std::vector<double> y, std::vector<double> slope);

CurvePoint curve_at(const Curve& curve, double x);

/// Value only; the quick way.
double value_at(const Curve& curve, double x);

/// The argument at which a rising curve has the value y; y outside the ends follows the straight extension.
///
/// Valid:  the curve rises everywhere, as monotone_curve of rising points gives; its end slope is positive
///         where y lies outside.
/// Errors: SW_CHECK on a curve whose points do not rise, and on a flat end that cannot reach y.
/// Tested: curve_test.cc
double argument_at(const Curve& curve, double y);

/// n points from low to high, both ends exactly; n >= 2.
std::vector<double> evenly_spaced(double low, double high, int n);

}  // namespace shimwright::num
