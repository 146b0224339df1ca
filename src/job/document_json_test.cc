#include "job/document_json.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <fstream>
#include <limits>
#include <optional>
#include <sstream>
#include <type_traits>

#include "job/document_fields_whole.h"
#include "job/document_members.h"

namespace shimwright::job {
namespace {

// fills every member of a document with something that differs from its default

using internal::kIsOptional;
using internal::kIsVector;

struct Filler {
  int n = 0;

  template <typename T>
  void fill(T& value) {
    ++n;
    if constexpr (std::is_enum_v<T>) {
      value = static_cast<T>(n % 2);
    } else if constexpr (std::is_same_v<T, bool>) {
      value = n % 2 == 0;
    } else if constexpr (std::is_same_v<T, double>) {
      value = std::sqrt(n) * std::pow(10.0, n % 31 - 15) * (n % 3 == 0 ? -1 : 1);
    } else if constexpr (std::is_integral_v<T>) {
      value = n;
    } else if constexpr (std::is_same_v<T, std::string>) {
      value = "text \"" + std::to_string(n) + "\" with a µ and a\nnew line";
    } else if constexpr (kIsVector<T>) {
      for (int i = 0; i < 2; ++i) {
        typename T::value_type item{};
        fill(item);
        value.push_back(item);
      }
    } else if constexpr (kIsOptional<T>) {
      fill(value.emplace());
    } else {
      std::apply([&](const auto&... field) { (fill(value.*(field.member)), ...); },
                 internal::Fields<T>::list);
    }
  }
};

ResultDocument full_document() {
  ResultDocument document;
  Filler{}.fill(document);
  return document;
}

TEST(DocumentJson, EveryMemberOfAFullDocumentSurvivesTheRoundTrip) {
  const std::string text = to_json(full_document());
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

TEST(DocumentJson, ANumberThatIsNoneIsFoundByItsPathAndWrittenAsNull) {
  ResultDocument document;
  document.units.resize(2);
  document.units[1].force.emplace().key_forces.resize(1);
  document.units[1].force->key_forces[0].rebound = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THAT(numbers_that_are_none(document), testing::ElementsAre("units[1].force.key_forces[0].rebound"));
  EXPECT_THAT(to_json(document), testing::HasSubstr("\"rebound\": null"));
  EXPECT_TRUE(numbers_that_are_none(full_document()).empty());
}

TEST(DocumentJson, AFaultIsToldWithItsKeyPath) {
  std::string text = to_json(full_document());
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

TEST(DocumentJson, EveryKeyOfTheSchemaIsDocumented) {
  std::ifstream file(SW_SOURCE_DIR "/docs/result-document.md");
  std::stringstream page;
  page << file.rdbuf();
  const std::string text = page.str();
  for (const std::string& line : schema_keys()) {
    std::string key = line.substr(0, line.find(' '));
    while (key.ends_with("[]")) key.resize(key.size() - 2);
    key = key.substr(key.rfind('.') + 1);
    EXPECT_THAT(text, testing::HasSubstr("| `" + key + "` |")) << line;
  }
}

TEST(DocumentJson, AComparisonIsWrittenUnderItsOwnSchema) {
  Comparison comparison;
  Filler{}.fill(comparison);
  EXPECT_THAT(to_json(comparison), testing::HasSubstr("\"schema\": \"shimwright.comparison/1\""));
}

}  // namespace
}  // namespace shimwright::job
