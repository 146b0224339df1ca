#include "job/document_schema.h"

#include <nlohmann/json.hpp>
#include <optional>
#include <type_traits>
#include <vector>

#include "job/document_fields_bench.h"
#include "job/document_fields_whole.h"
#include "job/document_json.h"
#include "job/document_members.h"
#include "job/document_words.h"

namespace shimwright::job {
namespace {

using Json = nlohmann::ordered_json;
using internal::Fields;
using internal::kIsOptional;
using internal::kIsVector;
using internal::Words;

/// "StackPoint" for job::StackPoint: both compilers end the text of this function with the type in brackets.
template <typename Struct>
std::string name_of_struct() {
  const std::string_view text = __PRETTY_FUNCTION__;
  const std::size_t equals = text.find("Struct = ");
  std::string_view name = text.substr(equals + 9);
  name = name.substr(0, name.find_first_of(";]"));
  const std::size_t colon = name.rfind(':');
  return std::string(colon == std::string_view::npos ? name : name.substr(colon + 1));
}

struct Writer {
  std::string prefix;
  Json definitions = Json::object();

  template <typename T>
  Json schema_of() {
    if constexpr (std::is_enum_v<T>) {
      Json words = Json::array();
      for (const char* word : Words<T>::list) words.push_back(word);
      return {{"type", "string"}, {"enum", words}};
    } else if constexpr (std::is_same_v<T, bool>) {
      return {{"type", "boolean"}};
    } else if constexpr (std::is_integral_v<T>) {
      return {{"type", "integer"}};
    } else if constexpr (std::is_same_v<T, double>) {
      return {{"type", "number"}};
    } else if constexpr (std::is_same_v<T, std::string>) {
      return {{"type", "string"}};
    } else if constexpr (kIsVector<T>) {
      return {{"type", "array"}, {"items", schema_of<typename T::value_type>()}};
    } else {
      const std::string name = name_of_struct<T>();
      if (!definitions.contains(name)) define<T>(name);
      return {{"$ref", prefix + name}};
    }
  }

  template <typename Struct>
  void define(const std::string& name) {
    definitions[name] = Json::object();  // a place, and a stop for what holds itself
    Json properties = Json::object();
    Json required = Json::array();
    if constexpr (std::is_same_v<Struct, ResultDocument> || std::is_same_v<Struct, BenchDocument>) {
      const char* version = std::is_same_v<Struct, ResultDocument> ? kResultSchema : kBenchSchema;
      properties["schema"] = {{"type", "string"}, {"enum", {version}}};
      required.push_back("schema");
    }
    std::apply([&](const auto&... fields) { (add(fields, properties, required), ...); },
               Fields<Struct>::list);
    definitions[name] = {{"type", "object"}, {"properties", properties}, {"required", required}};
  }

  template <typename Struct, typename Member>
  void add(const internal::Field<Struct, Member>& field, Json& properties, Json& required) {
    if constexpr (kIsOptional<Member>) {
      properties[field.name] = schema_of<typename Member::value_type>();
    } else {
      properties[field.name] = schema_of<Member>();
      required.push_back(field.name);
    }
  }
};

}  // namespace

std::string result_schemas(std::string_view ref_prefix) {
  Writer writer{std::string(ref_prefix)};
  static_cast<void>(writer.schema_of<ResultDocument>());
  static_cast<void>(writer.schema_of<BenchDocument>());
  return writer.definitions.dump();
}

}  // namespace shimwright::job
