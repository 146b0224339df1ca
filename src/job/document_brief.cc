#include "job/document_brief.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <optional>
#include <tuple>
#include <type_traits>
#include <vector>

#include "job/document_fields_bench.h"
#include "job/document_fields_whole.h"
#include "job/document_json.h"
#include "job/document_words.h"

namespace shimwright::job {
namespace {

using internal::Fields;
using internal::Words;

template <typename T>
inline constexpr bool kIsVector = false;
template <typename T>
inline constexpr bool kIsVector<std::vector<T>> = true;
template <typename T>
inline constexpr bool kIsOptional = false;
template <typename T>
inline constexpr bool kIsOptional<std::optional<T>> = true;

/// Appends to one text; no tree is built on the way.
struct Writer {
  std::string out;

  /// The shortest text of the nearest float: 24 bits, seven digits.
  void number(double value) {
    if (!std::isfinite(value)) {
      out += "null";
      return;
    }
    constexpr double kMost = std::numeric_limits<float>::max();
    std::array<char, 32> digits{};
    char* const begin = digits.data();
    char* const end = begin + digits.size();
    const auto done = std::abs(value) < kMost ? std::to_chars(begin, end, static_cast<float>(value))
                                              : std::to_chars(begin, end, value);
    out.append(begin, done.ptr);
  }

  void text(const std::string& value) {
    const bool plain =
        std::ranges::all_of(value, [](char c) { return c >= ' ' && c < '\x7f' && c != '"' && c != '\\'; });
    if (plain) {
      out += '"';
      out += value;
      out += '"';
    } else {
      out += nlohmann::json(value).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
    }
  }

  template <typename T>
  void write(const T& value) {
    if constexpr (std::is_enum_v<T>) {
      out += '"';
      out += Words<T>::list.at(static_cast<std::size_t>(value));
      out += '"';
    } else if constexpr (std::is_same_v<T, bool>) {
      out += value ? "true" : "false";
    } else if constexpr (std::is_same_v<T, double>) {
      number(value);
    } else if constexpr (std::is_integral_v<T>) {
      out += std::to_string(value);
    } else if constexpr (std::is_same_v<T, std::string>) {
      text(value);
    } else if constexpr (kIsVector<T>) {
      out += '[';
      for (std::size_t i = 0; i < value.size(); ++i) {
        if (i > 0) out += ',';
        write<typename T::value_type>(value[i]);
      }
      out += ']';
    } else {
      out += '{';
      members(value);
      out += '}';
    }
  }

  template <typename Struct>
  void members(const Struct& value) {
    std::apply([&](const auto&... field) { (member(field.name, value.*(field.member)), ...); },
               Fields<Struct>::list);
  }

  template <typename Member>
  void member(const char* name, const Member& value) {
    if constexpr (kIsOptional<Member>) {
      if (value) member(name, *value);
    } else {
      if (out.back() != '{') out += ',';
      out += '"';
      out += name;
      out += "\":";
      write(value);
    }
  }
};

template <typename Root>
std::string brief(const char* schema, const Root& document) {
  Writer writer;
  writer.out = "{";
  writer.member("schema", std::string(schema));
  writer.members(document);
  writer.out += '}';
  return std::move(writer.out);
}

}  // namespace

std::string to_brief_json(const ResultDocument& document) {
  return brief(kResultSchema, document);
}

std::string to_brief_json(const BenchDocument& document) {
  return brief(kBenchSchema, document);
}

}  // namespace shimwright::job
