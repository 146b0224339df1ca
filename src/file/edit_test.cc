#include "file/edit.h"

#include <gtest/gtest.h>

namespace shimwright::file {
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

std::string with(std::string from, const std::string& to) {
  std::string text = kJob;
  text.replace(text.find(from), from.size(), to);
  return text;
}

TEST(Edit, ATitleMayLookLikeANumberAndAMistypedCountIsAFaultOfItsValue) {
  expect_change("title", "300", "\"Fork\"", "\"300\"");
  expect_fault("unit[0].count", "2x", "E0202", 7);
}

TEST(Edit, AShimGoesInBeforeAnother) {
  const auto edited = insert_item(kJob, "unit[0].piston_valve.rebound.stack[1]", "16 x 0.10 mm");
  ASSERT_TRUE(edited.has_value()) << render(edited.error().at(0), kJob);
  const auto values = typed_values(*edited);
  std::vector<std::string> stack;
  for (const TypedValue& value : values)
    if (value.path.find("stack[") != std::string::npos) stack.push_back(value.typed);
  EXPECT_EQ(stack, (std::vector<std::string>{"4 x 19 x 0.15 mm", "16 x 0.10 mm", "1 x 14 x 0.20 mm"}));
}

TEST(Edit, AShimThatIsNoneDoesNotGoIn) {
  const auto edited = insert_item(kJob, "unit[0].piston_valve.rebound.stack[2]", "3 x 24");
  ASSERT_FALSE(edited.has_value());
  EXPECT_EQ(edited.error().at(0).path, "unit[0].piston_valve.rebound.stack[2]");
  EXPECT_FALSE(edited.error()[0].remedy.empty());
}

TEST(Edit, AListBeginsWithItsFirstElement) {
  const auto edited = insert_item(kJob, "unit[0].piston_valve.compression.stack[0]", "3 x 20 x 0.15 mm");
  ASSERT_TRUE(edited.has_value()) << render(edited.error().at(0), kJob);
  EXPECT_NE(edited->find("[\"3 x 20 x 0.15 mm\"]"), std::string::npos);
  const auto bleed =
      insert_item(kJob, "unit[0].piston_valve.bleed[0]", "kind = \"bored\"\ndiameter = \"1 mm\"");
  ASSERT_TRUE(bleed.has_value()) << render(bleed.error().at(0), kJob);
  EXPECT_NE(bleed->find("[[unit.piston_valve.bleed]]"), std::string::npos);
}

TEST(Edit, WhatIsTakenOutIsGoneAndNothingElse) {
  const auto edited = remove_item(kJob, "unit[0].travel");
  ASSERT_TRUE(edited.has_value());
  EXPECT_EQ(*edited, with("travel = \"300 mm\"     # as measured\n", ""));
  const auto shim = remove_item(kJob, "unit[0].piston_valve.rebound.stack[1]");
  ASSERT_TRUE(shim.has_value());
  EXPECT_EQ(shim->find("14 x 0.20"), std::string::npos);
  EXPECT_FALSE(remove_item(kJob, "unit[0].rod").has_value()) << "it is not there";
}

TEST(Edit, AShimMovesAndEveryLineKeepsItsRemark) {
  const auto edited = move_item(kJob, "unit[0].piston_valve.rebound.stack[0]", 1);
  ASSERT_TRUE(edited.has_value());
  EXPECT_NE(edited->find("\"1 x 14 x 0.20 mm\",   # face\n  \"4 x 19 x 0.15 mm\","), std::string::npos)
      << *edited;
  EXPECT_EQ(*move_item(*edited, "unit[0].piston_valve.rebound.stack[1]", 0), kJob);
  EXPECT_FALSE(move_item(kJob, "unit[0].piston_valve.rebound.stack[0]", 2).has_value());
  EXPECT_FALSE(move_item(kJob, "unit[0]", 0).has_value()) << "a table under its heading";
}

TEST(Edit, EveryValueIsListedAsItWasTyped) {
  const auto values =
      typed_values("a = 1_000  # yes\nb = { c = 'x \\ y' }\n[[unit]]\nd = [\"1 mm\", 0.30]\n");
  std::vector<std::string> lines;
  for (const TypedValue& value : values) lines.push_back(value.path + " " + value.typed);
  EXPECT_EQ(lines,
            (std::vector<std::string>{"a 1_000", "b.c x \\ y", "unit[0].d[0] 1 mm", "unit[0].d[1] 0.30"}));
}

}  // namespace
}  // namespace shimwright::file
