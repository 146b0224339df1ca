#include "plate/annulus.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "plate/test_stacks.h"

namespace shimwright::plate {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

/// The reference plate R1 of the physics reference, section 1.2.
Annulus reference_plate() {
  const double stiffness = 206e9 * std::pow(0.15e-3, 3) / (12.0 * (1.0 - 0.09));
  return {6e-3, 12e-3, stiffness, 0.3, kInfinite, false};
}

struct Solved {
  std::vector<double> radius, log_radius, lift, slope, curvature;
};

/// Uniform pressure q between r1 and r2, on stations that hold both.
Solved solve_pressure(const Annulus& plate, std::vector<double> radius, double q, double r1, double r2) {
  Solved s;
  s.radius = std::move(radius);
  const std::size_t n = s.radius.size();
  for (double r : s.radius) s.log_radius.push_back(std::log(r));
  std::vector<double> constant(n, 0.0), square(n, 0.0);
  for (std::size_t k = 0; k + 1 < n; ++k) {
    const double middle = 0.5 * (s.radius[k] + s.radius[k + 1]);
    if (middle > r2) continue;
    if (middle < r1) {
      constant[k] = 0.5 * q * (r2 * r2 - r1 * r1);
    } else {
      constant[k] = 0.5 * q * r2 * r2;
      square[k] = -0.5 * q;
    }
  }
  s.lift.resize(n);
  s.slope.resize(n);
  s.curvature.resize(n);
  loaded_shape(plate, s.radius, s.log_radius, constant, square, {s.lift, s.slope, s.curvature});
  return s;
}

double flexibility(const Annulus& plate, std::vector<double> radius, std::size_t i, std::size_t j) {
  std::vector<double> log_radius;
  for (double r : radius) log_radius.push_back(std::log(r));
  std::vector<double> g(radius.size() * radius.size());
  ring_flexibility(plate, radius, log_radius, g);
  return g[i * radius.size() + j];
}

double clamp_moment(const Annulus& plate, const Solved& s) {
  return plate.stiffness * s.curvature[0];
}

// Expected values: physics reference 1.2, computed there from Roark table 11.2 cases 1l and 2l; six printed
// digits.
constexpr double kDigits = 1e-5;

TEST(Annulus, UniformPressureGivesLiftSlopeAndMomentOfTheTable) {
  const Annulus plate = reference_plate();
  const Solved s = solve_pressure(plate, {6e-3, 7e-3, 9e-3, 12e-3}, 1e5, 6e-3, 12e-3);  // PL-02
  expect_close(s.lift.back(), 0.279725e-3, kDigits);
  expect_close(s.slope.back(), 0.0562032, kDigits);
  expect_close(clamp_moment(plate, s), 2.499395, kDigits);
}

TEST(Annulus, PressureOnPartOfTheFaceGivesTheTable) {
  const Annulus plate = reference_plate();
  const std::vector<double> radius = {6e-3, 8e-3, 9e-3, 11e-3, 12e-3};
  const Solved outer = solve_pressure(plate, radius, 1e5, 9e-3, 12e-3);  // PL-04
  expect_close(outer.lift.back(), 0.244494e-3, kDigits);
  expect_close(outer.slope.back(), 0.0502616, kDigits);
  const Solved middle = solve_pressure(plate, radius, 1e5, 8e-3, 11e-3);  // PL-05
  expect_close(middle.lift.back(), 0.152826e-3, kDigits);
  const Solved inner = solve_pressure(plate, radius, 1e5, 6e-3, 9e-3);  // PL-06
  expect_close(inner.lift.back(), 0.0352304e-3, kDigits);
  const Solved whole = solve_pressure(plate, {6e-3, 12e-3}, 1e5, 6e-3, 12e-3);  // PL-07, on other stations
  expect_close(inner.lift.back() + outer.lift.back(), whole.lift.back(), 1e-9);
}

TEST(Annulus, RingForceGivesTheTable) {
  const Annulus plate = reference_plate();
  const std::vector<double> radius = {6e-3, 9e-3, 10e-3, 12e-3};
  expect_close(50.0 * flexibility(plate, radius, 3, 3), 0.908107e-3, kDigits);  // PL-03
  expect_close(50.0 * flexibility(plate, radius, 3, 2), 0.499998e-3, kDigits);  // PL-08
  expect_close(50.0 * flexibility(plate, radius, 2, 2), 0.301650e-3, kDigits);  // PL-08
  expect_close(flexibility(plate, radius, 1, 3), 6.268168e-6, kDigits);         // PL-09, per newton
}

TEST(Annulus, ProppedRimGivesTheSeatForceOfTheTable) {
  const Annulus plate = reference_plate();
  const Solved s = solve_pressure(plate, {6e-3, 9e-3, 12e-3}, 1e5, 6e-3, 12e-3);  // PL-10
  expect_close(s.lift.back() / flexibility(plate, {6e-3, 12e-3}, 1, 1), 15.4015, kDigits);
}

TEST(Annulus, ThickAndThinRatiosOfTheTableOfCoefficientsHold) {
  // PL-15 and PL-16: y = K q a^4 / D and y = K w a^3 / D, five printed decimals
  const double ratio[] = {0.1, 0.3, 0.5, 0.7, 0.9};
  const double k_pressure[] = {0.07569, 0.03182, 0.00859, 0.00110, 0.00001};
  const double k_ring[] = {0.26913, 0.13895, 0.05045, 0.01032, 0.00035};
  for (int i = 0; i < 5; ++i) {
    const Annulus plate{ratio[i], 1.0, 1.0, 0.3, kInfinite, false};
    EXPECT_NEAR(solve_pressure(plate, {ratio[i], 1.0}, 1.0, ratio[i], 1.0).lift.back(), k_pressure[i], 1e-5);
    EXPECT_NEAR(flexibility(plate, {ratio[i], 1.0}, 1, 1) * 2.0 * std::numbers::pi, k_ring[i], 1e-5);
  }
}

TEST(Annulus, BothFormsAgreeForARingForce) {
  // the sweep with a constant load inside the force against the symmetric table, clamp and free ring, with
  // shear
  for (const bool ring : {false, true}) {
    Annulus plate = reference_plate();
    plate.ring = ring;
    plate.shear_stiffness = 1e7;
    const std::vector<double> radius = {6e-3, 8e-3, 9.5e-3, 12e-3};
    std::vector<double> log_radius;
    for (double r : radius) log_radius.push_back(std::log(r));
    const double unit = 1.0 / (2.0 * std::numbers::pi);
    const std::vector<double> constant = {unit, unit, 0.0, 0.0};
    const std::vector<double> square(4, 0.0);
    std::vector<double> lift(4), slope(4), curvature(4);
    loaded_shape(plate, radius, log_radius, constant, square, {lift, slope, curvature});
    for (std::size_t i = 0; i < 4; ++i)
      EXPECT_NEAR(lift[i], flexibility(plate, radius, i, 2), 1e-12 * lift[3] + 1e-20);
    if (ring) {
      EXPECT_NEAR(curvature[0] + 0.3 * slope[0] / radius[0], 0.0,
                  1e-12 * std::abs(curvature[0]));  // no moment at the bore
    } else {
      EXPECT_NEAR(slope[0], 0.0, 1e-12 * slope[3]);
    }
    EXPECT_NEAR(curvature[3] + 0.3 * slope[3] / radius[3], 0.0, 1e-10 * std::abs(slope[3]) / radius[3]);
  }
}

}  // namespace
}  // namespace shimwright::plate
