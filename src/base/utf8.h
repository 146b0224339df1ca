#pragma once
#include <cstddef>
#include <string>
#include <string_view>

namespace shimwright {

/// One character of a UTF-8 text. A byte that belongs to no valid character counts as one of its own.
struct CodePoint {
  char32_t value = 0;       // U+FFFD when not valid
  std::size_t n_bytes = 0;  // 0 at the end of the text
  bool valid = false;
};

/// The same where the byte at `offset` begins no ASCII character.
CodePoint wide_code_point_at(std::string_view text, std::size_t offset);

inline CodePoint code_point_at(std::string_view text, std::size_t offset) {
  if (offset >= text.size()) return {};
  const auto byte = static_cast<unsigned char>(text[offset]);
  return byte < 0x80 ? CodePoint{byte, 1, true} : wide_code_point_at(text, offset);
}

/// How many characters (code points) the text has: what a column counts.
std::size_t n_code_points(std::string_view text);

/// How many characters of `whole` lie before `part`, which is a part of it.
int characters_before(std::string_view whole, std::string_view part);

constexpr bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

void append_utf8(std::string& text, char32_t value);

/// The text as it may go to a terminal: control characters and stray bytes become U+FFFD, so that a hostile
/// file cannot move the cursor; more than `max_length` characters are cut with an ellipsis.
std::string printable(std::string_view text, std::size_t max_length);

}  // namespace shimwright
