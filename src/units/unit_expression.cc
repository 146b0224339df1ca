#include "units/unit_expression.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

#include "base/utf8.h"
#include "units/number_scan.h"

namespace shimwright::units {
namespace {

constexpr int kLargestExponent = 6;  // m4 is an area moment, beyond m6 there is nothing in a workshop
constexpr std::size_t kMostWords = 8;

struct Superscript {
  char32_t value;
  char plain;
};
constexpr std::array kSuperscripts{
    Superscript{U'⁻', '-'}, Superscript{U'⁰', '0'}, Superscript{U'¹', '1'}, Superscript{U'²', '2'},
    Superscript{U'³', '3'}, Superscript{U'⁴', '4'}, Superscript{U'⁵', '5'}, Superscript{U'⁶', '6'},
    Superscript{U'⁷', '7'}, Superscript{U'⁸', '8'}, Superscript{U'⁹', '9'},
};

char plain_superscript(char32_t value) {
  for (const Superscript& one : kSuperscripts) {
    if (one.value == value) return one.plain;
  }
  return 0;
}

bool is_product_sign(char32_t value) {
  return value == U'.' || value == U'*' || value == U'·' || value == U'⋅' || value == U'-';
}

bool is_digit(char32_t value) {
  return value >= U'0' && value <= U'9';
}

bool is_word_letter(char32_t value) {
  return !is_product_sign(value) && !is_digit(value) && plain_superscript(value) == 0 && value != U'/' &&
         value != U'^' && value != U'(' && value != U')' && value != U' ' && value != U',' && value != U'+';
}

UnitTextFault malformed(std::size_t offset, std::size_t length, std::string what, std::string remedy) {
  return {Fault::UnitMalformed, offset, std::max<std::size_t>(length, 1), std::move(what), std::move(remedy)};
}

/// The text with one space for each run of blanks: "fl  oz" is "fl oz".
std::string single_blanks(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t n_blank = blanks_at(text, at);
    const std::size_t n_bytes = n_blank > 0 ? n_blank : code_point_at(text, at).n_bytes;
    if (n_blank > 0) {
      out += ' ';
    } else {
      out += text.substr(at, n_bytes);
    }
    at += n_bytes;
  }
  return out;
}

/// Reads a unit text from left to right.
class UnitReader {
 public:
  explicit UnitReader(std::string_view text) : text_(text) {}

  Result<std::vector<UnitWord>, UnitTextFault> words() {
    if (const Unit* unit = find_unit(single_blanks(text_))) return std::vector<UnitWord>{{unit->name, 0, 1}};

    // above the slash: a product, or 1, or nothing
    if (next() == U'1') {
      at_ += 1;
      if (next() != U'/') return failure(stray());
    } else if (next() != U'/') {
      if (auto fault = product(1)) return failure(*fault);
    }

    // below it
    if (next() == U'/') {
      at_ += 1;
      const bool open = next() == U'(';
      if (open) at_ += 1;
      const std::size_t n_above = words_.size();
      if (auto fault = product(-1)) return failure(*fault);
      if (open && next() != U')') return failure(stray());
      if (open) at_ += 1;
      if (!open && words_.size() > n_above + 1) return failure(open_product());
    }
    if (at_ < text_.size()) return failure(stray());
    return words_;
  }

 private:
  char32_t next() const { return code_point_at(text_, at_).value; }  // 0 at the end
  void skip() { at_ += code_point_at(text_, at_).n_bytes; }

  std::optional<UnitTextFault> product(int sign) {
    while (true) {
      const std::size_t begin = at_;
      while (at_ < text_.size() && is_word_letter(next())) skip();
      if (at_ == begin) return stray();
      const std::string_view word = text_.substr(begin, at_ - begin);
      const std::size_t exponent_at = at_;
      const std::optional<int> power = exponent();
      if (!power)
        return malformed(exponent_at, at_ - exponent_at, "expected a small whole exponent",
                         "write \"mm2\" or \"mm^2\"");
      words_.push_back({word, begin, sign * *power});
      if (words_.size() > kMostWords)
        return malformed(begin, word.size(), "expected a shorter unit", "give the value in a plain unit");
      if (at_ >= text_.size() || !is_product_sign(next())) return std::nullopt;
      skip();
    }
  }

