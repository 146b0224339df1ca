#include "document/document_schema.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "document/document_describe_list.h"
#include "document/document_filler.h"
#include "document/document_json.h"

namespace shimwright::document {
namespace {

using Parsed = nlohmann::json;

/// The paths of all values in a JSON document, without the numbers of list items.
void collect(const Parsed& json, const std::string& path, std::set<std::string>& keys) {
  if (json.is_object())
    for (const auto& [key, inner] : json.items()) collect(inner, path + "." + key, keys);
  else if (json.is_array())
    for (const Parsed& inner : json) collect(inner, path + "[]", keys);
  else
    keys.insert(path);
}

/// The same paths, found by walking the JSON Schema.
void collect(const Parsed& schemas, const Parsed& schema, const std::string& path,
             std::set<std::string>& keys) {
  if (schema.contains("$ref")) {
    const std::string name = schema["$ref"].get<std::string>().substr(2);
    for (const auto& [key, inner] : schemas.at(name).at("properties").items())
      collect(schemas, inner, path + "." + key, keys);
  } else if (schema["type"] == "array") {
    collect(schemas, schema["items"], path + "[]", keys);
  } else {
    keys.insert(path);
  }
}

void check_described(const std::string& document, const std::string& name) {
  const Parsed schemas = Parsed::parse(result_schemas("#/"));
  std::set<std::string> written, described;
  collect(Parsed::parse(document), "", written);
  collect(schemas, {{"$ref", "#/" + name}}, "", described);
  EXPECT_EQ(written, described);
}

TEST(DocumentSchema, HoldsExactlyTheKeysThatTheWriterWrites) {
  check_described(to_json(filled<ResultDocument>()), "ResultDocument");
  check_described(to_json(filled<BenchDocument>()), "BenchDocument");
}

TEST(DocumentSchema, AsksForWhatIsAlwaysThereAndNotForWhatMayBeAbsent) {
  const Parsed schemas = Parsed::parse(result_schemas("#/"));
  const Parsed& required = schemas["UnitResult"]["required"];
  EXPECT_THAT(required.get<std::vector<std::string>>(), testing::Contains("travel"));
  EXPECT_THAT(required.get<std::vector<std::string>>(), testing::Not(testing::Contains("force")));
  EXPECT_EQ(schemas["Finding"]["properties"]["severity"]["enum"], Parsed({"fine", "look", "stop"}));
}

}  // namespace
}  // namespace shimwright::document
