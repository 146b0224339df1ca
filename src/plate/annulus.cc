#include "plate/annulus.h"

#include <numbers>

namespace shimwright::plate {
namespace {

struct RotationConstants {
  double linear = 0.0;   // A in A r + B / r
  double inverse = 0.0;  // B
};

/// A and B outside the last load from the condition at the inner edge, where A + da, B + db hold and the
/// particular solution has the value p and the slope dp. Outside, the free rim wants A (1 + nu) = B (1 - nu)
/// / outer^2.
RotationConstants outer_constants(const Annulus& plate, double da, double db, double p, double dp) {
  const double r = plate.inner;
  const double nu = plate.poisson_ratio;
  const double rim = plate.outer * plate.outer * (1.0 + nu) / (1.0 - nu);  // B / A
  RotationConstants outer;
  if (plate.ring) {  // no moment at the bore
    const double known = (1.0 + nu) * da - (1.0 - nu) * db / (r * r) + dp + nu * p / r;
    outer.linear = -known / ((1.0 + nu) - (1.0 - nu) * rim / (r * r));
  } else {  // no slope at the clamp
    outer.linear = -(da * r + db / r + p) / (r + rim / r);
  }
  outer.inverse = rim * outer.linear;
  return outer;
}

}  // namespace

void ring_flexibility(const Annulus& plate, std::span<const double> radius,
                      std::span<const double> log_radius, std::span<double> flexibility) {
  const std::size_t n = radius.size();
  const double b = radius[0];
  const double unit = 1.0 / (2.0 * std::numbers::pi);
  const double sigma = unit / (2.0 * plate.stiffness);
  for (std::size_t j = 0; j < n; ++j) {
    // rotation inside the ring force: A r + B / r - sigma r ln(r / r_j)
    const double rj = radius[j];
    const double log_b = log_radius[0] - log_radius[j];
    const RotationConstants outer = outer_constants(plate, 0.5 * sigma, -0.5 * sigma * rj * rj,
                                                    -sigma * b * log_b, -sigma * (log_b + 1.0));
    const double a_in = outer.linear + 0.5 * sigma;
    const double b_in = outer.inverse - 0.5 * sigma * rj * rj;
    const double at_b = 0.5 * b * b * log_b - 0.25 * b * b;
    for (std::size_t i = 0; i <= j; ++i) {
      const double r = radius[i];
      const double from_b = log_radius[i] - log_radius[0];
      const double bending = 0.5 * a_in * (r * r - b * b) + b_in * from_b -
                             sigma * (0.5 * r * r * (log_radius[i] - log_radius[j]) - 0.25 * r * r - at_b);
      const double lift = bending + unit * from_b / plate.shear_stiffness;
      flexibility[i * n + j] = lift;
      flexibility[j * n + i] = lift;
    }
  }
}

void loaded_shape(const Annulus& plate, std::span<const double> radius, std::span<const double> log_radius,
                  std::span<const double> constant, std::span<const double> square,
                  const AnnulusShape& shape) {
  const std::size_t n = radius.size();
  const double half = 0.5 / plate.stiffness;
  const double eighth = 0.125 / plate.stiffness;
  const double log_outer = log_radius[n - 1];
  const auto particular = [&](std::size_t k, double r, double log_r) {
    return -half * constant[k] * r * (log_r - log_outer) - eighth * square[k] * r * r * r;
  };
  const auto particular_slope = [&](std::size_t k, double r, double log_r) {
    return -half * constant[k] * (log_r - log_outer + 1.0) - 3.0 * eighth * square[k] * r * r;
  };

  // how A and B change from the inmost interval outwards, kept at each station for the second sweep
  std::span<double> step_a = shape.slope;
  std::span<double> step_b = shape.curvature;
  double a = 0.0;
  double b = 0.0;
  for (std::size_t k = 0; k + 1 < n; ++k) {
    if (k > 0) {
      const double r = radius[k];
      const double p = particular(k, r, log_radius[k]) - particular(k - 1, r, log_radius[k]);
      const double dp = particular_slope(k, r, log_radius[k]) - particular_slope(k - 1, r, log_radius[k]);
      a -= 0.5 * (p / r + dp);
      b -= 0.5 * (r * p - r * r * dp);
    }
    step_a[k] = a;
    step_b[k] = b;
  }

  // free rim: the particular solution of the last interval joins the condition there
  const double nu = plate.poisson_ratio;
  const double rim = radius[n - 1];
  const double rim_moment =
      particular_slope(n - 2, rim, log_outer) + nu * particular(n - 2, rim, log_outer) / rim;
  const double shift = -rim_moment / (1.0 + nu);  // an A that frees the rim of it
  const RotationConstants outer =
      outer_constants(plate, shift - a, -b, particular(0, radius[0], log_radius[0]),
                      particular_slope(0, radius[0], log_radius[0]));
  const double a_inner = outer.linear + shift - a;
  const double b_inner = outer.inverse - b;

  // rotation, its slope and the lift, outwards
  const auto lift_term = [&](std::size_t k, double big_a, double big_b, double r, double log_r) {
    return 0.5 * big_a * r * r + big_b * (log_r - log_outer) -
           half * constant[k] * (0.5 * r * r * (log_r - log_outer) - 0.25 * r * r) -
           0.25 * eighth * square[k] * r * r * r * r;
  };
  double lift = 0.0;
  double slope_end = 0.0;
  double curvature_end = 0.0;
  for (std::size_t k = 0; k + 1 < n; ++k) {
    const double big_a = a_inner + step_a[k];
    const double big_b = b_inner + step_b[k];
    const double r = radius[k];
    const double log_r = log_radius[k];
    const double r_next = radius[k + 1];
    const double log_next = log_radius[k + 1];
    shape.lift[k] = lift;
    shape.slope[k] = big_a * r + big_b / r + particular(k, r, log_r);
    shape.curvature[k] = big_a - big_b / (r * r) + particular_slope(k, r, log_r);
    lift += lift_term(k, big_a, big_b, r_next, log_next) - lift_term(k, big_a, big_b, r, log_r) +
            (constant[k] * (log_next - log_r) + 0.5 * square[k] * (r_next * r_next - r * r)) /
                plate.shear_stiffness;
    slope_end = big_a * r_next + big_b / r_next + particular(k, r_next, log_next);
    curvature_end = big_a - big_b / (r_next * r_next) + particular_slope(k, r_next, log_next);
  }
  shape.lift[n - 1] = lift;
  shape.slope[n - 1] = slope_end;
  shape.curvature[n - 1] = curvature_end;
}

}  // namespace shimwright::plate
