#include "job/document_json.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <nlohmann/json.hpp>
#include <optional>
#include <span>
#include <type_traits>
#include <utility>

#include "job/document_fields_bench.h"
#include "job/document_fields_whole.h"
#include "job/document_members.h"
#include "job/document_words.h"

namespace shimwright::job {
namespace {

using Json = nlohmann::ordered_json;
using internal::Fields;
using internal::kIsOptional;
using internal::kIsVector;
using internal::Words;

template <typename Struct, typename Visit>
void for_each_field(Visit&& visit) {
  std::apply([&](const auto&... field) { (visit(field), ...); }, Fields<Struct>::list);
}

std::string inner_path(const std::string& path, const char* name) {
  return path.empty() ? name : path + "." + name;
}

// writing; what has no type of its own is written out once, not for each of some hundred members

void put(Json& object, const char* name, Json value) {
  object[name] = std::move(value);
}
void append(Json& array, Json value) {
  array.push_back(std::move(value));
}
Json written_number(double value) {
  return std::isfinite(value) ? Json(value) : Json(nullptr);
}

template <typename T>
Json written(const T& value);

template <typename Struct>
Json written_struct(const Struct& value) {
  static_assert(internal::n_members<Struct>() == std::tuple_size_v<decltype(Fields<Struct>::list)>,
                "document_fields.h or document_fields_whole.h leaves out a member");
  Json object = Json::object();
  for_each_field<Struct>([&](const auto& field) {
    const auto& member = value.*(field.member);
    if constexpr (kIsOptional<std::remove_cvref_t<decltype(member)>>) {
      if (member) put(object, field.name, written(*member));
    } else {
      put(object, field.name, written(member));
    }
  });
  return object;
}

template <typename T>
Json written(const T& value) {
  if constexpr (std::is_enum_v<T>) {
    return Words<T>::list.at(static_cast<std::size_t>(value));
  } else if constexpr (std::is_same_v<T, double>) {
    return written_number(value);
  } else if constexpr (std::is_arithmetic_v<T> || std::is_same_v<T, std::string>) {
    return value;
  } else if constexpr (kIsVector<T>) {
    Json array = Json::array();
    for (const auto& item : value) append(array, written<typename T::value_type>(item));
    return array;
  } else {
    return written_struct(value);
  }
}

template <typename Root>
std::string dumped(const char* schema, const Root& root, int indent) {
  Json object = Json::object();
  object["schema"] = schema;
  object.update(written(root));
  // text that is no UTF-8 (a foreign file name) must not keep the numbers from coming out
  return object.dump(indent, ' ', false, Json::error_handler_t::replace) + "\n";
}

// reading

struct Reader {
  std::optional<DocumentFault> fault;

  void complain(const std::string& path, std::string what) {
    if (!fault) fault = DocumentFault{path, std::move(what)};
  }

  /// The member of an object; null, and said, when it is missing.
  const Json* member(const Json& object, const std::string& path, const char* name) {
    const auto found = object.find(name);
    if (found != object.end()) return &*found;
    complain(path, "this key is missing");
    return nullptr;
  }
  bool is_object(const Json& json, const std::string& path) {
    if (!json.is_object()) complain(path, "an object belongs here");
    return json.is_object();
  }
  void read_leaf(const Json& json, const std::string& path, bool& value) {
    if (!json.is_boolean()) return complain(path, "true or false belongs here");
    value = json.get<bool>();
  }
  void read_leaf(const Json& json, const std::string& path, double& value) {
    if (!json.is_null() && !json.is_number()) return complain(path, "a number belongs here");
    value = json.is_null() ? std::numeric_limits<double>::quiet_NaN() : json.get<double>();
  }
  void read_leaf(const Json& json, const std::string& path, std::string& value) {
    if (!json.is_string()) return complain(path, "a text belongs here");
    value = json.get<std::string>();
  }

