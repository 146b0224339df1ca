#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "oil/air.h"
#include "oil/oil.h"

namespace shimwright::oil {
namespace {

double pick(double low, double high) {
  return low + (high - low) * (*rc::gen::inRange(0, 10001)) / 10000.0;
}

/// Any damper oil: 2.5 to 100 mm2/s at 40 degC, thinning by a factor of 2 to 8 up to 100 degC.
OilModel any_oil() {
  OilModel oil;
  const double at_40 = std::exp(pick(std::log(2.5e-6), std::log(100e-6)));
  oil.viscosity_points = {{313.15, at_40}, {373.15, at_40 / pick(2.0, 8.0)}};
  oil.density_15 = pick(780.0, 950.0);
  oil.expansion = lubricating_oil_expansion(oil.density_15);
  oil.entrained_air = pick(0.0, 0.1);
  return oil;
}

RC_GTEST_PROP(OilProperty, PassesThroughBothItsPointsInWhateverOrder, ()) {
  OilModel oil = any_oil();
  for (int turn = 0; turn < 2; ++turn) {
    for (const ViscosityPoint& point : oil.viscosity_points) {
      // two logarithms and their inverses magnify rounding by some tens
      RC_ASSERT(std::abs(kinematic_viscosity(oil, point.temperature) / point.viscosity - 1.0) < 1e-12);
    }
    std::swap(oil.viscosity_points[0], oil.viscosity_points[1]);
  }
}

RC_GTEST_PROP(OilProperty, GetsThinnerAndLighterAsItWarms, ()) {
  const OilModel oil = any_oil();
  const double temperature = pick(oil.coldest, oil.hottest - 1.0);
  const double warmer = temperature + pick(0.01, 1.0);
  RC_ASSERT(kinematic_viscosity(oil, warmer) < kinematic_viscosity(oil, temperature));
  RC_ASSERT(density(oil, warmer) < density(oil, temperature));
  RC_ASSERT(thermal_volume_ratio(oil, temperature, warmer) > 1.0);
}

RC_GTEST_PROP(OilProperty, TemperatureAndViscosityAreEachOthersInverse, ()) {
  const OilModel oil = any_oil();
  const double temperature = pick(oil.coldest, oil.hottest);
  const double back = temperature_at_viscosity(oil, kinematic_viscosity(oil, temperature));
  RC_ASSERT(std::abs(back / temperature - 1.0) < 1e-10);  // flat law at its thin end magnifies rounding
}

RC_GTEST_PROP(OilProperty, DensityIsTheLinearRuleNearFifteenDegrees, ()) {
  const OilModel oil = any_oil();
  const double dt = pick(-1.0, 1.0);
  const double linear = oil.density_15 * (1.0 - oil.expansion * dt);
  // second order: less than 2 (e dt)^2 with e dt below 1e-3
  RC_ASSERT(std::abs(density(oil, kDensityReference + dt) / linear - 1.0) < 2e-6);
}

RC_GTEST_PROP(OilProperty, BulkModulusIsTheSlopeOfVolumeUnderPressure, ()) {
  const OilModel oil = any_oil();
  const double pressure = std::exp(pick(std::log(0.3e5), std::log(2e7)));
  const double exponent = pick(kSlow, kFast);
  const double step = 1e-4 * pressure;
  const double slope = (pressure_volume_ratio(oil, pressure + step, exponent) -
                        pressure_volume_ratio(oil, pressure - step, exponent)) /
                       (2.0 * step);
  const double expected = -pressure_volume_ratio(oil, pressure, exponent) / slope;
  // central difference: (step/p)^2 = 1e-8 of the air, rounding of volumes near one over changes of 1e-8 at
  // least
  RC_ASSERT(std::abs(effective_bulk_modulus(oil, pressure, exponent) / expected - 1.0) < 1e-5);
}

RC_GTEST_PROP(OilProperty, BubblesSoftenAndPressureStiffens, ()) {
  OilModel oil = any_oil();
  const double pressure = std::exp(pick(std::log(1e5), std::log(1e7)));
  const double here = effective_bulk_modulus(oil, pressure);
  RC_ASSERT(here <= oil.bulk_modulus);
  RC_ASSERT(effective_bulk_modulus(oil, 1.1 * pressure) >= here);
  oil.entrained_air += 0.01;
  RC_ASSERT(effective_bulk_modulus(oil, pressure) < here);
}

TEST(OilLimits, WithoutBubblesTheModulusIsThatOfTheOilAtAnyPressure) {
  OilModel oil;
  oil.entrained_air = 0.0;
  for (const double pressure : {1e4, 1e5, 1e7})
    EXPECT_DOUBLE_EQ(effective_bulk_modulus(oil, pressure), oil.bulk_modulus);
}

TEST(OilLimits, FoamIsAsStiffAsItsAir) {
  // almost all air: the modulus of a polytropic gas is n p
  OilModel oil;
  oil.entrained_air = 1.0 - 1e-9;
  EXPECT_NEAR(effective_bulk_modulus(oil, kAtmosphere, kFast) / (kFast * kAtmosphere), 1.0, 1e-6);
}

}  // namespace
}  // namespace shimwright::oil
