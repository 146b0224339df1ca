#include "num/curve.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shimwright::num {
namespace {

constexpr double kRounding = 1e-14;  // of sums of a few numbers

void check_table(std::span<const double> x, std::span<const double> y) {
  SW_CHECK(x.size() == y.size(), x.size(), y.size());
  SW_CHECK(strictly_rises(x));
  SW_CHECK(std::ranges::all_of(y, [](double value) { return std::isfinite(value); }));
}

struct Secants {
  std::vector<double> width;  // of each interval (n - 1)
  std::vector<double> slope;  // of the straight line across it (n - 1)
};

Secants secants_of(std::span<const double> x, std::span<const double> y) {
  const std::size_t n = x.size() - 1;
  Secants secants{std::vector<double>(n), std::vector<double>(n)};
  for (std::size_t i = 0; i < n; ++i) {
    secants.width[i] = x[i + 1] - x[i];
    secants.slope[i] = (y[i + 1] - y[i]) / secants.width[i];
  }
  return secants;
}

/// Three-point slope at an end, held back so that the curve keeps the direction of its first secant.
double end_slope(double width, double next_width, double secant, double next_secant) {
  const double slope = ((2.0 * width + next_width) * secant - width * next_secant) / (width + next_width);
  if (slope * secant <= 0.0) return 0.0;
  if (secant * next_secant <= 0.0 && std::abs(slope) > 3.0 * std::abs(secant)) return 3.0 * secant;
  return slope;
}

/// Solves a tridiagonal system in place; `rhs` becomes the solution.
void solve_tridiagonal(std::span<const double> below, std::span<double> diagonal,
                       std::span<const double> above, std::span<double> rhs) {
  const std::size_t n = diagonal.size();
  for (std::size_t i = 1; i < n; ++i) {
    const double factor = below[i] / diagonal[i - 1];
    diagonal[i] -= factor * above[i - 1];
    rhs[i] -= factor * rhs[i - 1];
  }
  rhs[n - 1] /= diagonal[n - 1];
  for (std::size_t i = n - 1; i-- > 0;) rhs[i] = (rhs[i] - above[i] * rhs[i + 1]) / diagonal[i];
}

/// Slopes of the cubic spline with not-a-knot ends, for four points or more.
std::vector<double> spline_slopes(const Secants& s) {
  const std::size_t n = s.width.size() + 1;
  std::vector<double> below(n), diagonal(n), above(n), rhs(n);

  // inner points: the second derivative is continuous
  for (std::size_t i = 1; i + 1 < n; ++i) {
    below[i] = s.width[i];
    diagonal[i] = 2.0 * (s.width[i - 1] + s.width[i]);
    above[i] = s.width[i - 1];
    rhs[i] = 3.0 * (s.width[i] * s.slope[i - 1] + s.width[i - 1] * s.slope[i]);
  }

  // ends: the first two cubics are one, and so are the last two
  const double first = s.width[0], second = s.width[1], head = first + second;
  diagonal[0] = second;
  above[0] = head;
  rhs[0] = ((first + 2.0 * head) * second * s.slope[0] + first * first * s.slope[1]) / head;
  const double last = s.width[n - 2], before = s.width[n - 3], tail = last + before;
  diagonal[n - 1] = before;
  below[n - 1] = tail;
  rhs[n - 1] = (last * last * s.slope[n - 3] + (2.0 * tail + last) * before * s.slope[n - 2]) / tail;

  solve_tridiagonal(below, diagonal, above, rhs);
  return rhs;
}

}  // namespace

bool strictly_rises(std::span<const double> values) {
  if (values.size() < 2 || !std::isfinite(values.front())) return false;
  for (std::size_t i = 1; i < values.size(); ++i) {
    if (!(values[i] > values[i - 1]) || !std::isfinite(values[i])) return false;
  }
  return true;
}

Curve monotone_curve(std::vector<double> x, std::vector<double> y) {
  check_table(x, y);
  const Secants s = secants_of(x, y);
  const std::size_t n = x.size();
  std::vector<double> slope(n, s.slope[0]);
  if (n > 2) {
    for (std::size_t i = 1; i + 1 < n; ++i) {
      const double left = s.slope[i - 1], right = s.slope[i];
      const double w_left = 2.0 * s.width[i] + s.width[i - 1], w_right = s.width[i] + 2.0 * s.width[i - 1];
      slope[i] = left * right <= 0.0 ? 0.0 : (w_left + w_right) / (w_left / left + w_right / right);
    }
    slope[0] = end_slope(s.width[0], s.width[1], s.slope[0], s.slope[1]);
    slope[n - 1] = end_slope(s.width[n - 2], s.width[n - 3], s.slope[n - 2], s.slope[n - 3]);
  }
  return {std::move(x), std::move(y), std::move(slope)};
}

