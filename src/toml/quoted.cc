#include "toml/quoted.h"

#include <algorithm>

#include <fmt/core.h>

#include "base/utf8.h"

namespace shimwright::toml {

bool is_bare_key_char(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
}

bool is_bare_key(std::string_view key) {
  return !key.empty() && std::all_of(key.begin(), key.end(), is_bare_key_char);
}

std::size_t utf8_length(std::string_view text, std::size_t at) {
  const CodePoint point = code_point_at(text, at);
  return point.valid ? point.n_bytes : 0;
}

std::string quote(std::string_view text) {
  std::string out = "\"";
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t n = utf8_length(text, i);
    const char c = text[i];
    if (n == 0) {
      out += "\xEF\xBF\xBD";
    } else if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (c == '\t') {
      out += "\\t";
    } else if (c == '\r') {
      out += "\\r";
    } else if (n == 1 && (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)) {
      out += fmt::format("\\u{:04X}", static_cast<int>(c));
    } else {
      out += text.substr(i, n);
    }
    i += std::max<std::size_t>(n, 1);
  }
  return out + '"';
}

namespace {

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

class QuotedReader {
 public:
  QuotedReader(std::string_view text, std::size_t begin, bool may_be_multiline, const Complain& complain)
      : text_(text), begin_(begin), at_(begin), mark_(text[begin]), complain_(complain) {
    multiline_ = may_be_multiline && text_.substr(begin, 3) == std::string(3, mark_);
  }

  Quoted read() {
    at_ += multiline_ ? 3 : 1;
    if (multiline_) at_ += newline_length(at_);  // a newline right after the opening is not part of the text
    while (at_ < text_.size()) {
      const std::size_t newline = newline_length(at_);
      if (text_[at_] == mark_) {
        if (close()) return {std::move(out_), at_, true};
      } else if (newline > 0 && !multiline_) {
        break;
      } else if (newline > 0) {
        // one meaning for one file, whichever line endings it was saved with
        out_ += '\n';
        at_ += newline;
      } else if (text_[at_] == '\\' && mark_ == '"') {
        escape();
      } else {
        out_ += text_[at_++];
      }
    }
    complain_not_closed();
    return {std::move(out_), at_, false};
  }

 private:
  std::size_t newline_length(std::size_t i) const {
    if (i < text_.size() && text_[i] == '\n') return 1;
    return text_.substr(i, 2) == "\r\n" ? 2 : 0;
  }

  /// At a quote: true when it closes the string. Up to two quotes may come before the closing three.
  bool close() {
    if (!multiline_) {
      ++at_;
      return true;
    }
    std::size_t n = 0;
    while (n < 5 && at_ + n < text_.size() && text_[at_ + n] == mark_) ++n;
    out_.append(n < 3 ? n : n - 3, mark_);
    at_ += n;
    return n >= 3;
  }

  void escape() {
    const std::size_t begin = at_++;
    if (at_ >= text_.size()) return;  // the missing quote is complained of
    const char c = text_[at_];
    static constexpr std::string_view kNames = "btnfr\"\\";
    static constexpr std::string_view kMeant = "\b\t\n\f\r\"\\";
    if (const auto i = kNames.find(c); i != std::string_view::npos) {
      out_ += kMeant[i];
      ++at_;
    } else if (c == 'u' || c == 'U') {
      unicode_escape(begin, c == 'u' ? 4 : 8);
    } else if (!multiline_ || !line_ending_backslash()) {
      const std::size_t n = std::max<std::size_t>(1, utf8_length(text_, at_));
      const std::size_t end = newline_length(at_) > 0 ? at_ : at_ + n;
      complain_({{begin, end},
                 fmt::format("{} is not an escape", text_.substr(begin, end - begin)),
                 R"(one of \b \t \n \f \r \" \\ \uXXXX \UXXXXXXXX)",
                 R"(write \\ for a backslash, or put the text in single quotes)"});
      at_ = end;  // a newline is left for the reader's loop: it ends a one-line string
    }
  }

  /// A backslash at the end of a line joins it to the next text, whatever blanks and newlines lie between.
  bool line_ending_backslash() {
    std::size_t i = at_;
    while (i < text_.size() && (text_[i] == ' ' || text_[i] == '\t')) ++i;
    if (newline_length(i) == 0) return false;
    while (i < text_.size()) {
      const std::size_t newline = newline_length(i);
      if (newline == 0 && text_[i] != ' ' && text_[i] != '\t') break;
      i += std::max<std::size_t>(1, newline);
    }
    at_ = i;
    return true;
  }

  void unicode_escape(std::size_t begin, std::size_t n_digits) {
    ++at_;
    char32_t code = 0;
    std::size_t n = 0;
    for (; n < n_digits && at_ < text_.size() && hex_digit(text_[at_]) >= 0; ++n, ++at_) {
      code = code * 16 + static_cast<char32_t>(hex_digit(text_[at_]));
    }
    if (n < n_digits) {
      complain_({{begin, at_},
                 fmt::format("{} is too short", text_.substr(begin, at_ - begin)),
                 R"(four hexadecimal digits after \u, eight after \U)",
                 "add leading zeros, or type the character itself"});
    } else if (code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) {
      complain_({{begin, at_},
                 fmt::format("{} is not a character", text_.substr(begin, at_ - begin)),
                 "a code below 110000, outside D800 to DFFF",
                 "type the character itself"});
    } else {
      append_utf8(out_, code);
    }
  }

  void complain_not_closed() {
    const std::string closing(multiline_ ? 3 : 1, mark_);
    if (multiline_) {
      complain_({{begin_, begin_ + 3},
                 "this text is not closed before the file ends",
                 "a closing " + closing,
                 fmt::format("put {} where the text ends", closing)});
      return;
    }
    // offer the line again without a trailing comment
    std::string_view rest = text_.substr(begin_ + 1, at_ - begin_ - 1);
    rest = rest.substr(0, rest.find('#'));
    while (!rest.empty() && (rest.back() == ' ' || rest.back() == '\t' || rest.back() == ','))
      rest.remove_suffix(1);
    const bool offer = !rest.empty() && rest.size() <= 60;
    complain_({{begin_, at_},
               "this text is not closed before the line ends",
               fmt::format("a closing {}", closing),
               offer ? fmt::format("write {}{}{}", closing, rest, closing)
                     : fmt::format("put {} where the text ends", closing)});
  }

  std::string_view text_;
  std::size_t begin_;
  std::size_t at_;
  char mark_;
  bool multiline_ = false;
  const Complain& complain_;
  std::string out_;
};

}  // namespace

Quoted read_quoted(std::string_view text, std::size_t begin, bool may_be_multiline,
                   const Complain& complain) {
  return QuotedReader(text, begin, may_be_multiline, complain).read();
}

}  // namespace shimwright::toml
