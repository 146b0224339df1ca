#include <gtest/gtest.h>

#include "assembly/fill.h"
#include "assembly/test_units.h"

// Volumes and growth, computed independently from the plain geometry.

namespace shimwright::assembly {
namespace {

TEST(FillReference, ARodPushesOutItsOwnVolume) {
  // case HY-06: 12 mm over 60 mm
  EXPECT_NEAR(rod_volume(12 * kMm, 60 * kMm), 6.785840 * kCm3, 1e-6 * kCm3);
}

TEST(FillReference, TenMillimetresOfOilLevelAreThisMuchOil) {
  // case HY-07: 43 mm bore, bare and with a 25.4 mm rod in it
  OuterTube tube{.bore = 43 * kMm, .height = 600 * kMm};
  EXPECT_NEAR(oil_at_air_gap(tube, 110 * kMm) - oil_at_air_gap(tube, 120 * kMm), 14.52201 * kCm3,
              1e-5 * kCm3);
  tube.standing = {{.diameter = 25.4 * kMm, .bottom = 0.0, .top = 600 * kMm}};
  EXPECT_NEAR(oil_at_air_gap(tube, 110 * kMm) - oil_at_air_gap(tube, 120 * kMm), 9.45494 * kCm3, 1e-5 * kCm3);
}

// Case HY-04 prints two results of one fill in a steel and in an aluminium body. Their difference, 3 x 11e-6
// V dT = 0.792 cm^3, gives V dT = 0.024 m^3 K (300 cm^3 by 80 K), and the sum beta = 7.2e-4 / K.
TEST(FillReference, OilGrowsMoreThanItsBody) {
  Warming warming{.oil_volume = 300 * kCm3, .oil_expansion = 7.2e-4, .body_expansion = 12e-6, .rise = 80.0};
  EXPECT_NEAR(oil_growth(warming), 16.416 * kCm3, 1e-5 * kCm3);
  warming.body_expansion = 23e-6;
  EXPECT_NEAR(oil_growth(warming), 15.624 * kCm3, 1e-5 * kCm3);
}

TEST(FillReference, TheSimpleRuleOfExpansion) {
  // case DN-03: 500 cm^3, 0.0007 / K, 20 to 100 degC
  EXPECT_NEAR(oil_growth({.oil_volume = 500 * kCm3, .oil_expansion = 7e-4, .rise = 80.0}), 28.0 * kCm3,
              1e-9 * kCm3);
}

TEST(FillReference, DensitiesOfAstmD1250GiveTheSameGrowthAsTheirCoefficient) {
  // case DN-01: 866.858 kg/m^3 at 20 degC, 815.782 at 100 degC
  const double growth =
      oil_growth({.oil_volume = 500 * kCm3, .fill_density = 866.858, .work_density = 815.782, .rise = 80.0});
  EXPECT_NEAR(growth, 500 * kCm3 * (866.858 / 815.782 - 1.0), 1e-12);
  EXPECT_NEAR(growth, 31.3 * kCm3, 0.05 * kCm3);
}

}  // namespace
}  // namespace shimwright::assembly