Curve smooth_curve(std::vector<double> x, std::vector<double> y) {
  check_table(x, y);
  const Secants s = secants_of(x, y);
  if (x.size() == 2) return {std::move(x), std::move(y), {s.slope[0], s.slope[0]}};
  if (x.size() == 3) {
    const double bend = (s.slope[1] - s.slope[0]) / (s.width[0] + s.width[1]);
    std::vector<double> slope{s.slope[0] - bend * s.width[0], s.slope[0] + bend * s.width[0],
                              s.slope[1] + bend * s.width[1]};
    return {std::move(x), std::move(y), std::move(slope)};
  }
  return {std::move(x), std::move(y), spline_slopes(s)};
}

Curve curve_with_slopes(std::vector<double> x, std::vector<double> y, std::vector<double> slope) {
  check_table(x, y);
  check_table(x, slope);
  return {std::move(x), std::move(y), std::move(slope)};
}

CurvePoint curve_at(const Curve& curve, double x) {
  // straight on beyond the ends
  if (x < curve.x.front())
    return {curve.y.front() + curve.slope.front() * (x - curve.x.front()), curve.slope.front(), 0.0};
  if (x > curve.x.back())
    return {curve.y.back() + curve.slope.back() * (x - curve.x.back()), curve.slope.back(), 0.0};

  // the interval, then its cubic as a polynomial in the distance from its lower end
  const auto upper = std::upper_bound(curve.x.begin() + 1, curve.x.end() - 1, x);
  const std::size_t i = static_cast<std::size_t>(upper - curve.x.begin()) - 1;
  const double width = curve.x[i + 1] - curve.x[i];
  const double secant = (curve.y[i + 1] - curve.y[i]) / width;
  const double second = (3.0 * secant - 2.0 * curve.slope[i] - curve.slope[i + 1]) / width;
  const double third = (curve.slope[i] + curve.slope[i + 1] - 2.0 * secant) / (width * width);
  const double d = x - curve.x[i];
  return {curve.y[i] + d * (curve.slope[i] + d * (second + d * third)),
          curve.slope[i] + d * (2.0 * second + d * 3.0 * third), 2.0 * second + 6.0 * third * d};
}

double value_at(const Curve& curve, double x) {
  return curve_at(curve, x).value;
}

double argument_at(const Curve& curve, double y) {
  SW_CHECK(strictly_rises(curve.y));
  if (!(y > curve.y.front() && y < curve.y.back())) {
    // straight on beyond the ends
    const bool low = y <= curve.y.front();
    const double gap = y - (low ? curve.y.front() : curve.y.back());
    const double slope = low ? curve.slope.front() : curve.slope.back();
    const double end = low ? curve.x.front() : curve.x.back();
    if (slope > 0.0) return end + gap / slope;
    // a flat end reaches no further, but a value of the end itself may be off by rounding
    SW_CHECK(std::abs(gap) <= kRounding * (std::abs(y) + curve.y.back() - curve.y.front()), y, gap);
    return end;
  }
  const auto upper = std::upper_bound(curve.y.begin(), curve.y.end(), y);
  const std::size_t i = static_cast<std::size_t>(upper - curve.y.begin()) - 1;
  const double secant = (curve.y[i + 1] - curve.y[i]) / (curve.x[i + 1] - curve.x[i]);
  const auto gap = [&](double x) {
    const CurvePoint point = curve_at(curve, x);
    return ValueSlope{point.value - y, point.slope};
  };
  return root_by_slope(gap, curve.x[i], curve.x[i + 1], curve.x[i] + (y - curve.y[i]) / secant).x;
}

std::vector<double> evenly_spaced(double low, double high, int n) {
  SW_CHECK(n >= 2, n);
  std::vector<double> values(static_cast<std::size_t>(n));
  for (int i = 0; i < n; ++i) values[static_cast<std::size_t>(i)] = low + (high - low) * i / (n - 1);
  values.back() = high;
  return values;
}

}  // namespace shimwright::num
