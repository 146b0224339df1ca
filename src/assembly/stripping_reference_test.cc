#include <gtest/gtest.h>

#include "assembly/stripping.h"
#include "assembly/test_units.h"

namespace shimwright::assembly {
namespace {

// case TH-14: H28 formula, 10 mm of engagement, 6g/6H limits; independent computation
TEST(StrippingReference, ShearAreasAreThoseOfTheHandbookFormula) {
  struct Row {
    double diameter_mm, pitch_mm, post_mm2, nut_mm2;
  };
  for (const Row& row :
       {Row{6, 1, 86.47, 121.86}, Row{8, 1.25, 121.64, 168.27}, Row{10, 1.5, 155.75, 214.80}}) {
    SCOPED_TRACE(testing::Message() << "M" << row.diameter_mm);
    const ShearAreas areas = shear_areas(nominal_thread(row.diameter_mm * kMm, row.pitch_mm * kMm), 10 * kMm);
    // the case took limits rounded to a micrometre, which is worth up to 0.05 mm^2 here
    EXPECT_NEAR(areas.post, row.post_mm2 * kMm2, 0.05 * kMm2);
    EXPECT_NEAR(areas.nut, row.nut_mm2 * kMm2, 0.05 * kMm2);
  }
}

// case TH-17: coefficients from memory, values computed independently of this code
TEST(StrippingReference, AlexanderFactorsFollowHisPolynomials) {
  const double digits = 1e-5;  // as the case prints them
  EXPECT_NEAR(alexander_factors(1.5, 1.0).dilation, 0.84, digits);
  EXPECT_NEAR(alexander_factors(1.625, 1.0).dilation, 0.924375, digits);
  EXPECT_NEAR(alexander_factors(0.0, 1.5).post, 1.104331, digits);
  EXPECT_NEAR(alexander_factors(0.0, 0.4).nut, 1.055184, digits);
  EXPECT_NEAR(alexander_factors(0.0, 0.7).nut, 0.991788, digits);
  // both fits join the plateau at equal strength; the post's polynomial gives 0.8973 there
  EXPECT_NEAR(alexander_factors(0.0, 1.0 + 1e-9).post, 0.8973, digits);
  EXPECT_NEAR(alexander_factors(0.0, 1.0 - 1e-9).nut, 0.8970, digits);
}

// ISO 898-1, R_m As min [N] of M6 and M8; the standard rounds to three digits
TEST(StrippingReference, PropertyClassesCarryTheLoadsOfIso898) {
  struct Row {
    const char* id;
    double m6, m8;
  };
  for (const Row& row : {Row{"8.8", 16100, 29200}, Row{"10.9", 20900, 38100}, Row{"12.9", 24500, 44600}}) {
    const NamedStrength* named = find_strength(row.id);
    ASSERT_NE(named, nullptr);
    EXPECT_NEAR(named->strength.ultimate * stress_area(nominal_thread(6 * kMm, 1 * kMm)), row.m6,
                0.005 * row.m6);
    EXPECT_NEAR(named->strength.ultimate * stress_area(nominal_thread(8 * kMm, 1.25 * kMm)), row.m8,
                0.005 * row.m8);
  }
}

}  // namespace
}  // namespace shimwright::assembly
