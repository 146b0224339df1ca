#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/sample_document_test.h"
#include "report/sheets.h"

namespace shimwright::report {
namespace {

using units::System;

/// The rows of the tables under one heading of their columns.
std::vector<std::vector<std::string>> rows_under(const Article& article, const std::string& head) {
  for (const Element& element : article.elements)
    if (const auto* rows = std::get_if<Rows>(&element); rows != nullptr && rows->heads.front() == head)
      return rows->rows;
  return {};
}

document::ResultDocument with_clicks(std::vector<document::ClickEffect> effects) {
  document::ResultDocument d = sample::document();
  d.units.resize(1);
  if (!d.units[0].settings) d.units[0].settings.emplace();
  d.units[0].settings->per_click = std::move(effects);
  return d;
}

// common practice, no source: a needle turned in closes its bore, and the force rises; out is the other way
TEST(SettingsGuide, AClickInIsToldAsInAndWithTheForceThatRises) {
  const document::ForceChange firmer{shimwright::Stroke::Rebound, 0.2, 100.0, 112.0};
  const document::ForceChange softer{shimwright::Stroke::Rebound, 0.2, 100.0, 91.0};
  const auto rows = rows_under(
      settings_guide(with_clicks({{"needle", -1, {firmer}}, {"needle", 1, {softer}}}), System::Metric, 500.0),
      "One click");
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(rows[0][0], "needle, in");
  EXPECT_THAT(rows[0][1], testing::AllOf(testing::HasSubstr("100"), testing::HasSubstr("112")));
  EXPECT_EQ(rows[1][0], "needle, out");
  EXPECT_LT(rows[0][1].find("100"), rows[0][1].find("112"));
  EXPECT_LT(rows[1][1].find("100"), rows[1][1].find("91"));
}

}  // namespace
}  // namespace shimwright::report
