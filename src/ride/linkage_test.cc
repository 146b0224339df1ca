#include "ride/linkage.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace shimwright::ride {
namespace {

/// Invented: 300 mm of wheel travel, leverage falling from 3.1 to 2.4 as a straight line of its inverse.
double ratio_of(double wheel) {
  return 0.32 + 0.3 * wheel;
}
double shock_of(double wheel) {
  return 0.32 * wheel + 0.15 * wheel * wheel;
}

std::vector<LinkageRow> travel_table() {
  std::vector<LinkageRow> table;
  for (const double wheel : num::evenly_spaced(0.0, 0.3, 7)) table.push_back({wheel, shock_of(wheel)});
  return table;
}

std::vector<LeverageRow> leverage_table() {
  std::vector<LeverageRow> table;
  for (const double wheel : num::evenly_spaced(0.0, 0.3, 7)) table.push_back({wheel, 1.0 / ratio_of(wheel)});
  return table;
}

std::vector<std::string> fields_of(const Problems& problems) {
  std::vector<std::string> fields;
  for (const Problem& problem : problems) fields.push_back(problem.field);
  return fields;
}

TEST(Linkage, ThroughTravelsOfAParabolaIsThatParabola) {
  const Linkage linkage = linkage_through(travel_table());
  for (const double wheel : num::evenly_spaced(0.0, 0.3, 31)) {
    const LinkagePoint point = linkage_at(linkage, wheel);
    EXPECT_NEAR(point.shock_travel, shock_of(wheel), 1e-14);  // rounding
    EXPECT_NEAR(point.motion_ratio, ratio_of(wheel), 1e-12);  // rounding over a spacing of 0.05
    EXPECT_NEAR(point.motion_ratio_slope, 0.3, 1e-10);        // and over its square
    EXPECT_NEAR(wheel_travel_at(linkage, shock_of(wheel)), wheel, 1e-12);
  }
}

TEST(Linkage, ThroughLeveragesIsTheSameAsThroughTheTravelsTheyMake) {
  const Linkage linkage = linkage_through(leverage_table());
  for (const double wheel : num::evenly_spaced(0.0, 0.3, 31)) {
    const LinkagePoint point = linkage_at(linkage, wheel);
    EXPECT_NEAR(point.shock_travel, shock_of(wheel), 1e-14);
    EXPECT_NEAR(point.motion_ratio, ratio_of(wheel), 1e-11);
    EXPECT_NEAR(point.motion_ratio_slope, 0.3, 1e-7);  // second derivative over a spacing of 0.05 / 32
  }
}

TEST(Linkage, KeepsGoingStraightBeyondItsTable) {
  const Linkage linkage = linkage_through(travel_table());
  const LinkagePoint end = linkage_at(linkage, 0.3), beyond = linkage_at(linkage, 0.31);
  EXPECT_NEAR(beyond.shock_travel, end.shock_travel + 0.01 * end.motion_ratio, 1e-14);
}

TEST(LinkageProblems, ASoundTableHasNone) {
  EXPECT_THAT(problems_in(travel_table()), testing::IsEmpty());
  EXPECT_THAT(problems_in(leverage_table()), testing::IsEmpty());
}

TEST(LinkageProblems, NameTheRow) {
  auto table = travel_table();
  table[3].wheel_travel = table[2].wheel_travel;
  EXPECT_THAT(fields_of(problems_in(table)), testing::ElementsAre("table[3].wheel_travel"));

  table = travel_table();
  table[3].shock_travel = table[2].shock_travel - 0.001;
  EXPECT_THAT(fields_of(problems_in(table)), testing::ElementsAre("table[3].shock_travel"));

  table = travel_table();
  table[0].shock_travel = 0.002;
  EXPECT_THAT(fields_of(problems_in(table)), testing::ElementsAre("table[0].shock_travel"));

  table = travel_table();
  table.resize(1);
  EXPECT_THAT(fields_of(problems_in(table)), testing::ElementsAre("table"));

  table = travel_table();
  for (LinkageRow& row : table) row.wheel_travel *= 1000.0;  // millimetres taken for metres
  EXPECT_THAT(fields_of(problems_in(table)), testing::ElementsAre("table[6].wheel_travel"));

  auto leverages = leverage_table();
  leverages[2].leverage = 0.0;
  leverages[4].leverage = -3.0;
  EXPECT_THAT(fields_of(problems_in(leverages)),
              testing::ElementsAre("table[2].leverage", "table[4].leverage"));
}

TEST(LinkageProblems, FindTheRowThatIsOutOfLineThoughItStillRises) {
  auto table = travel_table();
  table[3].shock_travel =
      table[4].shock_travel - 1e-5;  // a slip in one digit: no travel left to the next row
  const Problems problems = problems_in(table);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_THAT(problems[0].field, testing::AnyOf("table[3].shock_travel", "table[4].shock_travel"));
}

RC_GTEST_PROP(LinkageProperty, GoesThroughItsRowsAndInverts, ()) {
  // any gently curved linkage: ratio from 0.25 to 0.5 in the middle, up to 30 % up or down over the travel
  const double middle = 0.25 + *rc::gen::inRange(0, 100) * 0.0025;
  const double tilt = (*rc::gen::inRange(-100, 101)) * 0.003;
  std::vector<LinkageRow> table;
  for (const double wheel : num::evenly_spaced(0.0, 0.3, *rc::gen::inRange(2, 12))) {
    table.push_back({wheel, middle * (wheel + tilt * wheel * (wheel - 0.3) / 0.3)});
  }
  RC_ASSERT(problems_in(table).empty());
  const Linkage linkage = linkage_through(table);
  for (const LinkageRow& row : table) {
    RC_ASSERT(std::abs(linkage_at(linkage, row.wheel_travel).shock_travel - row.shock_travel) < 1e-14);
    RC_ASSERT(std::abs(wheel_travel_at(linkage, row.shock_travel) - row.wheel_travel) < 1e-12);
  }
}

}  // namespace
}  // namespace shimwright::ride
