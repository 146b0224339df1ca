#include "server/openapi.h"

#include <nlohmann/json.hpp>
#include <vector>

#include "document/document_schema.h"
#include "server/api_paths.h"
#include "server/describe_list.h"

namespace shimwright::server {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* kSchemas = "#/components/schemas/";

constexpr const char* kAbout =
    "What the page beside the vice asks of the program. All numbers are SI; `typed` is the text as the user "
    "wrote "
    "it. Every request needs the Host the program listens on. Writes (POST) need the own Origin, the content "
    "type "
    "application/json and the header X-Shimwright-Token, which GET /api/session gives and which is new at "
    "each "
    "start.";

Json reference_to(const document::StructInfo& structure) {
  return {{"$ref", kSchemas + std::string(structure.name)}};
}

Json written(const Parameter& parameter) {
  Json schema = {{"type", parameter.type}};
  if (!parameter.words.empty()) schema["enum"] = parameter.words;
  if (!parameter.pattern.empty()) schema["pattern"] = parameter.pattern;
  Json json = {{"name", parameter.name}, {"in", parameter.in}};
  if (parameter.required) json["required"] = true;
  if (!parameter.doc.empty()) json["description"] = parameter.doc;
  json["schema"] = std::move(schema);
  return json;
}

Json written(const AnswerForm& answer) {
  Json content = Json::object();
  for (const std::string_view media : answer.media) {
    Json& form = content[std::string(media)] = Json::object();
    if (answer.body && answer.is_list)
      form["schema"] = {{"type", "array"}, {"items", reference_to(*answer.body)}};
    else if (answer.body)
      form["schema"] = reference_to(*answer.body);
    else if (media == "application/json")
      form["schema"] = {{"type", "object"}};
  }
  return {{"description", answer.doc}, {"content", std::move(content)}};
}

Json written(const ApiPath& path) {
  Json json = {{"summary", path.summary}};
  for (const Parameter* parameter : path.parameters) {
    json["parameters"].push_back(
        parameter->shared.empty()
            ? written(*parameter)
            : Json{{"$ref", "#/components/parameters/" + std::string(parameter->shared)}});
  }
  if (path.request)
    json["requestBody"] = {{"required", true},
                           {"content", {{"application/json", {{"schema", reference_to(*path.request)}}}}}};
  Json& responses = json["responses"] = Json::object();
  for (const AnswerForm& answer : path.answers) responses[std::string(answer.status)] = written(answer);
  if (path.may_fail) responses["default"] = {{"$ref", "#/components/responses/Error"}};
  return json;
}

/// Every struct that a request takes or an answer holds.
std::vector<const document::StructInfo*> bodies() {
  std::vector<const document::StructInfo*> structs = {&document::describe<ErrorAnswer>(),
                                                      &document::describe<document::ResultDocument>(),
                                                      &document::describe<document::BenchDocument>()};
  for (const ApiPath& path : api_paths()) {
    if (path.request) structs.push_back(path.request);
    for (const AnswerForm& answer : path.answers)
      if (answer.body) structs.push_back(answer.body);
  }
  return structs;
}

}  // namespace

std::string openapi_text() {
  Json api = {{"openapi", "3.1.0"},
              {"info", {{"title", "Shimwright workbench"}, {"version", "1"}, {"description", kAbout}}}};
  for (const ApiPath& path : api_paths())
    api["paths"][std::string(path.path)][std::string(path.method)] = written(path);
  Json& components = api["components"];
  components["securitySchemes"]["token"] = {
      {"type", "apiKey"}, {"in", "header"}, {"name", "X-Shimwright-Token"}};
  for (const Parameter* parameter : shared_parameters())
    components["parameters"][std::string(parameter->shared)] = written(*parameter);
  components["responses"]["Error"] = written(
      AnswerForm{.status = "", .doc = "Why not, and what to do", .body = &document::describe<ErrorAnswer>()});
  components["schemas"] = Json::parse(document::schemas_of(bodies(), kSchemas));
  return api.dump(1) + "\n";
}

}  // namespace shimwright::server
