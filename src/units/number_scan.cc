#include "units/number_scan.h"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>

#include "base/utf8.h"

namespace shimwright::units {
namespace {

constexpr std::size_t kLongestNumber = 40;
constexpr std::string_view kMinusSign = "\u2212";

std::size_t n_digits_at(std::string_view text, std::size_t offset) {
  std::size_t end = offset;
  while (end < text.size() && is_digit(text[end])) ++end;
  return end - offset;
}

UnitFault number_fault(Fault fault, std::string_view text, std::size_t n_bytes, std::string what,
                       std::string remedy) {
  const std::string_view found = text.substr(0, n_bytes);
  const int length = static_cast<int>(std::max<std::size_t>(n_code_points(found), 1));
  return {fault, 0, length, std::move(what), printable(found, 40), "", std::move(remedy)};
}

/// End of a plain decimal number that starts at `begin`; `begin` itself when there is none.
std::size_t decimal_end(std::string_view text, std::size_t begin) {
  std::size_t end = begin + n_digits_at(text, begin);
  std::size_t n_digits = end - begin;
  if (end < text.size() && text[end] == '.' && n_digits_at(text, end + 1) > 0) {
    const std::size_t n_behind = n_digits_at(text, end + 1);
    end += 1 + n_behind;
    n_digits += n_behind;
  }
  if (n_digits == 0) return begin;
  if (end < text.size() && (text[end] == 'e' || text[end] == 'E')) {
    const bool sign = end + 1 < text.size() && (text[end + 1] == '-' || text[end + 1] == '+');
    const std::size_t n_exponent = n_digits_at(text, end + 1 + (sign ? 1 : 0));
    if (n_exponent > 0) end += 1 + (sign ? 1 : 0) + n_exponent;
  }
  return end;
}

struct Fraction {
  double value = 0.0;
  std::size_t end = 0;  // 0 when there is none
};

/// "1/8" at `begin`, small whole numbers only.
Fraction fraction_at(std::string_view text, std::size_t begin) {
  const std::size_t n_top = n_digits_at(text, begin);
  const std::size_t slash = begin + n_top;
  if (n_top == 0 || n_top > 3 || slash >= text.size() || text[slash] != '/') return {};
  const std::size_t n_bottom = n_digits_at(text, slash + 1);
  if (n_bottom == 0 || n_bottom > 3) return {};
  int top = 0, bottom = 0;
  std::from_chars(text.data() + begin, text.data() + slash, top);
  std::from_chars(text.data() + slash + 1, text.data() + slash + 1 + n_bottom, bottom);
  if (bottom == 0) return {};
  return {static_cast<double>(top) / bottom, slash + 1 + n_bottom};
}

}  // namespace

std::size_t blanks_at(std::string_view text, std::size_t offset) {
  std::size_t end = offset;
  while (end < text.size()) {
    const CodePoint point = code_point_at(text, end);
    const char32_t c = point.value;
    const bool blank = c == U' ' || c == U'\t' || c == 0xA0 || (c >= 0x2000 && c <= 0x200A) || c == 0x202F;
    if (!point.valid || !blank) break;
    end += point.n_bytes;
  }
  return end - offset;
}

std::string_view trimmed(std::string_view text) {
  text.remove_prefix(blanks_at(text, 0));
  // from the left, as a blank may have more than one byte
  std::size_t end = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t n_blank = blanks_at(text, at);
    if (n_blank == 0) at += code_point_at(text, at).n_bytes, end = at;
    at += n_blank;
  }
  return text.substr(0, end);
}

Result<ScannedNumber, UnitFault> scan_number(std::string_view text) {
  // sign
  std::size_t begin = 0;
  bool negative = false;
  if (text.starts_with('-') || text.starts_with('+')) {
    negative = text[0] == '-';
    begin = 1;
  } else if (text.starts_with(kMinusSign)) {
    negative = true;
    begin = kMinusSign.size();
  }
  const double sign = negative ? -1.0 : 1.0;

  // 1/8, and 1 1/8
  if (const Fraction plain = fraction_at(text, begin); plain.end > 0)
    return ScannedNumber{sign * plain.value, plain.end, true};
  const std::size_t n_whole = n_digits_at(text, begin);
  const std::size_t behind = begin + n_whole;
  const std::size_t n_blank = blanks_at(text, behind);
  if (n_whole > 0 && n_whole <= 3 && n_blank > 0) {
    if (const Fraction rest = fraction_at(text, behind + n_blank); rest.end > 0) {
      int whole = 0;
      std::from_chars(text.data() + begin, text.data() + behind, whole);
      return ScannedNumber{sign * (whole + rest.value), rest.end, true};
    }
  }

  // a decimal number
  const std::size_t end = decimal_end(text, begin);
  if (end == begin) {
    return failure(
        number_fault(Fault::NotANumber, text, text.size(), "expected a number", "begin with the number"));
  }
  if (end - begin > kLongestNumber) {
    return failure(number_fault(Fault::NotANumber, text, end, "expected a shorter number",
                                "leave out digits that nobody can measure"));
  }
  double value = 0.0;
  const auto [stop, error] = std::from_chars(text.data() + begin, text.data() + end, value);
  if (error != std::errc{} || stop != text.data() + end) {
    return failure(number_fault(Fault::OutOfRange, text, end,
                                "expected a number that is possible in a machine", "check the exponent"));
  }

  // what people put behind a number and mean something else by
  if (end + 1 < text.size() && text[end] == ',' && is_digit(text[end + 1])) {
    const std::size_t n_behind = n_digits_at(text, end + 1);
    const std::string_view after = text.substr(end + 1, std::min<std::size_t>(n_behind, 12));
    return failure(
        number_fault(Fault::DecimalComma, text, end + 1 + n_behind, "expected a decimal point, not a comma",
                     fmt::format("write \"{}.{}\"; do not group the digits", text.substr(0, end), after)));
  }
  const std::size_t n_gap = blanks_at(text, end);
  const bool is_unit = text.substr(end + n_gap).starts_with("1/");  // 7e-4 1/K
  if (!is_unit && end + n_gap < text.size() && is_digit(text[end + n_gap])) {
    const std::size_t n_behind = n_digits_at(text, end + n_gap);
    return failure(number_fault(Fault::NotANumber, text, end + n_gap + n_behind, "expected one number",
                                "write the digits without spaces between them"));
  }
  return ScannedNumber{sign * value, end, false};
}

std::string with_points(std::string_view text) {
  std::string pointed(text);
  for (std::size_t at = 1; at + 1 < pointed.size(); ++at)
    if (pointed[at] == ',' && is_digit(pointed[at - 1]) && is_digit(pointed[at + 1])) pointed[at] = '.';
  return pointed;
}

void tell_too(const UnitFault& next, UnitFault& fault) {
  fault.remedy += fmt::format("; and {}: {}", next.what, next.remedy);
}

}  // namespace shimwright::units
