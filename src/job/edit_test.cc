#include "job/edit.h"

#include <gtest/gtest.h>

namespace shimwright::job {
namespace {

constexpr const char* kJob = R"(# a job of mine
title = "Fork"   # keep me

[[unit]]
travel = "300 mm"     # as measured
kind   = "fork leg"

[unit.piston_valve.rebound]
clamp = "10 mm"
stack = [
  "4 x 19 x 0.15 mm",   # face
  "1 x 14 x 0.20 mm",
]
)";

void expect_change(std::string_view path, std::string_view value, std::string from, std::string to) {
  const auto edited = set_key(kJob, path, value);
  ASSERT_TRUE(edited.has_value()) << render(edited.error().at(0), kJob);
  std::string expected = kJob;
  expected.replace(expected.find(from), from.size(), to);
  EXPECT_EQ(*edited, expected);
}

void expect_fault(std::string_view path, std::string_view value, std::string code, int line) {
  const auto edited = set_key(kJob, path, value);
  ASSERT_FALSE(edited.has_value());
  ASSERT_EQ(edited.error().size(), 1u);
  EXPECT_EQ(edited.error()[0].code, code);
  EXPECT_EQ(edited.error()[0].line, line);
  EXPECT_FALSE(edited.error()[0].remedy.empty());
}

TEST(Edit, AValueChangesAndEverythingElseStays) {
  expect_change("unit[0].travel", "\"310 mm\"", "300 mm", "310 mm");
}

TEST(Edit, AQuantityMayComeWithoutItsQuotes) {
  expect_change("unit[0].travel", "12.2 in", "300 mm", "12.2 in");
}

TEST(Edit, OneShimOfAStackChanges) {
  expect_change("unit[0].piston_valve.rebound.stack[1]", "1 x 15 x 0.20 mm", "1 x 14 x 0.20 mm",
                "1 x 15 x 0.20 mm");
}

TEST(Edit, AMissingKeyIsAdded) {
  const auto edited = set_key(kJob, "unit[0].rod", "12 mm");
  ASSERT_TRUE(edited.has_value());
  EXPECT_NE(edited->find("rod"), std::string::npos);
  EXPECT_NE(edited->find("\"12 mm\""), std::string::npos);
}

TEST(Edit, AValueOfTheWrongKindIsRefusedAtItsPlace) {
  expect_fault("unit[0].travel", "300 N", "E0307", 5);
}

TEST(Edit, ABareNumberIsRefused) {
  expect_fault("unit[0].travel", "300", "E0303", 5);
}

TEST(Edit, APartThatDoesNotBelongIsRefused) {
  expect_fault("unit[0].piston_valve.rebound.clamp", "20 mm", "E0502", 9);
}

TEST(Edit, AKeyThatNoJobHasIsRefusedWithTheNearest) {
  const auto edited = set_key(kJob, "unit[0].travle", "300 mm");
  ASSERT_FALSE(edited.has_value());
  EXPECT_EQ(edited.error().at(0).code, "E0201");
  EXPECT_NE(edited.error()[0].remedy.find("travel"), std::string::npos);
}

TEST(Edit, ABrokenFileIsNotEdited) {
  const auto edited = set_key("title = \"open\nrevision = \"A\"\n", "revision", "B");
  ASSERT_FALSE(edited.has_value());
  EXPECT_EQ(edited.error().at(0).code, "E0102");
}

TEST(Edit, FaultsElsewhereDoNotStopAChange) {
  const auto edited = set_key("titel = \"x\"\nrevision = \"A\"\n", "revision", "B");
  ASSERT_TRUE(edited.has_value());
  EXPECT_EQ(*edited, "titel = \"x\"\nrevision = \"B\"\n");
}

}  // namespace
}  // namespace shimwright::job