  /// 1 when it is missing; nothing when it is not a small whole number. The three spellings: mm2, mm^2, mm².
  std::optional<int> exponent() {
    std::string digits;
    if (plain_superscript(next()) != 0) {
      for (; plain_superscript(next()) != 0; skip()) digits += plain_superscript(next());
    } else {
      const bool caret = next() == U'^';
      if (caret) skip();
      if (caret && next() == U'-') digits += '-', skip();
      for (; is_digit(next()); skip()) digits += static_cast<char>(next());
      if (!caret && digits.empty()) return 1;
    }
    const bool negative = digits.starts_with('-');
    if (negative) digits.erase(0, 1);
    if (digits.size() != 1 || digits[0] < '1' || digits[0] > '0' + kLargestExponent) return std::nullopt;
    return (negative ? -1 : 1) * (digits[0] - '0');
  }

  UnitTextFault stray() const {
    if (at_ >= text_.size())
      return malformed(text_.size(), 1, "the unit is not complete", "write the whole unit");
    const CodePoint point = code_point_at(text_, at_);
    if (point.value == U'/') {
      return malformed(at_, 1, "a unit has at most one \"/\"",
                       "put everything after it in parentheses: \"um/(m.K)\"");
    }
    if (point.value == U' ')
      return malformed(at_, 1, "a space inside a unit", "join the words with a point: \"N.m\"");
    return malformed(
        at_, point.n_bytes,
        fmt::format("\"{}\" does not belong here in a unit", printable(text_.substr(at_, point.n_bytes), 1)),
        "write the unit like \"N.m\", \"mm2/s\" or \"um/(m.K)\"");
  }

  UnitTextFault open_product() const {
    const std::size_t slash = text_.find('/');
    const std::string below(text_.substr(slash + 1));
    return malformed(
        slash, text_.size() - slash, "a product after \"/\" can be read in two ways",
        fmt::format("put it in parentheses: \"{}/({})\"", text_.substr(0, slash), printable(below, 40)));
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::vector<UnitWord> words_;
};

}  // namespace

Result<std::vector<UnitWord>, UnitTextFault> unit_words(std::string_view text) {
  return UnitReader(text).words();
}

Result<UnitValue, UnitTextFault> unit_value(const std::vector<UnitWord>& words) {
  UnitValue value;
  for (const UnitWord& one : words) {
    const Unit* unit = find_unit(one.word);
    if (unit == nullptr) {
      return failure(UnitTextFault{Fault::UnitUnknown, one.offset, one.word.size(), "unknown unit", ""});
    }
    const bool alone = words.size() == 1 && one.exponent == 1;
    if (unit->shift != 0.0 && !alone) {
      return failure(malformed(one.offset, one.word.size(),
                               fmt::format("{} cannot be combined with other units", unit->name),
                               "write K in a product, or delta_degF"));
    }
    if (unit->reference != Reference::None && !alone) {
      return failure(malformed(one.offset, one.word.size(),
                               fmt::format("{} cannot be combined with other units", unit->name),
                               "put (g) or (a) after the whole unit"));
    }

    // numbers
    const double up =
        std::pow(one.exponent > 0 ? unit->numerator : unit->denominator, std::abs(one.exponent));
    const double down =
        std::pow(one.exponent > 0 ? unit->denominator : unit->numerator, std::abs(one.exponent));
    value.numerator *= up;
    value.denominator *= down;

    // dimension
    value.dimension.length += one.exponent * unit->dimension.length;
    value.dimension.mass += one.exponent * unit->dimension.mass;
    value.dimension.time += one.exponent * unit->dimension.time;
    value.dimension.temperature += one.exponent * unit->dimension.temperature;
    value.dimension.angle += one.exponent * unit->dimension.angle;

    if (alone) {
      value.shift = unit->shift;
      value.only = unit->only;
      value.reference = unit->reference;
      value.only_in_products = unit->only_in_products;
    }
  }
  return value;
}

Result<UnitValue, UnitTextFault> unit_value(std::string_view text) {
  const auto words = unit_words(text);
  if (!words) return failure(words.error());
  return unit_value(*words);
}

}  // namespace shimwright::units
