#include "report/html_text.h"

namespace shimwright::report {

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  // a browser breaks a line at a thin space: the narrow no-break one keeps a number with its unit
  static constexpr std::string_view kThinSpace = "\xE2\x80\x89", kTie = "\xE2\x80\xAF";
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text.substr(i, kThinSpace.size()) == kThinSpace) {
      out += kTie;
      i += kThinSpace.size() - 1;
      continue;
    }
    const char c = text[i];
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string base64(std::span<const unsigned char> bytes) {
  static constexpr char kDigits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t left = bytes.size() - i;
    const unsigned group =
        bytes[i] << 16 | (left > 1 ? bytes[i + 1] << 8 : 0) | (left > 2 ? bytes[i + 2] : 0);
    out += kDigits[group >> 18];
    out += kDigits[group >> 12 & 63];
    out += left > 1 ? kDigits[group >> 6 & 63] : '=';
    out += left > 2 ? kDigits[group & 63] : '=';
  }
  return out;
}

}  // namespace shimwright::report
