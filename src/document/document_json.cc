#include "document/document_json.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "base/check.h"
#include "document/document_describe_list.h"
#include "document/document_walk.h"
#include "document/document_writer.h"

namespace shimwright::document {
namespace {

using Json = nlohmann::ordered_json;
using internal::inner_path;

// writing

Json written(const TypeInfo& type, const void* value);

void write_members(const StructInfo& structure, const void* value, Json& object) {
  for (const FieldInfo& field : structure.fields) {
    if (const void* const member = field.get(value))
      object[std::string(field.key)] = written(*field.type, member);
  }
}

Json written(const TypeInfo& type, const void* value) {
  switch (type.shape) {
    case Shape::Number: {
      const double number = *static_cast<const double*>(value);
      return std::isfinite(number) ? Json(number) : Json(nullptr);
    }
    case Shape::Integer:
      return type.integer(value);
    case Shape::Bool:
      return *static_cast<const bool*>(value);
    case Shape::Text:
      return *static_cast<const std::string*>(value);
    case Shape::Word:
      return type.words[static_cast<std::size_t>(type.integer(value))];
    case Shape::List: {
      Json array = Json::array();
      const std::size_t n = type.size(value);
      for (std::size_t i = 0; i < n; ++i) array.push_back(written(*type.item, type.at(value, i)));
      return array;
    }
    default:
      break;
  }
  SW_CHECK(type.shape == Shape::Struct, static_cast<int>(type.shape));
  Json object = Json::object();
  write_members(type.structure(), value, object);
  return object;
}

// reading

/// Reads what is described and keeps the first fault.
struct DocumentReader {
  std::optional<DocumentFault> fault;

  void complain(const std::string& path, std::string what) {
    if (!fault) fault = DocumentFault{path, std::move(what)};
  }

  void read(const Json& json, const std::string& path, const TypeInfo& type, void* value) {
    switch (type.shape) {
      case Shape::Number:
        return read_number(json, path, *static_cast<double*>(value));
      case Shape::Integer:
        if (!json.is_number_integer()) return complain(path, "a whole number belongs here");
        return type.set_integer(value, json.get<std::int64_t>());
      case Shape::Bool:
        if (!json.is_boolean()) return complain(path, "true or false belongs here");
        *static_cast<bool*>(value) = json.get<bool>();
        return;
      case Shape::Text:
        if (!json.is_string()) return complain(path, "a text belongs here");
        *static_cast<std::string*>(value) = json.get<std::string>();
        return;
      case Shape::Word:
        return read_word(json, path, type, value);
      case Shape::List:
        return read_list(json, path, type, value);
      case Shape::Struct:
        return read_struct(json, path, type.structure(), value);
      default:
        SW_CHECK(false, static_cast<int>(type.shape));  // no request and no document holds it
    }
  }

  void read_number(const Json& json, const std::string& path, double& value) {
    if (!json.is_null() && !json.is_number()) return complain(path, "a number belongs here");
    value = json.is_null() ? std::numeric_limits<double>::quiet_NaN() : json.get<double>();
  }

  void read_word(const Json& json, const std::string& path, const TypeInfo& type, void* value) {
    for (std::size_t i = 0; i < type.words.size(); ++i) {
      if (json.is_string() && json.get_ref<const std::string&>() == type.words[i])
        return type.set_integer(value, static_cast<std::int64_t>(i));
    }
    complain(path, std::string("a word belongs here, such as \"") + type.words[0] + "\"");
  }

  void read_list(const Json& json, const std::string& path, const TypeInfo& type, void* list) {
    if (!json.is_array()) return complain(path, "a list belongs here");
    for (std::size_t i = 0; i < json.size() && !fault; ++i) {
      const std::string inner = path + "[" + std::to_string(i) + "]";
      if (type.append_flag) {
        bool flag = false;
        read(json[i], inner, *type.item, &flag);
        type.append_flag(list, flag);
      } else {
        read(json[i], inner, *type.item, type.append(list));
      }
    }
  }

  static bool has_a_form(const Json& json, const StructInfo& structure) {
    return std::ranges::any_of(structure.forms, [&](const Form& form) {
      return json.contains(std::string(form.first)) &&
             (form.second.empty() || json.contains(std::string(form.second))) &&
             json.size() == (form.second.empty() ? 1u : 2u);
    });
  }

  void read_struct(const Json& json, const std::string& path, const StructInfo& structure, void* value) {
    if (!json.is_object()) return complain(path, "an object belongs here");
    if (!structure.forms.empty() && !has_a_form(json, structure))
      return complain(path, "its keys are not those of one of the forms");
    for (const FieldInfo& field : structure.fields) {
      const std::string inner = inner_path(path, field.key);
      const auto found = json.find(std::string(field.key));
      if (found != json.end())
        read(*found, inner, *field.type, field.make(value));
      else if (!field.optional)
        complain(inner, "this key is missing");
    }
  }
};

/// The object in a text, or why there is none.
Result<Json, DocumentFault> object_in(std::string_view text, int deepest) {
  bool too_deep = false;
  const Json json = Json::parse(
      text,
      [&](int depth, Json::parse_event_t, Json&) {
        too_deep = too_deep || depth > deepest;
        return !too_deep;
      },
      false);
  if (too_deep) return failure(DocumentFault{"", "It has too many nested levels."});
  if (json.is_discarded()) return failure(DocumentFault{"", "This is not JSON.", true});
  if (!json.is_object()) return failure(DocumentFault{"", "It is not a JSON object."});
  return json;
}

template <typename Root>
Result<Root, DocumentFault> read_document(std::string_view text) {
  const StructInfo& root = describe<Root>();
  const std::string version(root.version);
  const Json json = Json::parse(text, nullptr, false);
  if (json.is_discarded()) return failure(DocumentFault{"", "This is not JSON.", true});
  if (!json.is_object() || !json.contains("schema") || json["schema"] != version) {
    return failure(DocumentFault{"schema", "This is no document of the schema " + version + "."});
  }
  DocumentReader reader;
  Root document;
  reader.read_struct(json, "", root, &document);
  if (reader.fault) return failure(*reader.fault);
  return document;
}

}  // namespace

std::string internal::escaped(std::string_view text) {
  return Json(text).dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string written_json(const Described& value, int indent) {
  Json object = Json::object();
  if (!value.structure.version.empty()) object["schema"] = value.structure.version;
  write_members(value.structure, value.value, object);
  // text that is no UTF-8 (a foreign file name) must not keep the numbers from coming out
  return object.dump(indent, ' ', false, Json::error_handler_t::replace);
}

std::string to_json(const ResultDocument& document, int indent) {
  return written_json(described(document), indent) + "\n";
}

std::string to_json(const Comparison& comparison, int indent) {
  return written_json(described(comparison), indent) + "\n";
}

std::string to_json(const BenchDocument& document, int indent) {
  return written_json(described(document), indent) + "\n";
}

std::optional<DocumentFault> read_json(std::string_view text, int deepest, const StructInfo& structure,
                                       void* value) {
  const auto object = object_in(text, deepest);
  if (!object) return object.error();
  DocumentReader reader;
  reader.read_struct(*object, "", structure, value);
  return reader.fault;
}

Result<ResultDocument, DocumentFault> from_json(std::string_view text) {
  return read_document<ResultDocument>(text);
}

Result<BenchDocument, DocumentFault> bench_from_json(std::string_view text) {
  return read_document<BenchDocument>(text);
}

}  // namespace shimwright::document
