#include "document/document_schema.h"

#include <algorithm>
#include <array>
#include <vector>

#include "document/document_describe_list.h"
#include "document/document_walk.h"
#include "document/document_writer.h"

namespace shimwright::document {
namespace {

/// "Full travel." with its unit: "Full travel [m]."
std::string described(const FieldInfo& field) {
  std::string text(field.doc);
  if (const std::string unit = unit_text(field.unit); !unit.empty()) {
    text.pop_back();
    text += " [" + unit + "].";
  }
  return text;
}

struct SchemaWriter {
  std::string_view ref_prefix;
  internal::BriefWriter json{};

  void member(std::string_view key, std::string_view text) {
    json.key(key);
    json.text(text);
  }

  template <typename Texts>
  void list(std::string_view key, const Texts& texts) {
    json.key(key);
    json.out += '[';
    for (const auto& text : texts) {
      if (json.out.back() != '[') json.out += ',';
      json.text(text);
    }
    json.out += ']';
  }

  /// The members of a schema, without the braces around them.
  void type(const TypeInfo& type) {
    switch (type.shape) {
      case Shape::Number:
        return member("type", "number");
      case Shape::Integer:
        return member("type", "integer");
      case Shape::Bool:
        return member("type", "boolean");
      case Shape::Text:
        return member("type", "string");
      case Shape::Word:
        member("type", "string");
        return list("enum", type.words);
      case Shape::List:
        member("type", "array");
        json.key("items");
        json.out += '{';
        this->type(*type.item);
        json.out += '}';
        return;
      case Shape::TextsByName:
        member("type", "object");
        json.key("additionalProperties");
        json.out += R"({"type":"string"})";
        return;
      case Shape::Written:
        return this->type(*type.item);
      case Shape::Any:
        return;
      case Shape::Struct:
        return member("$ref", std::string(ref_prefix) + std::string(type.structure().name));
    }
  }

  /// One property of a struct.
  void property(const FieldInfo& field) {
    json.key(field.key);
    json.out += '{';
    type(*field.type);
    member("description", described(field));
    json.out += '}';
  }

  /// A struct of several forms: for each form the keys that it has.
  void forms(const StructInfo& structure) {
    json.key("oneOf");
    json.out += '[';
    for (const Form& form : structure.forms) {
      std::vector<std::string_view> keys;
      if (json.out.back() != '[') json.out += ',';
      json.out += '{';
      member("type", "object");
      json.key("properties");
      json.out += '{';
      for (const FieldInfo& field : structure.fields) {
        if (field.key != form.first && field.key != form.second) continue;
        property(field);
        keys.push_back(field.key);
      }
      json.out += '}';
      list("required", keys);
      json.key("additionalProperties");
      json.out += "false}";
    }
    json.out += ']';
  }

  void definition(const StructInfo& structure) {
    if (!structure.forms.empty()) {
      json.out += '{';
      member("description", structure.doc);
      forms(structure);
      json.out += '}';
      return;
    }
    std::vector<std::string_view> required;
    json.out += '{';
    member("type", "object");
    member("description", structure.doc);
    json.key("properties");
    json.out += '{';
    if (!structure.version.empty()) {
      required.push_back("schema");
      json.key("schema");
      json.out += '{';
      member("type", "string");
      list("enum", std::array{structure.version});
      json.out += '}';
    }
    for (const FieldInfo& field : structure.fields) {
      if (!field.optional) required.push_back(field.key);
      property(field);
    }
    json.out += '}';
    list("required", required);
    json.out += '}';
  }
};

}  // namespace

std::string schemas_of(std::span<const StructInfo* const> roots, std::string_view ref_prefix) {
  SchemaWriter writer{ref_prefix};
  std::vector<const StructInfo*> done;
  writer.json.out = "{";
  for (const StructInfo* root : roots)
    for (const StructInfo* structure : structs_within(*root)) {
      if (std::ranges::find(done, structure) != done.end()) continue;
      done.push_back(structure);
      writer.json.key(structure->name);
      writer.definition(*structure);
    }
  return writer.json.out + "}";
}

std::string result_schemas(std::string_view ref_prefix) {
  const std::array roots = {&describe<ResultDocument>(), &describe<BenchDocument>()};
  return schemas_of(roots, ref_prefix);
}

}  // namespace shimwright::document
