#include "toml/bare_value.h"

#include <algorithm>
#include <charconv>
#include <limits>

#include "base/utf8.h"

namespace shimwright::toml {
namespace {

/// Takes `n` digits off the front of `rest` as a number within [low, high].
bool take_digits(std::string_view& rest, std::size_t n, int low, int high, int& value) {
  if (rest.size() < n ||
      !std::all_of(rest.begin(), rest.begin() + static_cast<std::ptrdiff_t>(n), is_digit)) {
    return false;
  }
  value = 0;
  for (std::size_t i = 0; i < n; ++i) value = value * 10 + (rest[i] - '0');
  rest.remove_prefix(n);
  return value >= low && value <= high;
}

bool take(std::string_view& rest, char c) {
  if (rest.empty() || rest.front() != c) return false;
  rest.remove_prefix(1);
  return true;
}

int days_in_month(int year, int month) {
  static constexpr int kDays[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return month == 2 && leap ? 29 : kDays[month - 1];
}

bool take_date(std::string_view& rest) {
  int year = 0, month = 0, day = 0;
  return take_digits(rest, 4, 0, 9999, year) && take(rest, '-') && take_digits(rest, 2, 1, 12, month) &&
         take(rest, '-') && take_digits(rest, 2, 1, days_in_month(year, month), day);
}

bool take_time(std::string_view& rest) {
  int part = 0;
  if (!(take_digits(rest, 2, 0, 23, part) && take(rest, ':') && take_digits(rest, 2, 0, 59, part) &&
        take(rest, ':') && take_digits(rest, 2, 0, 60, part))) {
    return false;
  }
  if (!take(rest, '.')) return true;
  if (rest.empty() || !is_digit(rest.front())) return false;
  while (!rest.empty() && is_digit(rest.front())) rest.remove_prefix(1);
  return true;
}

bool take_offset(std::string_view& rest) {
  if (take(rest, 'Z') || take(rest, 'z')) return true;
  int part = 0;
  return (take(rest, '+') || take(rest, '-')) && take_digits(rest, 2, 0, 23, part) && take(rest, ':') &&
         take_digits(rest, 2, 0, 59, part);
}

bool read_date_or_time(std::string_view word, Node& node) {
  std::string_view rest = word;
  if (take_time(rest) && rest.empty()) {
    node.kind = Kind::LocalTime;
  } else {
    rest = word;
    if (!take_date(rest)) return false;
    if (rest.empty()) {
      node.kind = Kind::LocalDate;
    } else {
      if (!(take(rest, 'T') || take(rest, 't') || take(rest, ' ')) || !take_time(rest)) return false;
      node.kind = rest.empty() ? Kind::LocalDateTime : Kind::OffsetDateTime;
      if (!rest.empty() && !(take_offset(rest) && rest.empty())) return false;
    }
  }
  node.text = word;
  return true;
}

/// Digits with single underscores between them, copied to `out` without the underscores.
template <typename IsDigit>
bool plain_digits(std::string_view part, IsDigit is_of_base, std::string& out) {
  bool after_digit = false;
  for (const char c : part) {
    if (c == '_') {
      if (!after_digit) return false;
      after_digit = false;
    } else {
      if (!is_of_base(c)) return false;
      out += c;
      after_digit = true;
    }
  }
  return after_digit;
}

bool read_integer(std::string_view word, Node& node) {
  std::string digits;
  int base = 10;
  bool ok = false;
  const std::string_view prefix = word.substr(0, 2);
  if (prefix == "0x" || prefix == "0o" || prefix == "0b") {
    base = prefix == "0x" ? 16 : prefix == "0o" ? 8 : 2;
    ok = plain_digits(
        word.substr(2),
        [&](char c) {
          if (base == 16) return is_digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
          return c >= '0' && c < '0' + base;
        },
        digits);
  } else {
    const bool is_signed = !word.empty() && (word[0] == '+' || word[0] == '-');
    if (is_signed && word[0] == '-') digits = "-";
    const std::string_view body = word.substr(is_signed ? 1 : 0);
    ok = plain_digits(body, is_digit, digits) && (body.size() == 1 || body[0] != '0');
  }
  if (!ok) return false;
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), node.integer, base);
  if (read.ec != std::errc()) return false;
  node.kind = Kind::Integer;
  return true;
}

/// The double of a checked decimal text. Beyond the range: zero or infinity, as IEEE 754 rounds.
double to_double(const std::string& plain) {
  const char* begin = plain.data() + (plain[0] == '+' ? 1 : 0);
  double value = 0.0;
  const auto read = std::from_chars(begin, plain.data() + plain.size(), value);
  if (read.ec == std::errc()) return value;
  // out of range: a leading digit far above or below the point shows the direction
  const std::size_t e = plain.find_first_of("eE");
  const std::string mantissa = plain.substr(0, e);
  const std::size_t first = mantissa.find_first_of("123456789");
  if (first == std::string::npos) return plain[0] == '-' ? -0.0 : 0.0;
  const std::size_t point = std::min(mantissa.find('.'), mantissa.size());
  long long exponent = 0;
  if (e != std::string::npos) {
    const char* from = plain.data() + e + (plain[e + 1] == '+' ? 2 : 1);
    if (std::from_chars(from, plain.data() + plain.size(), exponent).ec != std::errc()) {
      exponent = plain[e + 1] == '-' ? -1'000'000'000'000 : 1'000'000'000'000;
    }
  }
  const long long magnitude = exponent + static_cast<long long>(point) - static_cast<long long>(first);
  const double size = magnitude > 0 ? std::numeric_limits<double>::infinity() : 0.0;
  return plain[0] == '-' ? -size : size;
}

bool read_float(std::string_view word, Node& node) {
  std::string plain;
  std::string_view rest = word;
  if (!rest.empty() && (rest[0] == '+' || rest[0] == '-')) {
    plain = rest[0];
    rest.remove_prefix(1);
  }
  if (rest == "inf" || rest == "nan") {
    const double size =
        rest == "inf" ? std::numeric_limits<double>::infinity() : std::numeric_limits<double>::quiet_NaN();
    node.kind = Kind::Float;
    node.number = plain == "-" ? -size : size;
    return true;
  }
  // whole part, then at least one of fraction and exponent
  const std::size_t e = std::min(rest.find_first_of("eE"), rest.size());
  const std::size_t dot = std::min(rest.substr(0, e).find('.'), e);
  if (dot == rest.size()) return false;
  const std::string_view whole = rest.substr(0, dot);
  if (!plain_digits(whole, is_digit, plain) || (whole.size() > 1 && whole[0] == '0')) return false;
  if (dot < e) {
    plain += '.';
    if (!plain_digits(rest.substr(dot + 1, e - dot - 1), is_digit, plain)) return false;
  }
  if (e < rest.size()) {
    plain += 'e';
    std::string_view power = rest.substr(e + 1);
    if (!power.empty() && (power[0] == '+' || power[0] == '-')) {
      plain += power[0];
      power.remove_prefix(1);
    }
    if (!plain_digits(power, is_digit, plain)) return false;
  }
  node.kind = Kind::Float;
  node.number = to_double(plain);
  return true;
}

}  // namespace

bool is_date(std::string_view word) {
  return take_date(word) && word.empty();
}

bool read_bare_value(std::string_view word, Node& node) {
  if (word == "true" || word == "false") {
    node.kind = Kind::Boolean;
    node.boolean = word == "true";
    return true;
  }
  return read_integer(word, node) || read_float(word, node) || read_date_or_time(word, node);
}

}  // namespace shimwright::toml
