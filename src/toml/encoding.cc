#include "toml/encoding.h"

#include <algorithm>

#include <fmt/core.h>

namespace shimwright::toml {
namespace {

/// What is wrong with the byte at `at`, or an empty text.
Complaint complaint_at(std::string_view text, std::size_t at) {
  const auto byte = static_cast<unsigned char>(text[at]);
  if (byte == '\r') {
    return {{at, at + 1},
            "a carriage return without a newline",
            "lines that end in LF or CRLF",
            "save the file with one kind of line ending"};
  }
  if (byte < 0x20 || byte == 0x7F) {
    return {{at, at + 1},
            fmt::format("an invisible control character (U+{:04X})", byte),
            "text, tabs and line ends only",
            fmt::format("delete it; inside a text write \\u{:04X}", byte)};
  }
  return {{at, at + 1},
          fmt::format("a byte that is not UTF-8 (0x{:02X})", byte),
          "a file in UTF-8",
          "save the file as UTF-8"};
}

}  // namespace

bool check_encoding(std::string_view text, const Complain& complain) {
  const std::string_view mark = text.substr(0, 2);
  if (mark == "\xFF\xFE" || mark == "\xFE\xFF") {
    complain({{0, 2}, "this file is in UTF-16", "a file in UTF-8", "save the file as UTF-8"});
    return false;
  }
  for (std::size_t i = 0; i < text.size();) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte >= 0x20 && byte < 0x7F) {  // nearly every byte of a file
      ++i;
      continue;
    }
    const bool is_line_end = byte == '\n' || text.substr(i, 2) == "\r\n";
    const bool is_control = (byte < 0x20 && byte != '\t' && !is_line_end) || byte == 0x7F;
    const std::size_t n = utf8_length(text, i);
    if (n > 0 && !is_control) {
      i += n;
      continue;
    }
    // one complaint a line is enough to find it
    complain(complaint_at(text, i));
    i = std::min(text.find('\n', i), text.size());
  }
  return true;
}

std::vector<std::size_t> line_starts_of(std::string_view text) {
  std::vector<std::size_t> starts = {0};
  for (std::size_t i = text.find('\n'); i != std::string_view::npos; i = text.find('\n', i + 1)) {
    starts.push_back(i + 1);
  }
  return starts;
}

std::size_t first_offset(std::string_view text) {
  return text.substr(0, 3) == "\xEF\xBB\xBF" ? 3 : 0;
}

}  // namespace shimwright::toml
