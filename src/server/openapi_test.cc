#include "server/openapi.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "document/document_check.h"
#include "server/api_paths.h"

namespace shimwright::server {
namespace {

using OrderedJson = nlohmann::ordered_json;

void collect_references(const OrderedJson& json, std::set<std::string>& references) {
  if (json.is_object() && json.contains("$ref")) references.insert(json["$ref"].get<std::string>());
  if (json.is_structured())
    for (const OrderedJson& inner : json) collect_references(inner, references);
}

TEST(OpenApi, EveryReferenceLeadsSomewhere) {
  const OrderedJson api = OrderedJson::parse(openapi_text());
  std::set<std::string> references;
  collect_references(api, references);
  EXPECT_GT(references.size(), 40u);
  for (const std::string& reference : references)
    EXPECT_TRUE(api.contains(OrderedJson::json_pointer(reference.substr(1)))) << reference;
}

TEST(OpenApi, TheCopyThatThePageIsBuiltFromIsTheServedOne) {
  const std::string path = SW_SOURCE_DIR "/web/src/api/openapi.json";
  if (std::getenv("SHIMWRIGHT_WRITE_DOCS")) std::ofstream(path, std::ios::binary) << openapi_text();
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  EXPECT_EQ(text.str(), openapi_text())
      << "write it again: SHIMWRIGHT_WRITE_DOCS=1 server_tests --gtest_filter='OpenApi*'";
}

TEST(OpenApi, EveryMemberOfEveryRequestAndAnswerHasAKeyAMeaningAndAUnit) {
  std::vector<const document::StructInfo*> roots;
  for (const ApiPath& path : api_paths()) {
    if (path.request) roots.push_back(path.request);
    for (const AnswerForm& answer : path.answers)
      if (answer.body) roots.push_back(answer.body);
  }
  EXPECT_GT(roots.size(), 20u);
  EXPECT_THAT(document::description_faults(roots), testing::IsEmpty());
}

}  // namespace
}  // namespace shimwright::server
