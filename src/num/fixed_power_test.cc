#include "num/fixed_power.h"

#include <gtest/gtest.h>

#include <limits>

namespace shimwright::num {
namespace {

// the library's pow is right to the last bit; a few more are lost in three products and a series
constexpr double kLostDigits = 3e-15;

TEST(FixedPower, IsTheLibrarysPower) {
  for (const double exponent : {-1.0 / 1.4, -1.0 / 1.0001, 1.4, 1.0, 0.2, -2.0, 3.0}) {
    const FixedPower power(exponent);
    double x = 1e-12;
    for (int i = 0; i < 20000; ++i, x *= 1.0 + 0.00271)
      ASSERT_NEAR(power.at(x) / std::pow(x, exponent), 1.0, kLostDigits) << x << " to " << exponent;
  }
}

TEST(FixedPower, HasNoJumpBetweenItsPlaces) {
  const FixedPower power(-0.7);
  for (int i = 0; i <= 64; ++i) {
    const double x = 1.0 + i / 32.0;
    EXPECT_NEAR(power.at(std::nextafter(x, 0.0)) / power.at(x), 1.0, kLostDigits) << x;
  }
}

TEST(FixedPower, LeavesTheRestToTheLibrary) {
  const FixedPower power(-0.7);
  constexpr double kInfinite = std::numeric_limits<double>::infinity();
  for (const double x : {1e-300, 1e300, 0.0, -0.0, kInfinite, 5e-324})
    EXPECT_EQ(power.at(x), std::pow(x, -0.7)) << x;
  for (const double x : {-1.0, -1e5, -kInfinite, std::numeric_limits<double>::quiet_NaN()})
    EXPECT_EQ(std::isnan(power.at(x)), std::isnan(std::pow(x, -0.7))) << x;
}

}  // namespace
}  // namespace shimwright::num
