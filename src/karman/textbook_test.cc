// Single clamped discs against formulas and equations that are not ours.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "karman/karman_curve.h"

namespace shimwright::karman {
namespace {

constexpr double kClamp = 6e-3, kRim = 12e-3, kModulus = 206e9, kNu = 0.3;

plate::Stack one_disc(double thickness) {
  plate::Stack stack;
  stack.clamp_radius = kClamp;
  stack.load = {kClamp, kRim, 1.0, 0.0};
  stack.seat = {false, kRim, 0.0};
  plate::Disc disc;
  disc.bore_radius = 3e-3;
  disc.outer_radius = kRim;
  disc.thickness = thickness;
  disc.youngs_modulus = kModulus;
  disc.poisson_ratio = kNu;
  stack.discs = {disc};
  return stack;
}

double quick_lift(const plate::Stack& stack, double pressure) {
  const double rims[] = {8e-3, 10e-3, kRim};
  const DiscTable table =
      table_of_discs({stack.clamp_radius, stack.load, stack.seat.radius, kModulus, kNu}, rims);
  Workspace workspace;
  Curve curve;
  find_curve(table, stack, pressure, workspace, curve);
  EXPECT_EQ(curve.outcome.status, Status::Converged);
  return lift_at(curve, pressure);
}

double plate_stiffness(double thickness) {
  return kModulus * std::pow(thickness, 3) / (12.0 * (1.0 - kNu * kNu));
}

TEST(Textbook, SmallLiftOfOneDiscIsTheClosedForm) {
  // [young2002] table 11.2, case 2l: outer edge free, inner edge fixed, uniform pressure from r0 outwards;
  // from memory. Thin, so that shear, which the case leaves out, is 5e-5 of the lift.
  const double t = 0.02e-3;
  const double a = kRim, b = kClamp, q = 0.1, d = plate_stiffness(t);
  const double log_ab = std::log(a / b), ba2 = (b / a) * (b / a);
  const double c2 = 0.25 * (1.0 - ba2 * (1.0 + 2.0 * log_ab));
  const double c3 = b / (4.0 * a) * ((ba2 + 1.0) * log_ab + ba2 - 1.0);
  const double c8 = 0.5 * (1.0 + kNu + (1.0 - kNu) * ba2);
  const double c9 = b / a * (0.5 * (1.0 + kNu) * log_ab + 0.25 * (1.0 - kNu) * (1.0 - ba2));
  const double l11 = 1.0 / 64.0 * (1.0 + 4.0 * ba2 - 5.0 * ba2 * ba2 - 4.0 * ba2 * (2.0 + ba2) * log_ab);
  const double l17 =
      0.25 * (1.0 - 0.25 * (1.0 - kNu) * (1.0 - ba2 * ba2) - ba2 * (1.0 + (1.0 + kNu) * log_ab));
  const double moment = -q * a * a / c8 * (c9 * (a * a - b * b) / (2.0 * a * b) - l17);
  const double shear = q / (2.0 * b) * (a * a - b * b);
  const double deflection =
      moment * a * a / d * c2 + shear * a * a * a / d * c3 - q * a * a * a * a / d * l11;
  EXPECT_NEAR(quick_lift(one_disc(t), q) / std::abs(deflection), 1.0, 2e-4);
}

/// Von Karman's plate of revolution [timoshenko1959] (art. 100, from memory), shot from the clamp: slope,
/// curvature, radial force, travel and lift.
struct Shooting {
  using State = std::array<double, 5>;
  double thickness, pressure;

  State rate(double r, const State& y) const {
    const auto [phi, curvature, force, travel, lift] = y;
    const double d = plate_stiffness(thickness);
    const double stretch = kModulus * thickness;
    const double cut = pressure * (kRim * kRim - r * r) / (2.0 * r);  // axial force across the section
    const double hoop = stretch * travel / r + kNu * force;
    const double strain = (force - kNu * hoop) / stretch;
    return {curvature, -curvature / r + phi / (r * r) + (force * phi - cut) / d, (hoop - force) / r,
            strain - 0.5 * phi * phi, phi};
  }

  State shoot(double curvature, double force) const {
    State y = {0.0, curvature, force, 0.0, 0.0};
    const int n = 1200;
    const double h = (kRim - kClamp) / n;
    for (int i = 0; i < n; ++i) {
      const double r = kClamp + i * h;
      const auto at = [&](const State& k, double share) {
        State moved = y;
        for (std::size_t j = 0; j < 5; ++j) moved[j] += share * h * k[j];
        return rate(r + share * h, moved);
      };
      const State k1 = rate(r, y), k2 = at(k1, 0.5), k3 = at(k2, 0.5), k4 = at(k3, 1.0);
      for (std::size_t j = 0; j < 5; ++j) y[j] += h / 6.0 * (k1[j] + 2.0 * k2[j] + 2.0 * k3[j] + k4[j]);
    }
    return y;
  }

  /// No moment and no force at the rim, by Newton's rule with differences.
  double lift(double& curvature, double& force) const {
    const auto off = [&](const State& rim) {
      return std::array<double, 2>{rim[1] + kNu * rim[0] / kRim, rim[2]};
    };
    for (int round = 0; round < 40; ++round) {
      const auto here = off(shoot(curvature, force));
      const double dc = 1e-6 * std::abs(curvature), df = 1e-6 * std::abs(force) + 1e-5;
      const auto by_c = off(shoot(curvature + dc, force));
      const auto by_f = off(shoot(curvature, force + df));
      const double a = (by_c[0] - here[0]) / dc, b = (by_f[0] - here[0]) / df;
      const double c = (by_c[1] - here[1]) / dc, d = (by_f[1] - here[1]) / df;
      const double det = a * d - b * c;
      const double step = (d * here[0] - b * here[1]) / det;
      curvature -= step;
      force -= (a * here[1] - c * here[0]) / det;
      if (std::abs(step) < 1e-8 * std::abs(curvature)) break;
    }
    return shoot(curvature, force)[4];
  }
};

TEST(Textbook, LargeLiftOfOneDiscIsVonKarmansPlate) {
  // so thin that it stretches while its slopes stay small, where the textbook's theory is the exact one
  const double t = 0.01e-3;
  const double first = 0.05;
  double curvature = 0.5 * first * std::pow(kRim - kClamp, 2) / plate_stiffness(t), force = 0.0;  // a start
  Shooting exact{t, 0.0};
  double lift = 0.0;  // far beyond four thicknesses the shot no longer hits
  for (exact.pressure = first; lift < 4.0 * t; exact.pressure *= 1.2) {
    lift = exact.lift(curvature, force);
    ASSERT_GT(lift, 0.0) << exact.pressure;
    // 3e-3: what four modes leave out
    EXPECT_NEAR(quick_lift(one_disc(t), exact.pressure) / lift, 1.0, 3e-3)
        << exact.pressure << ' ' << lift / t;
  }
}

}  // namespace
}  // namespace shimwright::karman
