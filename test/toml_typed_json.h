#pragma once
#include <algorithm>
#include <cctype>
#include <cmath>
#include <string>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "toml/document.h"

namespace shimwright::toml {

/// As the suite writes floats: "inf", "nan", and always with a point or an exponent.
inline std::string typed_float(double number) {
  if (std::isnan(number)) return "nan";
  if (std::isinf(number)) return number < 0 ? "-inf" : "inf";
  std::string out = fmt::format("{}", number);
  return out.find_first_of(".e") == std::string::npos ? out + ".0" : out;
}

/// As the suite writes dates and times: T between both, capital letters, a fraction to thousandths at least.
inline std::string typed_time(std::string text) {
  for (char& c : text) c = c == ' ' ? 'T' : static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  const std::size_t point = text.find('.');
  if (point != std::string::npos) {
    std::size_t end = text.find_first_not_of("0123456789", point + 1);
    for (end = std::min(end, text.size()); end < point + 4; ++end) text.insert(end, 1, '0');
  }
  return text;
}

/// A tree as the conformance suite describes it: {"type": "integer", "value": "42"} at each leaf.
inline nlohmann::json typed_json(const Node& node) {
  const auto leaf = [](const char* type, const std::string& value) {
    return nlohmann::json{{"type", type}, {"value", value}};
  };
  switch (node.kind) {
    case Kind::String:
      return leaf("string", node.text);
    case Kind::Integer:
      return leaf("integer", std::to_string(node.integer));
    case Kind::Float:
      return leaf("float", typed_float(node.number));
    case Kind::Boolean:
      return leaf("bool", node.boolean ? "true" : "false");
    case Kind::OffsetDateTime:
      return leaf("datetime", typed_time(node.text));
    case Kind::LocalDateTime:
      return leaf("datetime-local", typed_time(node.text));
    case Kind::LocalDate:
      return leaf("date-local", node.text);
    case Kind::LocalTime:
      return leaf("time-local", typed_time(node.text));
    case Kind::Faulty:
      return leaf("faulty", node.text);
    case Kind::Table:
    case Kind::Array:
      break;
  }
  nlohmann::json out = node.is_table() ? nlohmann::json::object() : nlohmann::json::array();
  for (const auto& child : node.children) {
    if (node.is_table()) {
      out[child->key] = typed_json(*child);
    } else {
      out.push_back(typed_json(*child));
    }
  }
  return out;
}

}  // namespace shimwright::toml
