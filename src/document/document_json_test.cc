#include "document/document_json.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "document/document_describe_list.h"
#include "document/document_filler.h"

namespace shimwright::document {
namespace {

TEST(DocumentJson, EveryMemberOfAFullDocumentSurvivesTheRoundTrip) {
  const std::string text = to_json(filled<ResultDocument>());
  const auto back = from_json(text);
  ASSERT_TRUE(back.has_value()) << back.error().path << ": " << back.error().what;
  EXPECT_EQ(to_json(*back), text);
}

TEST(DocumentJson, AnEmptyDocumentSurvivesTheRoundTripAndShowsNoAbsentKey) {
  const std::string text = to_json(ResultDocument{});
  const auto back = from_json(text);
  ASSERT_TRUE(back.has_value());
  EXPECT_EQ(to_json(*back), text);
  EXPECT_THAT(text, testing::Not(testing::HasSubstr("\"rider\"")));
  EXPECT_THAT(text, testing::HasSubstr("\"schema\": \"shimwright.result/1\""));
}

RC_GTEST_PROP(DocumentJsonProperty, ANumberReadsBackToTheSameBits, (double number)) {
  RC_PRE(std::isfinite(number));
  ResultDocument document;
  document.conditions.ambient_pressure = number;
  const auto back = from_json(to_json(document));
  RC_ASSERT(back.has_value());
  RC_ASSERT(back->conditions.ambient_pressure == number);
}

TEST(DocumentJson, ANumberThatIsNotFiniteIsFoundByItsPathAndWrittenAsNull) {
  ResultDocument document;
  document.units.resize(2);
  document.units[1].force.emplace().key_forces.resize(1);
  document.units[1].force->key_forces[0].rebound = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THAT(non_finite_paths(document), testing::ElementsAre("units[1].force.key_forces[0].rebound"));
  EXPECT_THAT(to_json(document), testing::HasSubstr("\"rebound\": null"));
  EXPECT_TRUE(non_finite_paths(filled<ResultDocument>()).empty());
}

TEST(DocumentJson, AFaultIsToldWithItsKeyPath) {
  std::string text = to_json(filled<ResultDocument>());
  const auto at = text.find("\"static_rod_force\": ");
  text.insert(at + 20, "\"twelve\", \"moved\": ");
  const auto back = from_json(text);
  ASSERT_FALSE(back.has_value());
  EXPECT_EQ(back.error().path, "units[0].force.static_rod_force");
}

TEST(DocumentJson, ForeignTextIsRefused) {
  for (const char* text : {"", "{", "[]", "{}", "{\"schema\": \"shimwright.result/2\"}", "{\"schema\": 7}"}) {
    EXPECT_FALSE(from_json(text).has_value()) << text;
  }
}

TEST(DocumentJson, AComparisonIsWrittenUnderItsOwnSchema) {
  EXPECT_THAT(to_json(filled<Comparison>()), testing::HasSubstr("\"schema\": \"shimwright.comparison/1\""));
}

}  // namespace
}  // namespace shimwright::document
