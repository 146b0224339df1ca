#include "base/utf8.h"

namespace shimwright {
namespace {

constexpr char32_t kReplacement = 0xFFFD;

bool is_control(char32_t value) {
  return value < 0x20 || (value >= 0x7F && value < 0xA0);
}

// Marks that change the order of a line: with them a printed line would not show what is in the file.
bool is_bidi_mark(char32_t value) {
  return value == 0x200E || value == 0x200F || (value >= 0x202A && value <= 0x202E) ||
         (value >= 0x2066 && value <= 0x2069);
}

struct Lead {
  std::size_t n_bytes;
  char32_t bits;
  char32_t smallest;  // below it the sequence is overlong
};

Lead lead_of(unsigned char byte) {
  if (byte >= 0xC2 && byte <= 0xDF) return {2, byte & 0x1FU, 0x80};
  if (byte >= 0xE0 && byte <= 0xEF) return {3, byte & 0x0FU, 0x800};
  if (byte >= 0xF0 && byte <= 0xF4) return {4, byte & 0x07U, 0x10000};
  return {0, 0, 0};
}

}  // namespace

CodePoint wide_code_point_at(std::string_view text, std::size_t offset) {
  const CodePoint stray{kReplacement, 1, false};
  const Lead lead = lead_of(static_cast<unsigned char>(text[offset]));
  if (lead.n_bytes == 0 || offset + lead.n_bytes > text.size()) return stray;

  char32_t value = lead.bits;
  for (std::size_t i = 1; i < lead.n_bytes; ++i) {
    const auto byte = static_cast<unsigned char>(text[offset + i]);
    if ((byte & 0xC0U) != 0x80U) return stray;
    value = (value << 6) | (byte & 0x3FU);
  }
  const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
  if (value < lead.smallest || value > 0x10FFFF || surrogate) return stray;
  return {value, lead.n_bytes, true};
}

int characters_before(std::string_view whole, std::string_view part) {
  return static_cast<int>(
      n_code_points(whole.substr(0, static_cast<std::size_t>(part.data() - whole.data()))));
}

std::size_t n_code_points(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); at += code_point_at(text, at).n_bytes) ++count;
  return count;
}

void append_utf8(std::string& text, char32_t value) {
  const auto put = [&text](char32_t byte) { text.push_back(static_cast<char>(byte)); };
  if (value < 0x80) {
    put(value);
  } else if (value < 0x800) {
    put(0xC0 | (value >> 6));
    put(0x80 | (value & 0x3F));
  } else if (value < 0x10000) {
    put(0xE0 | (value >> 12));
    put(0x80 | ((value >> 6) & 0x3F));
    put(0x80 | (value & 0x3F));
  } else {
    put(0xF0 | (value >> 18));
    put(0x80 | ((value >> 12) & 0x3F));
    put(0x80 | ((value >> 6) & 0x3F));
    put(0x80 | (value & 0x3F));
  }
}

std::string printable(std::string_view text, std::size_t max_length) {
  std::string out;
  std::size_t length = 0;
  for (std::size_t at = 0; at < text.size(); ++length) {
    if (length == max_length) return out + "…";
    const CodePoint point = code_point_at(text, at);
    const bool hidden = !point.valid || is_control(point.value) || is_bidi_mark(point.value);
    append_utf8(out, hidden ? kReplacement : point.value);
    at += point.n_bytes;
  }
  return out;
}

}  // namespace shimwright
