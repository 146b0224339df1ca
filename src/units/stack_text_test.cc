#include "units/stack_text.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

namespace shimwright::units {
namespace {

using ::testing::HasSubstr;

/// The page reads shims while they are typed: web/src/ui/stack/shim_text.test.ts reads the same cases.
const nlohmann::json& cases() {
  static const nlohmann::json all = [] {
    std::ifstream file(SW_SOURCE_DIR "/src/units/shim_cases.json");
    return nlohmann::json::parse(file);
  }();
  return all;
}

TEST(StackText, ReadsCountDiameterAndThickness) {
  for (const auto& one : cases().at("read")) {
    const auto run = parse_shims(one.at("text").get<std::string>());
    ASSERT_TRUE(run.has_value()) << one << ": " << run.error().what;
    EXPECT_EQ(run->count, one.at("count")) << one;
    EXPECT_DOUBLE_EQ(run->outer_diameter, one.at("outer_diameter").get<double>()) << one;
    EXPECT_DOUBLE_EQ(run->thickness, one.at("thickness").get<double>()) << one;
  }
  EXPECT_EQ(parse_shims("24 x 0.15 mm")->count_place.length, 0);
}

TEST(StackText, RefusesWhatIsNoShimAndMissesTheUnit) {
  for (const auto& text : cases().at("refused")) {
    const auto run = parse_shims(text.get<std::string>());
    ASSERT_FALSE(run.has_value()) << text;
    EXPECT_NE(run.error().fault, Fault::UnitMissing) << text;
  }
  for (const auto& text : cases().at("unit_missing")) {
    const auto run = parse_shims(text.get<std::string>());
    ASSERT_FALSE(run.has_value()) << text;
    EXPECT_EQ(run.error().fault, Fault::UnitMissing) << text;
  }
}

TEST(StackText, KeepsTheTextAndThePlaceOfEachNumber) {
  const auto run = parse_shims(" 3 × 24 × 0.15 mm");
  ASSERT_TRUE(run.has_value());
  EXPECT_EQ(run->text, "3 × 24 × 0.15 mm");
  EXPECT_EQ(run->count_place.offset, 1);
  EXPECT_EQ(run->outer_diameter_place.offset, 5);
  EXPECT_EQ(run->outer_diameter_place.length, 2);
  EXPECT_EQ(run->thickness_place.offset, 10);
  EXPECT_EQ(run->thickness_place.length, 7);
}

struct RefusedStack {
  const char* text;
  Fault fault;
  int offset;
  int length;
  const char* remedy;
};

TEST(StackText, SaysWhatIsWrongAndWhere) {
  const std::vector<RefusedStack> all{
      {"3 x 24 x 0.15", Fault::UnitMissing, 9, 4, "write \"3 x 24 x 0.15 mm\""},
      {"", Fault::Empty, 0, 1, "3 x 24 x 0.15 mm"},
      {"24 mm", Fault::StackShape, 0, 5, "3 x 24 x 0.15 mm"},
      {"3 x 24 x 8 x 0.15 mm", Fault::StackShape, 0, 20, "3 x 24 x 0.15 mm"},
      {"3 x x 0.15 mm", Fault::StackShape, 4, 1, "3 x 24 x 0.15 mm"},
      {"3 x 24 mm x 0.15", Fault::UnitMissing, 12, 4, "write"},
      {"3 mm x 24 x 0.15 mm", Fault::StackShape, 0, 4, "3 x 24 x 0.15 mm"},
      {"2.5 x 24 x 0.15 mm", Fault::OutOfRange, 0, 3, "3 x 24 x 0.15 mm"},
      {"0 x 24 x 0.15 mm", Fault::OutOfRange, 0, 1, "3 x 24 x 0.15 mm"},
      {"3 x 24 x 0 mm", Fault::OutOfRange, 9, 4, "3 x 24 x 0.15 mm"},
      {"3 x -24 x 0.15 mm", Fault::OutOfRange, 4, 3, "3 x 24 x 0.15 mm"},
      {"3 x 0.15 x 24 mm", Fault::StackShape, 0, 16, "keep the order"},
      {"3 x 24 x 0,15 mm", Fault::DecimalComma, 9, 4, "0.15"},
      {"3 x 24 x 0.15 N", Fault::WrongKind, 14, 1, "a length"},
      {"3 x 24 x 0.15 mn", Fault::UnitUnknown, 14, 2, "\"m"},
      {"3 x 24 x 0,15 mmm", Fault::DecimalComma, 9, 4, "; and there is no unit \"mmm\": write"},
      {"3 x 24,5 x 0,15 N", Fault::DecimalComma, 4, 4, "a length"},
      {"three x 24 x 0.15 mm", Fault::NotANumber, 0, 5, "begin with the number"},
      {"3 × 24 µµ × 0.15 mm", Fault::UnitUnknown, 7, 2, ""},
  };
  for (const RefusedStack& one : all) {
    SCOPED_TRACE(one.text);
    const auto run = parse_shims(one.text);
    ASSERT_FALSE(run.has_value());
    EXPECT_EQ(static_cast<int>(run.error().fault), static_cast<int>(one.fault)) << run.error().what;
    EXPECT_EQ(run.error().offset, one.offset);
    EXPECT_EQ(run.error().length, one.length);
    EXPECT_THAT(run.error().remedy, HasSubstr(one.remedy));
  }
}

TEST(StackText, PrintsAsTheTradeWrites) {
  EXPECT_EQ(shim_text(3, 0.024, 0.00015, System::Metric), "3 × 24 × 0.15\u2009mm");
  EXPECT_EQ(shim_text_plain(1, 0.0245, 0.000125, System::Metric), "24.5 x 0.125 mm");
  EXPECT_EQ(shim_text_plain(2, 0.024, 0.00015, System::Imperial), "2 x 0.945 x 0.0059 in");
}

RC_GTEST_PROP(StackText, WhatIsPrintedReadsBack, ()) {
  const int count = *rc::gen::inRange(1, 30);
  const double diameter = *rc::gen::inRange(800, 6000) * 1e-5;  // 8 to 60 mm in steps of 0.01
  const double thickness = *rc::gen::inRange(50, 500) * 1e-6;   // 0.05 to 0.5 mm in steps of 0.001
  for (const bool plain : {false, true}) {
    const std::string text = plain ? shim_text_plain(count, diameter, thickness, System::Metric)
                                   : shim_text(count, diameter, thickness, System::Metric);
    const auto run = parse_shims(text);
    RC_ASSERT(run.has_value());
    RC_ASSERT(run->count == count);
    RC_ASSERT(std::abs(run->outer_diameter - diameter) < 1e-12);  // nothing of a step is lost
    RC_ASSERT(std::abs(run->thickness - thickness) < 1e-12);
  }
}

}  // namespace
}  // namespace shimwright::units
