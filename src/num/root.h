#pragma once
#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "base/outcome.h"

namespace shimwright::num {

struct ValueSlope {
  double value = 0.0;  // of the function
  double slope = 0.0;  // its derivative
};

struct RootOptions {
  double x_tolerance = 1e-12;  // relative to the larger end of the interval; about 4 ulp is the floor
  int max_iterations = 100;    // bisection alone needs about 50 for full precision
};

struct Root {
  double x = 0.0;                     // the root, or the best point seen
  double value = 0.0;                 // the function there
  int iterations = 0;                 // function evaluations after the two ends
  Status status = Status::Converged;  // OutOfRange: no change of sign, x is the end nearer to zero value
  bool ok() const { return status == Status::Converged; }
};

namespace internal {
/// Width below which an interval counts as closed.
inline double closed_width(double low, double high, double x_tolerance) {
  const double scale = std::max(std::abs(low), std::abs(high));
  return std::max(x_tolerance, 4.0 * std::numeric_limits<double>::epsilon()) * scale +
         std::numeric_limits<double>::min();
}

/// A change of sign is what makes a root certain; without one the better end is handed back.
inline bool sign_changes(double a, double b) {
  return (a <= 0.0 && b >= 0.0) || (a >= 0.0 && b <= 0.0);
}

inline Root without_root(double low, double f_low, double high, double f_high) {
  const bool take_low = std::abs(f_low) <= std::abs(f_high);
  return {take_low ? low : high, take_low ? f_low : f_high, 0, Status::OutOfRange};
}
}  // namespace internal

/// Root of a continuous function between two points where its sign differs.
///
/// Model:  inverse quadratic interpolation where three points allow it, otherwise halving.
/// Valid:  f finite on [low, high]; low < high. A function that does not change sign gives OutOfRange.
/// Errors: SW_CHECK on low > high and on a value that is not finite.
/// Source: [chandrupatla1997], from memory
/// Tested: root_test.cc
template <typename Function>
[[nodiscard]] Root root_between(Function&& f, double low, double high, RootOptions options = {}) {
  SW_CHECK(low <= high, low, high);
  double a = high;  // newest point
  double b = low;   // bracket partner
  double fa = f(a);
  double fb = f(b);
  SW_CHECK(std::isfinite(fa) && std::isfinite(fb), fa, fb);
  if (fa == 0.0) return {a, fa, 0, Status::Converged};
  if (fb == 0.0) return {b, fb, 0, Status::Converged};
  if (!internal::sign_changes(fa, fb)) return internal::without_root(low, fb, high, fa);

  double fraction = 0.5;
  for (int i = 1; i <= options.max_iterations; ++i) {
    // the next point, never nearer to an end than the tolerance
    const double x = a + fraction * (b - a);
    const double fx = f(x);
    SW_CHECK(std::isfinite(fx), x, fx);

    // keep the bracket; c is the point that falls out of it
    double c = a;
    double fc = fa;
    if (std::signbit(fx) != std::signbit(fa)) {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;

    // done?
    const bool a_is_best = std::abs(fa) < std::abs(fb);
    const double best = a_is_best ? a : b;
    const double f_best = a_is_best ? fa : fb;
    const double closed = internal::closed_width(low, high, options.x_tolerance);
    if (f_best == 0.0 || std::abs(b - a) <= closed) return {best, f_best, i, Status::Converged};

    // inverse quadratic interpolation only where it cannot leave the bracket
    const double xi = (a - b) / (c - b);
    const double phi = (fa - fb) / (fc - fb);
    const bool interpolate = phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi;
    fraction = interpolate
                   ? fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
                   : 0.5;
    const double least = 0.5 * closed / std::abs(b - a);
    fraction = std::clamp(fraction, least, 1.0 - least);
  }
  return {std::abs(fa) < std::abs(fb) ? a : b, std::abs(fa) < std::abs(fb) ? fa : fb, options.max_iterations,
          Status::Stalled};
}

/// Root of a function that gives its slope too (ValueSlope f(x)), from a guess, kept inside a bracket.
///
/// Model:  Newton's step; halving whenever the step leaves the bracket or shrinks it too slowly.
/// Valid:  as root_between. A guess outside the bracket is moved to its middle.
/// Errors: SW_CHECK on low > high and on a value that is not finite.
/// Source: safeguarded Newton, textbook method (common practice, no source)
/// Tested: root_test.cc
template <typename Function>
[[nodiscard]] Root root_by_slope(Function&& f, double low, double high, double guess,
                                 RootOptions options = {}) {
  SW_CHECK(low <= high, low, high);
  const double f_low = f(low).value;
  const double f_high = f(high).value;
  SW_CHECK(std::isfinite(f_low) && std::isfinite(f_high), f_low, f_high);
  if (f_low == 0.0) return {low, f_low, 0, Status::Converged};
  if (f_high == 0.0) return {high, f_high, 0, Status::Converged};
  if (!internal::sign_changes(f_low, f_high)) return internal::without_root(low, f_low, high, f_high);

  const bool rising = f_high > f_low;
  const double closed = internal::closed_width(low, high, options.x_tolerance);
  double x = guess > low && guess < high ? guess : 0.5 * (low + high);
  double step_before_last = high - low;
  double last_step = high - low;
  double value = f_low;
  for (int i = 1; i <= options.max_iterations; ++i) {
    const ValueSlope here = f(x);
    SW_CHECK(std::isfinite(here.value), x, here.value);
    value = here.value;
    if (value == 0.0) return {x, value, i, Status::Converged};

    // close the bracket on the side of the root
    ((value < 0.0) == rising ? low : high) = x;

    // Newton if it stays inside and halves the step of two rounds ago, otherwise the middle
    double next = x - value / here.slope;
    const bool trusted = here.slope != 0.0 && next > low && next < high &&
                         std::abs(next - x) < 0.5 * std::abs(step_before_last);
    if (!trusted) next = 0.5 * (low + high);
    step_before_last = last_step;
    last_step = next - x;
    if (std::abs(last_step) <= closed || high - low <= closed) return {next, value, i, Status::Converged};
    x = next;
  }
  return {x, value, options.max_iterations, Status::Stalled};
}

}  // namespace shimwright::num
