// One disc at large lift against a boundary-value solution of the same equations: shot from the clamp with
// small steps, with no elements, no condensed loads and no contact.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "plate/stack.h"
#include "plate/test_stacks.h"

namespace shimwright::plate {
namespace {

/// A disc that finite rotations bend: section slope phi, radial moment r M, travel u, radial and axial force
/// r H and r V, lift w [reissner1950]. The pressure is square to the moved surface; shear turns the sections
/// by Q / (kappa G t), with Q square to the disc.
struct Shooting {
  using State = std::array<double, 6>;
  double inner, outer, pocket_in, pocket_out, seat, thickness, pressure;
  bool shear_flexible;
  double youngs_modulus = 206e9, nu = 0.3;

  State slope(double r, const State& y, double load) const {
    const double stiffness = youngs_modulus * std::pow(thickness, 3) / (12.0 * (1.0 - nu * nu));
    const double stretch = youngs_modulus * thickness;
    const double shear = 5.0 / 6.0 * youngs_modulus / (2.0 * (1.0 + nu)) * thickness;
    const auto [phi, r_moment, u, r_h, r_v, w] = y;
    const double s = std::sin(phi), c = std::cos(phi);
    const double force_s = (r_h * c + r_v * s) / r, q = (r_v * c - r_h * s) / r;
    const double e_t = u / r;
    const double e_s = (1.0 - nu * nu) * force_s / stretch - nu * e_t;
    const double force_t = stretch * e_t + nu * force_s;
    const double k_t = s / r;
    const double k_s = r_moment / r / stiffness - nu * k_t;
    const double moment_t = stiffness * (k_t + nu * k_s);
    const double gamma = shear_flexible ? q / shear : 0.0;
    const double moved = r + u;
    // along the moved middle surface, per reference radius
    const double dr = (1.0 + e_s) * c - gamma * s, dz = (1.0 + e_s) * s + gamma * c;
    return {
        k_s, moment_t * c + r_h * dz - r_v * dr, dr - 1.0, force_t + load * moved * dz, -load * moved * dr,
        dz};
  }

  struct End {
    State rim;
    double lift_seat;
  };
  End shoot(const std::array<double, 3>& unknown) const {
    State y = {0.0, unknown[0], 0.0, unknown[1], unknown[2], 0.0};
    double lift_seat = 0.0;
    const double stops[] = {inner, pocket_in, pocket_out, seat, outer};
    for (int piece = 0; piece < 4; ++piece) {
      const double load = piece == 1 ? pressure : 0.0;
      const int n = 600;
      const double h = (stops[piece + 1] - stops[piece]) / n;
      for (int i = 0; i < n; ++i) {
        const double r = stops[piece] + i * h;
        const auto at = [&](const State& k, double share) {
          State moved = y;
          for (std::size_t j = 0; j < 6; ++j) moved[j] += share * h * k[j];
          return slope(r + share * h, moved, load);
        };
        const State a = slope(r, y, load), b = at(a, 0.5), c = at(b, 0.5), d = at(c, 1.0);
        for (std::size_t j = 0; j < 6; ++j) y[j] += h / 6.0 * (a[j] + 2.0 * b[j] + 2.0 * c[j] + d[j]);
      }
      if (piece == 2) lift_seat = y[5];
    }
    return {y, lift_seat};
  }

  /// No moment and no force at the rim, by Newton's rule with differences from a start near by.
  double lift(std::array<double, 3>& unknown) const {
    for (int round = 0; round < 30; ++round) {
      const State rim = shoot(unknown).rim;
      double a[3][4] = {{0, 0, 0, -rim[1]}, {0, 0, 0, -rim[3]}, {0, 0, 0, -rim[4]}};
      for (std::size_t j = 0; j < 3; ++j) {
        const double step = 1e-6 * std::max(std::abs(unknown[j]), 1e-3);
        std::array<double, 3> moved = unknown;
        moved[j] += step;
        const State there = shoot(moved).rim;
        a[0][j] = (there[1] - rim[1]) / step;
        a[1][j] = (there[3] - rim[3]) / step;
        a[2][j] = (there[4] - rim[4]) / step;
      }
      for (int i = 0; i < 3; ++i) {
        int pivot = i;
        for (int k = i; k < 3; ++k)
          if (std::abs(a[k][i]) > std::abs(a[pivot][i])) pivot = k;
        std::swap(a[i], a[pivot]);
        for (int k = 0; k < 3; ++k) {
          if (k == i) continue;
          const double share = a[k][i] / a[i][i];
          for (int j = i; j < 4; ++j) a[k][j] -= share * a[i][j];
        }
      }
      double change = 0.0;
      for (int i = 0; i < 3; ++i) {
        const double step = a[i][3] / a[i][i];
        unknown[static_cast<std::size_t>(i)] += step;
        change = std::max(change, std::abs(step / unknown[static_cast<std::size_t>(i)]));
      }
      if (change < 1e-9) break;
    }
    return shoot(unknown).lift_seat;
  }
};

/// Lifts of a solved disc against the boundary-value solution, at rising pressures.
void expect_as_shot(double pocket_in_mm, double pocket_out_mm, double thickness_mm,
                    const std::vector<double>& pressures) {
  for (const bool shear_flexible : {false, true}) {
    Stack stack = test_stack({{12, thickness_mm}});
    stack.load = {1e-3 * pocket_in_mm, 1e-3 * pocket_out_mm, 1.0, 0.0};
    stack.seat = {false, 11e-3, 0.0};
    Options options;
    options.shear_flexible = shear_flexible;
    Workspace workspace;
    const StackResult solved = stack_response(stack, pressures, options, workspace);
    Shooting exact{
        6e-3, 12e-3,         stack.load.inner_radius, stack.load.outer_radius, 11e-3, 1e-3 * thickness_mm,
        0.0,  shear_flexible};
    const double force = 0.5 * (std::pow(stack.load.outer_radius, 2) - std::pow(stack.load.inner_radius, 2));
    const double arm = 0.5 * (stack.load.inner_radius + stack.load.outer_radius) - exact.inner;
    std::array<double, 3> unknown = {force * arm * pressures[0], 1e-9 * pressures[0], force * pressures[0]};
    for (std::size_t i = 0; i < pressures.size(); ++i) {
      exact.pressure = pressures[i];
      const double lift = exact.lift(unknown);
      ASSERT_GT(lift, 0.0);
      EXPECT_NEAR(solved.points[i].lift_seat / lift, 1.0, 2e-5)
          << pressures[i] << (shear_flexible ? " with shear" : "");
    }
  }
}

TEST(SingleDisc, LiftsAsTheBoundaryValueSolution) {
  expect_as_shot(6.5, 10.5, 0.15, {1e4, 3e4, 1e5, 2e5, 4e5, 7e5, 1e6});  // slopes to 0.1
}

TEST(SingleDisc, LiftsAsTheBoundaryValueSolutionUnderARing) {
  expect_as_shot(10.2, 10.4, 0.15, {1e4, 1e5, 3e5, 1e6, 2e6, 4e6, 7e6});
}

}  // namespace
}  // namespace shimwright::plate
