#include "flow/needle.h"

#include <gtest/gtest.h>

#include <array>
#include <numbers>

#include "flow/notch.h"

namespace shimwright::flow {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;
const Needle kNeedle{
    .bore_diameter = 3e-3, .half_angle = 15 * kDegree, .pitch = 1e-3, .clicks_per_turn = 8.0, .clicks = 8.0};

// Frustum formula; physics case OR-18 (computed apart).
TEST(Needle, OpensAsTheFrustum) {
  const std::array<std::array<double, 2>, 4> cases{
      {{.25, .597123}, {.5, 1.168837}, {1.0, 2.236036}, {2.0, 4.065520}}};
  for (const auto& [travel_mm, area_mm2] : cases)
    EXPECT_NEAR(needle_area(kNeedle, travel_mm * 1e-3) * 1e6, area_mm2, 1e-6);  // case prints six decimals
}

TEST(Needle, NeverOpensMoreThanItsBore) {
  const double bore = 0.25 * std::numbers::pi * 9e-6;
  EXPECT_NEAR(needle_full_travel(kNeedle) * 1e3, 4.892449, 1e-6);  // physics case OR-18
  EXPECT_NEAR(needle_area(kNeedle, needle_full_travel(kNeedle) * (1 - 1e-12)) / bore, 1.0, 1e-10);
  // the bare formula would go on to 7.318 mm2 at 6 mm and then fall
  for (const double travel_mm : {5.0, 6.0, 9.0}) EXPECT_EQ(needle_area(kNeedle, travel_mm * 1e-3), bore);
  EXPECT_NEAR(needle_full_travel({.bore_diameter = 3e-3, .half_angle = 89.9999 * kDegree}), 0.75e-3, 1e-8);
}

TEST(Needle, ClicksAreCountedOutFromSeated) {
  Needle needle = kNeedle;
  EXPECT_DOUBLE_EQ(needle_travel(needle), 1e-3);
  needle.clicks = 2.0;
  EXPECT_DOUBLE_EQ(needle_travel(needle), 0.25e-3);
  needle.clicks = 0.0;
  EXPECT_EQ(needle_opening(needle).area, 0.0);
  needle.seated_clearance = 0.05e-3;
  EXPECT_GT(needle_opening(needle).area, 0.0);
}

TEST(Needle, EachClickOpensMore) {
  Needle needle = kNeedle;
  double last = -1.0;
  for (needle.clicks = 0.0; needle.clicks <= 39.0; needle.clicks += 1.0) {
    const Orifice opening = needle_opening(needle);
    EXPECT_GT(opening.area, last);
    EXPECT_LE(opening.hydraulic_diameter, needle.bore_diameter);
    last = opening.area;
  }
}

TEST(Needle, ProblemsNameTheField) {
  Problems problems;
  find_problems(Needle{.clicks = -1.0, .discharge = {.law = Discharge::Law::ShortTube, .coefficient = 2.0}},
                "n", problems);
  ASSERT_EQ(problems.size(), 7u);
  EXPECT_EQ(problems[0].field, "n.bore_diameter");
  EXPECT_EQ(problems[1].field, "n.half_angle");
  EXPECT_EQ(problems[2].field, "n.pitch");
  EXPECT_EQ(problems[3].field, "n.clicks_per_turn");
  EXPECT_EQ(problems[4].field, "n.clicks");
}

TEST(Notch, IsAWindowAsHighAsTheDisc) {
  const Orifice opening = notch_opening({.n_notches = 3, .width = 2e-3, .thickness = 0.2e-3});
  EXPECT_NEAR(opening.area, 1.2e-6, 1e-18);
  EXPECT_NEAR(opening.hydraulic_diameter, 2 * 2e-3 * 0.2e-3 / 2.2e-3, 1e-15);
}

TEST(Notch, ProblemsNameTheField) {
  Problems problems;
  find_problems(Notches{}, "notches", problems);
  ASSERT_EQ(problems.size(), 3u);
  EXPECT_EQ(problems[0].field, "notches.n_notches");
}

}  // namespace
}  // namespace shimwright::flow
