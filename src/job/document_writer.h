#pragma once
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <tuple>
#include <type_traits>
#include <vector>

#include "job/document_fields.h"
#include "job/document_members.h"
#include "job/document_words.h"

// How the brief documents and what changes in them are written. Private to the module.

namespace shimwright::job::internal {

/// True for a number that is written with the digits of a float.
inline bool fits_float(double value) {
  return std::abs(value) < std::numeric_limits<float>::max();
}

/// Appends to one text; no tree is built on the way.
struct Writer {
  std::string out;

  /// The shortest text of the nearest float: 24 bits, seven digits.
  void number(double value) {
    if (!std::isfinite(value)) {
      out += "null";
      return;
    }
    std::array<char, 32> digits{};
    char* const begin = digits.data();
    char* const end = begin + digits.size();
    const auto done = fits_float(value) ? std::to_chars(begin, end, static_cast<float>(value))
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

}  // namespace shimwright::job::internal
