#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "units/format.h"
#include "units/trade.h"
#include "units/unit_table.h"

// The page prints numbers by the table of trade.cc and not by one of its own; both are held to the same
// cases.

namespace shimwright::units {
namespace {

using Json = nlohmann::json;

const std::string kPagePath = SW_SOURCE_DIR "/web/src/units/table.ts";

std::string unit_text(const TradeUnit& unit) {
  std::string text = fmt::format("{{ name: \"{}\", numerator: {}, denominator: {}", unit.print,
                                 unit.numerator, unit.denominator);
  if (unit.shift != 0.0) text += fmt::format(", shift: {}", unit.shift);
  return text + " }";
}

/// One entry of the table: a kind with its units and digits.
std::string entry_text(Kind kind) {
  const TradeRule& rule = trade_rule(kind);
  std::string text = fmt::format("  \"{}\": {{\n", kKindWords[static_cast<std::size_t>(kind)]);
  const auto add = [&](const char* key, const TradeUnit& unit) {
    text += fmt::format("    {}: {},\n", key, unit_text(unit));
  };
  add("metric", rule.usual[0]);
  add("imperial", rule.usual[1]);
  if (!rule.large[0].plain.empty()) add("metricLarge", rule.large[0]);
  if (!rule.large[1].plain.empty()) add("imperialLarge", rule.large[1]);
  if (rule.large_from > 0.0) text += fmt::format("    largeFrom: {},\n", rule.large_from);
  if (rule.decimals >= 0) text += fmt::format("    decimals: {},\n", rule.decimals);
  return text + "  },\n";
}

std::string page_table() {
  std::string text =
      "// Written from src/units/trade.cc; to write it again:\n"
      "//   SHIMWRIGHT_WRITE_DOCS=1 units_tests --gtest_filter='PageTable*'\n\n"
      "/** What each kind of quantity is shown in, and how finely. */\n"
      "export const table = {\n";
  for (const KindFacts& one : all_kinds()) text += entry_text(one.kind);
  text += "};\n\n/** Behind the unit of a pressure. */\nexport const references = {\n";
  for (std::size_t i = 0; i < kReferenceWords.size(); ++i)
    text += fmt::format("  {}: \"{}\",\n", kReferenceWords[i], reference_word(static_cast<Reference>(i)));
  text +=
      "};\n\n/** The units that a length may be typed in, by their factors to a metre. */\nexport const "
      "lengths = {\n";
  for (const Unit& unit : all_units()) {
    if (unit.dimension != facts(Kind::Length).dimension) continue;
    text += fmt::format("  \"{}\": {{ numerator: {}, denominator: {} }},\n", unit.name, unit.numerator,
                        unit.denominator);
  }
  return text + "};\n";
}

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

TEST(PageTable, OfThePageIsTheOneOfTheProgram) {
  if (std::getenv("SHIMWRIGHT_WRITE_DOCS")) std::ofstream(kPagePath, std::ios::binary) << page_table();
  EXPECT_EQ(text_of(kPagePath), page_table())
      << "write it again: SHIMWRIGHT_WRITE_DOCS=1 units_tests --gtest_filter='PageTable*'";
}

Kind kind_of(const Json& one) {
  const auto found = std::ranges::find(kKindWords, one.at("kind").get<std::string>());
  return static_cast<Kind>(found - kKindWords.begin());
}

FormatOptions options_of(const Json& one) {
  FormatOptions options;
  const auto word = std::ranges::find(kReferenceWords, one.value("reference", "none"));
  options.reference = static_cast<Reference>(word - kReferenceWords.begin());
  options.sign = one.value("sign", false);
  options.decimals = one.value("decimals", -1);
  return options;
}

/// The cases have plain blanks, which a reader can see.
std::string with_blanks(std::string text) {
  const std::string thin = "\u2009";
  for (auto at = text.find(thin); at != std::string::npos; at = text.find(thin))
    text.replace(at, thin.size(), " ");
  return text;
}

TEST(PageTable, CasesThatPageAndPrintShareHoldInPrint) {
  const Json cases = Json::parse(text_of(SW_SOURCE_DIR "/src/units/format_cases.json"));
  for (const auto& [system, word] : {std::pair{System::Metric, "metric"}, {System::Imperial, "imperial"}}) {
    for (const Json& one : cases.at("values"))
      EXPECT_EQ(with_blanks(format(one.at("si"), kind_of(one), system, options_of(one))), one.at(word))
          << one;
    for (const Json& one : cases.at("columns"))
      EXPECT_EQ(number_text(one.at("si"), kind_of(one), system, options_of(one)), one.at(word)) << one;
    for (const Json& one : cases.at("thicknesses"))
      EXPECT_EQ(with_blanks(format_thickness(one.at("si"), system)), one.at(word)) << one;
    for (const Json& one : cases.at("unit_names"))
      EXPECT_EQ(unit_name(kind_of(one), system, options_of(one).reference), one.at(word)) << one;
  }
}

}  // namespace
}  // namespace shimwright::units