  template <typename T>
  void read(const Json& json, const std::string& path, T& value);
  template <typename Struct>
  void read_struct(const Json& json, const std::string& path, Struct& value);
  template <typename Enum>
  void read_word(const Json& json, const std::string& path, Enum& value);
};

template <typename Struct>
void Reader::read_struct(const Json& json, const std::string& path, Struct& value) {
  if (!is_object(json, path)) return;
  for_each_field<Struct>([&](const auto& field) {
    auto& to = value.*(field.member);
    const std::string inner = inner_path(path, field.name);
    if constexpr (kIsOptional<std::remove_cvref_t<decltype(to)>>) {
      if (json.contains(field.name)) read(*member(json, inner, field.name), inner, to.emplace());
    } else {
      if (const Json* found = member(json, inner, field.name)) read(*found, inner, to);
    }
  });
}

template <typename Enum>
void Reader::read_word(const Json& json, const std::string& path, Enum& value) {
  const auto& words = Words<Enum>::list;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (json.is_string() && json.get_ref<const std::string&>() == words[i]) {
      value = static_cast<Enum>(i);
      return;
    }
  }
  complain(path, std::string("a word belongs here, such as \"") + words[0] + "\"");
}

template <typename T>
void Reader::read(const Json& json, const std::string& path, T& value) {
  if constexpr (std::is_enum_v<T>) {
    read_word(json, path, value);
  } else if constexpr (std::is_same_v<T, bool> || std::is_same_v<T, double> ||
                       std::is_same_v<T, std::string>) {
    read_leaf(json, path, value);
  } else if constexpr (std::is_integral_v<T>) {
    if (!json.is_number_integer()) return complain(path, "a whole number belongs here");
    value = json.get<T>();
  } else if constexpr (kIsVector<T>) {
    if (!json.is_array()) return complain(path, "a list belongs here");
    for (std::size_t i = 0; i < json.size() && !fault; ++i) {
      typename T::value_type item{};
      read(json[i], path + "[" + std::to_string(i) + "]", item);
      value.push_back(std::move(item));
    }
  } else {
    read_struct(json, path, value);
  }
}

template <typename Root>
Result<Root, DocumentFault> read_document(std::string_view text, const char* schema) {
  const Json json = Json::parse(text, nullptr, false);
  if (json.is_discarded()) return failure(DocumentFault{"", "This is no JSON."});
  if (!json.is_object() || !json.contains("schema") || json["schema"] != schema) {
    return failure(DocumentFault{"schema", std::string("This is no document of the schema ") + schema + "."});
  }
  Reader reader;
  Root document;
  reader.read(json, "", document);
  if (reader.fault) return failure(*reader.fault);
  return document;
}

// looking for numbers that are none

/// What collect_none() finds nothing in, without the paths: they would be most of the work.
template <typename T>
bool all_are_numbers(const T& value) {
  if constexpr (std::is_same_v<T, double>) {
    return std::isfinite(value);
  } else if constexpr (std::is_arithmetic_v<T> || std::is_enum_v<T> || std::is_same_v<T, std::string> ||
                       std::is_same_v<T, std::vector<bool>>) {
    return true;
  } else if constexpr (kIsOptional<T>) {
    return !value || all_are_numbers(*value);
  } else if constexpr (kIsVector<T>) {
    return std::ranges::all_of(value, [](const auto& item) { return all_are_numbers(item); });
  } else {
    return std::apply([&](const auto&... field) { return (all_are_numbers(value.*(field.member)) && ...); },
                      Fields<T>::list);
  }
}

template <typename T>
void collect_none(const T& value, const std::string& path, std::vector<std::string>& none) {
  if constexpr (std::is_same_v<T, double>) {
    if (!std::isfinite(value)) none.push_back(path);
  } else if constexpr (std::is_arithmetic_v<T> || std::is_enum_v<T> || std::is_same_v<T, std::string> ||
                       std::is_same_v<T, std::vector<bool>>) {
    return;
  } else if constexpr (kIsOptional<T>) {
    if (value) collect_none(*value, path, none);
  } else if constexpr (kIsVector<T>) {
    for (std::size_t i = 0; i < value.size(); ++i) {
      collect_none(value[i], path + "[" + std::to_string(i) + "]", none);
    }
  } else {
    for_each_field<T>([&](const auto& field) {
      const std::string inner = inner_path(path, field.name);
      collect_none(value.*(field.member), inner, none);
    });
  }
}

// listing the schema

template <typename T>
void collect_keys(const std::string& path, std::vector<std::string>& keys) {
  if constexpr (std::is_enum_v<T>) {
    keys.push_back(path + " word");
  } else if constexpr (std::is_same_v<T, bool>) {
    keys.push_back(path + " boolean");
  } else if constexpr (std::is_arithmetic_v<T>) {
    keys.push_back(path + " number");
  } else if constexpr (std::is_same_v<T, std::string>) {
    keys.push_back(path + " text");
  } else if constexpr (kIsVector<T>) {
    collect_keys<typename T::value_type>(path + "[]", keys);
  } else if constexpr (kIsOptional<T>) {
    collect_keys<typename T::value_type>(path, keys);
  } else {
    for_each_field<T>([&](const auto& field) {
      using Member = std::remove_cvref_t<decltype(std::declval<T&>().*(field.member))>;
      collect_keys<Member>(inner_path(path, field.name), keys);
    });
  }
}

}  // namespace

std::string to_json(const ResultDocument& document, int indent) {
  return dumped(kResultSchema, document, indent);
}

std::string to_json(const Comparison& comparison, int indent) {
  return dumped(kComparisonSchema, comparison, indent);
}

std::string to_json(const BenchDocument& document, int indent) {
  return dumped(kBenchSchema, document, indent);
}

Result<ResultDocument, DocumentFault> from_json(std::string_view text) {
  return read_document<ResultDocument>(text, kResultSchema);
}

Result<BenchDocument, DocumentFault> bench_from_json(std::string_view text) {
  return read_document<BenchDocument>(text, kBenchSchema);
}

std::vector<std::string> numbers_that_are_none(const ResultDocument& document) {
  std::vector<std::string> none;
  if (!all_are_numbers(document)) collect_none(document, "", none);
  return none;
}

std::vector<std::string> numbers_that_are_none(const BenchDocument& document) {
  std::vector<std::string> none;
  if (!all_are_numbers(document)) collect_none(document, "", none);
  return none;
}

std::vector<std::string> bench_schema_keys() {
  std::vector<std::string> keys = {"schema text"};
  collect_keys<BenchDocument>("", keys);
  return keys;
}

std::vector<std::string> schema_keys() {
  std::vector<std::string> keys = {"schema text"};
  collect_keys<ResultDocument>("", keys);
  return keys;
}

}  // namespace shimwright::job
