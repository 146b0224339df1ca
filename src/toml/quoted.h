#pragma once
#include <functional>
#include <string>
#include <string_view>

#include "toml/document.h"

namespace shimwright::toml {

/// The text as a TOML basic string, quotes included. Bytes that are no UTF-8 become U+FFFD.
std::string quote(std::string_view text);

bool is_bare_key_char(char c);
bool is_bare_key(std::string_view key);

/// A fault before its line and column are known.
struct Complaint {
  Span span;
  std::string what;
  std::string expected;
  std::string remedy;
};
using Complain = std::function<void(Complaint)>;

/// A quoted string as read. `end` is the offset behind it; of a string that is not closed, where reading may
/// go on.
struct Quoted {
  std::string text;
  std::size_t end = 0;
  bool closed = false;
};

/// Reads the string whose opening quote is at `begin`. All faults inside go to `complain`.
Quoted read_quoted(std::string_view text, std::size_t begin, bool may_be_multiline, const Complain& complain);

/// Length in bytes of the UTF-8 code point at `at`, 0 when the bytes are not one.
std::size_t utf8_length(std::string_view text, std::size_t at);

}  // namespace shimwright::toml
