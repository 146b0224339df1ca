#include "flow/laminar.h"

#include <gtest/gtest.h>

#include <array>

#include "flow/test_oil.h"

namespace shimwright::flow {
namespace {

constexpr double kCubicCentimetre = 1e-6;

// physics case OR-12; the eccentricity factor is the mean of (1 + e cos)^3.
TEST(Leakage, PistonBandGapCentredHalfAndTouching) {
  const std::array<std::array<double, 2>, 3> cases{{{0.0, 1.472622}, {0.5, 2.024855}, {1.0, 3.681554}}};
  for (const auto& [eccentricity, expected] : cases) {
    const AnnularGap gap{
        .diameter = 36e-3, .clearance = 25e-6, .length = 10e-3, .eccentricity = eccentricity};
    EXPECT_NEAR(gap_flow(gap, kOil, 1e6).q / kCubicCentimetre / expected, 1.0, 1e-6);
  }
}

// physics case OR-14.
TEST(Leakage, AMovingWallDragsHalfItsSpeed) {
  const AnnularGap gap{.diameter = 36e-3, .clearance = 25e-6, .length = 10e-3};
  EXPECT_NEAR(dragged_flow(gap, 1.0) / kCubicCentimetre, 1.413717, 1e-6);
}

// the exact concentric annulus tends to the thin gap
TEST(Leakage, ThinGapIsTheLimitOfTheExactRing) {
  const double exact = concentric_gap_flow(18.0125e-3, 17.9875e-3, 10e-3, 0.010, 1e6);
  EXPECT_NEAR(exact / kCubicCentimetre / 1.472622, 1.0, 1e-6);  // next order is (c / D)^2 = 5e-7
}

// Hagen-Poiseuille; physics case OR-15.
TEST(Leakage, CapillaryOfOneMillimetre) {
  const Capillary bore{.diameter = 1e-3, .length = 20e-3};
  const double q = capillary_flow(bore, kOil, 1e5).q;
  EXPECT_NEAR(q / kCubicCentimetre, 12.27185, 1e-5);
  EXPECT_NEAR(mean_reynolds(bore, kOil, q), 1359.0, 1.0);
}

// physics case OR-16.
TEST(Leakage, SlotOfTwoTenths) {
  const Slot slot{.width = 5e-3, .height = 0.2e-3, .length = 4e-3};
  EXPECT_NEAR(slot_flow(slot, kOil, 1e5).q / kCubicCentimetre, 8.333333, 1e-6);
}

TEST(Leakage, ReynoldsNumberOfAGapIsOnTwiceTheClearance) {
  const AnnularGap gap{.diameter = 36e-3, .clearance = 25e-6, .length = 10e-3};
  const double q = gap_flow(gap, kOil, 1e6).q;
  EXPECT_NEAR(mean_reynolds(gap, kOil, q), 870.0 * q * 2 / (3.14159265358979 * 36e-3 * 0.010), 1e-9);
}

TEST(Leakage, ProblemsNameTheField) {
  Problems problems;
  find_problems(AnnularGap{.clearance = -1.0, .eccentricity = 1.1}, "band", problems);
  find_problems(Capillary{.n_bores = 0}, "bore", problems);
  find_problems(Slot{}, "slot", problems);
  ASSERT_EQ(problems.size(), 10u);
  EXPECT_EQ(problems[0].field, "band.diameter");
  EXPECT_EQ(problems[3].field, "band.eccentricity");
  EXPECT_EQ(problems[4].field, "bore.n_bores");
  EXPECT_EQ(problems[9].field, "slot.length");
}

}  // namespace
}  // namespace shimwright::flow
