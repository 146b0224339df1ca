#include "assembly/fill.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

#include "assembly/test_units.h"
#include "base/check.h"

namespace shimwright::assembly {
namespace {

using testing::ElementsAre;

constexpr double kRounding = 1e-15;  // of volumes of some 1e-4 m^3

std::vector<std::string> fields_of(const Problems& problems) {
  std::vector<std::string> fields;
  for (const Problem& problem : problems) fields.push_back(problem.field);
  return fields;
}

CartridgeFill cartridge() {
  return {.bore = 25 * kMm,
          .length = 300 * kMm,
          .rod_diameter = 12 * kMm,
          .rod_inside = 40 * kMm,
          .solids = 8 * kCm3};
}

TEST(OilVolume, IsTheTubeWithoutRodAndParts) {
  const double expected = circle(25 * kMm) * 0.3 - circle(12 * kMm) * 0.04 - 8 * kCm3;
  EXPECT_NEAR(oil_volume(cartridge()), expected, kRounding);
}

TEST(OilVolume, PushingTheRodInLeavesRoomForLessOil) {
  CartridgeFill in = cartridge();
  in.rod_inside += 100 * kMm;
  EXPECT_NEAR(oil_volume(cartridge()) - oil_volume(in), rod_volume(12 * kMm, 100 * kMm), kRounding);
}

TEST(OilVolume, AHollowRodAndAReservoirHoldOilToo) {
  CartridgeFill more = cartridge();
  more.rod_bore = 8 * kMm;
  more.elsewhere = 20 * kCm3;
  EXPECT_NEAR(oil_volume(more) - oil_volume(cartridge()), 20 * kCm3 + circle(8 * kMm) * 0.04, kRounding);
}

TEST(OilVolume, ImpossibleCartridgesAreProblemsByField) {
  EXPECT_TRUE(problems_in(cartridge()).empty());
  CartridgeFill bad = cartridge();
  bad.rod_diameter = 30 * kMm;
  bad.rod_bore = 31 * kMm;
  bad.rod_inside = 400 * kMm;
  bad.elsewhere = -1.0;
  bad.solids = 1.0;
  EXPECT_THAT(fields_of(problems_in(bad)),
              ElementsAre("rod_diameter", "rod_bore", "rod_inside", "elsewhere", "solids"));
  EXPECT_THROW(oil_volume(bad), LogicFault);
}

OuterTube leg() {
  return {.bore = 43 * kMm,
          .height = 500 * kMm,
          .standing = {{.diameter = 28 * kMm, .bottom = 20 * kMm, .top = 350 * kMm},
                       {.diameter = 12 * kMm, .bottom = 350 * kMm, .top = 500 * kMm}}};
}

TEST(OilLevel, AirGapAndOilAreInverseAcrossEveryStep) {
  for (double gap :
       {0.0, 60 * kMm, 149 * kMm, 150 * kMm, 151 * kMm, 300 * kMm, 479 * kMm, 485 * kMm, 500 * kMm}) {
    EXPECT_NEAR(air_gap_at_oil(leg(), oil_at_air_gap(leg(), gap)), gap, 1e-12) << gap;
  }
}

TEST(OilLevel, AirAndOilFillTheTube) {
  const double empty = oil_at_air_gap(leg(), 0.0);
  EXPECT_NEAR(empty, circle(43 * kMm) * 0.5 - circle(28 * kMm) * 0.33 - circle(12 * kMm) * 0.15, kRounding);
  EXPECT_NEAR(air_at_air_gap(leg(), 120 * kMm) + oil_at_air_gap(leg(), 120 * kMm), empty, kRounding);
}

TEST(OilLevel, MoreOilThanTheTubeHoldsRunsOver) {
  const double full = oil_at_air_gap(leg(), 0.0);
  EXPECT_NEAR(air_gap_at_oil(leg(), full), 0.0, 1e-12);
  EXPECT_LT(air_gap_at_oil(leg(), full + 10 * kCm3), 0.0);
}

TEST(OilLevel, ImpossibleTubesAreProblemsByField) {
  EXPECT_TRUE(problems_in(leg()).empty());
  OuterTube bad = leg();
  bad.standing[0].diameter = 50 * kMm;
  bad.standing[1].top = 300 * kMm;
  EXPECT_THAT(fields_of(problems_in(bad)), ElementsAre("standing[0].diameter", "standing[1].bottom"));

  // side by side they leave no room where the later one begins
  OuterTube crowded = leg();
  crowded.standing = {{.diameter = 35 * kMm, .bottom = 50 * kMm, .top = 300 * kMm},
                      {.diameter = 35 * kMm, .bottom = 0.0, .top = 300 * kMm}};
  EXPECT_THAT(fields_of(problems_in(crowded)), ElementsAre("standing[0].diameter"));
}

TEST(Warming, WithoutACoefficientOrDensitiesIsAProblem) {
  EXPECT_THAT(fields_of(problems_in(Warming{.oil_volume = 1e-4, .rise = 60})), ElementsAre("oil_expansion"));
  EXPECT_THAT(fields_of(problems_in(Warming{.oil_volume = 1e-4, .fill_density = 860, .rise = 60})),
              ElementsAre("oil_expansion"));
  EXPECT_TRUE(problems_in(Warming{.oil_volume = 1e-4, .fill_density = 860, .work_density = 820}).empty());
}

PurgeCase purge_case() {
  return {.rod_diameter = 12 * kMm,
          .stroke = 200 * kMm,
          .capacity = 26 * kCm3,
          .extra_oil = 0.0,
          .growth = 2 * kCm3};
}

TEST(ExpectedPurge, ACorrectFillPurgesNothing) {
  // the rod pushes in 22.6 cm^3, warm 24.6; the compensator takes 26
  const Purge purge = expected_purge(purge_case());
  EXPECT_EQ(purge.first_stroke, 0.0);
  EXPECT_EQ(purge.when_warm, 0.0);
  EXPECT_NEAR(purge.spare, 26 * kCm3 - rod_volume(12 * kMm, 200 * kMm) - 2 * kCm3, kRounding);
}

TEST(ExpectedPurge, WhatWasPouredInTooMuchComesOut) {
  PurgeCase over = purge_case();
  over.extra_oil = 10 * kCm3;
  const Purge purge = expected_purge(over);
  EXPECT_NEAR(purge.first_stroke, rod_volume(12 * kMm, 200 * kMm) + 10 * kCm3 - 26 * kCm3, kRounding);
  EXPECT_NEAR(purge.when_warm, 2 * kCm3, kRounding);
  EXPECT_NEAR(purge.spare, -2 * kCm3, kRounding);
}

TEST(BleedPlan, StrokesAreTheUsualOnesOrAllTheTravelThereIs) {
  // common practice, no source: 125-150 mm for 5-10 min
  const BleedPlan plan = bleed_plan(12 * kMm, 200 * kMm);
  EXPECT_DOUBLE_EQ(plan.stroke_low, 125 * kMm);
  EXPECT_DOUBLE_EQ(plan.stroke_high, 150 * kMm);
  EXPECT_DOUBLE_EQ(plan.seconds_low, 300.0);
  EXPECT_DOUBLE_EQ(plan.seconds_high, 600.0);
  EXPECT_LT(plan.purge_accepted, 1 * kCm3);
  EXPECT_DOUBLE_EQ(bleed_plan(12 * kMm, 60 * kMm).stroke_high, 60 * kMm);
}

}  // namespace
}  // namespace shimwright::assembly
