#include "job/document_schema.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "job/document_json.h"

namespace shimwright::job {
namespace {

using Json = nlohmann::json;

/// The paths of schema_keys(), found by walking the JSON Schema instead.
void collect(const Json& schemas, const Json& schema, const std::string& path, std::set<std::string>& keys) {
  if (schema.contains("$ref")) {
    const std::string name = schema["$ref"].get<std::string>().substr(2);
    for (const auto& [key, inner] : schemas.at(name).at("properties").items())
      collect(schemas, inner, path.empty() ? key : path + "." + key, keys);
  } else if (schema["type"] == "array") {
    collect(schemas, schema["items"], path + "[]", keys);
  } else {
    keys.insert(path);
  }
}

std::set<std::string> paths_of(const std::vector<std::string>& lines) {
  std::set<std::string> paths;
  for (const std::string& line : lines) paths.insert(line.substr(0, line.find(' ')));
  return paths;
}

TEST(DocumentSchema, HoldsExactlyTheKeysThatTheWriterWrites) {
  const Json schemas = Json::parse(result_schemas("#/"));
  std::set<std::string> keys, bench_keys;
  collect(schemas, {{"$ref", "#/ResultDocument"}}, "", keys);
  EXPECT_EQ(keys, paths_of(schema_keys()));
  collect(schemas, {{"$ref", "#/BenchDocument"}}, "", bench_keys);
  EXPECT_EQ(bench_keys, paths_of(bench_schema_keys()));
}

TEST(DocumentSchema, AsksForWhatIsAlwaysThereAndNotForWhatMayBeAbsent) {
  const Json schemas = Json::parse(result_schemas("#/"));
  const Json& required = schemas["UnitResult"]["required"];
  EXPECT_THAT(required.get<std::vector<std::string>>(), testing::Contains("travel"));
  EXPECT_THAT(required.get<std::vector<std::string>>(), testing::Not(testing::Contains("force")));
  EXPECT_EQ(schemas["Finding"]["properties"]["severity"]["enum"], Json({"fine", "look", "stop"}));
}

}  // namespace
}  // namespace shimwright::job
