#include "units/format.h"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>

#include "base/check.h"
#include "units/trade.h"

namespace shimwright::units {
namespace {

constexpr std::string_view kThinSpace = "\u2009";
constexpr std::string_view kMinus = "\u2212";

void drop_end_zeros(std::string& digits) {
  if (digits.find('.') == std::string::npos) return;
  digits.erase(digits.find_last_not_of('0') + 1);
  if (digits.ends_with('.')) digits.pop_back();
}

/// Digits of a value without its sign, three significant figures.
std::string three_figures(double magnitude) {
  constexpr double kSmallestPlain = 1e-4,
                   kLargestPlain = 1e7;  // beyond, zeros would have to be counted by eye
  if (magnitude == 0.0) return "0";
  const std::string scientific =
      fmt::format("{:.2e}", magnitude);  // rounds first, so that 9.996 has its place as 10.0
  double rounded = 0.0;
  std::from_chars(scientific.data(), scientific.data() + scientific.size(), rounded);
  const int exponent = std::atoi(scientific.c_str() + scientific.find('e') + 1);
  if (rounded >= kSmallestPlain && rounded < kLargestPlain)
    return fmt::format("{:.{}f}", rounded, std::max(0, 2 - exponent));
  return fmt::format("{}e{}", scientific.substr(0, 4), exponent);
}

/// Digits of a value by the kind's rule, or with the fixed decimals of the options.
std::string digits_of(double magnitude, Kind kind, const FormatOptions& options) {
  if (options.decimals >= 0) return fmt::format("{:.{}f}", magnitude, std::min(options.decimals, 9));
  const int decimals = trade_rule(kind).decimals;
  // less than ten steps of the last decimal would be too coarse a figure
  const bool coarse = magnitude != 0.0 && magnitude < std::pow(10.0, 1 - decimals);
  if (decimals < 0 || (coarse && kind == Kind::Fraction)) return three_figures(magnitude);
  std::string digits = fmt::format("{:.{}f}", magnitude, decimals);
  drop_end_zeros(digits);
  return digits;
}

std::string signed_number(double value, Kind kind, const FormatOptions& options, std::string_view minus) {
  SW_CHECK(std::isfinite(value), value);
  const std::string digits = digits_of(std::abs(value), kind, options);
  const bool zero = digits.find_first_of("123456789") == std::string::npos;
  if (zero) return digits;
  if (value < 0.0) return std::string(minus) + digits;
  return options.sign ? "+" + digits : digits;
}

/// A disc's thickness keeps two decimals of a millimetre, a third when it is there; four of an inch.
std::string thickness_digits(double si, System system) {
  SW_CHECK(std::isfinite(si), si);
  const double value = to_unit(si, Kind::Length, system);
  if (system == System::Imperial) return fmt::format("{:.4f}", value);
  std::string digits = fmt::format("{:.3f}", value);
  if (digits.ends_with('0')) digits.pop_back();
  return digits;
}

}  // namespace

std::string format(double si, Kind kind, System system, const FormatOptions& options) {
  const TradeUnit& unit = unit_at(si, kind, system);
  std::string text = signed_number(in_unit(si, unit), kind, options, kMinus);
  if (unit.print.empty()) return text;
  if (kind != Kind::Angle) text += kThinSpace;  // no space before the degree sign of an angle
  return text.append(unit.print).append(reference_word(options.reference));
}

std::string format_plain(double si, Kind kind, System system, const FormatOptions& options) {
  const TradeUnit& unit = unit_at(si, kind, system);
  std::string text = signed_number(in_unit(si, unit), kind, options, "-");
  if (unit.plain.empty()) return text;
  return text.append(" ").append(unit.plain).append(reference_word(options.reference));
}

std::string format_round(double si, Kind kind, System system) {
  std::string text = format(si, kind, system);
  const std::size_t end = std::min(text.find(kThinSpace), text.size());
  if (text.find('.') >= end) return text;
  std::size_t last = end;
  while (text[last - 1] == '0') --last;
  if (text[last - 1] == '.') --last;
  return text.erase(last, end - last);
}

std::string number_text(double si, Kind kind, System system, const FormatOptions& options) {
  return signed_number(to_unit(si, kind, system), kind, options, kMinus);
}

std::string number_text_plain(double si, Kind kind, System system, const FormatOptions& options) {
  return signed_number(to_unit(si, kind, system), kind, options, "-");
}

std::string unit_name(Kind kind, System system, Reference reference) {
  return std::string(usual_unit(kind, system).print).append(reference_word(reference));
}

std::string unit_name_plain(Kind kind, System system, Reference reference) {
  return std::string(usual_unit(kind, system).plain).append(reference_word(reference));
}

double to_unit(double si, Kind kind, System system) {
  return in_unit(si, usual_unit(kind, system));
}

double from_unit(double value, Kind kind, System system) {
  return out_of_unit(value, usual_unit(kind, system));
}

std::string format_thickness(double si, System system) {
  return thickness_digits(si, system).append(kThinSpace).append(unit_name(Kind::Length, system));
}

std::string format_thickness_plain(double si, System system) {
  return thickness_digits(si, system).append(" ").append(unit_name_plain(Kind::Length, system));
}

}  // namespace shimwright::units
