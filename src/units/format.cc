#include "units/format.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>

#include "base/check.h"
#include "units/unit_expression.h"

namespace shimwright::units {
namespace {

constexpr std::string_view kThinSpace = "\u2009";
constexpr std::string_view kMinus = "\u2212";

/// One unit of the trade: its name in print and in ASCII.
struct TradeUnit {
  std::string_view print;
  std::string_view plain;
};

/// What a kind is shown in, and how finely.
struct TradeRule {
  Kind kind;
  TradeUnit metric;
  TradeUnit imperial;
  TradeUnit metric_large = {};  // from large_from on; none when empty
  TradeUnit imperial_large = {};
  double large_from = 0.0;  // [SI]
  int decimals = -1;        // at most so many, zeros at the end left out; -1: three significant figures
};

constexpr std::array kRules{
    TradeRule{Kind::Length, {"mm", "mm"}, {"in", "in"}, {"m", "m"}, {"ft", "ft"}, 10.0},
    TradeRule{Kind::Area, {"mm²", "mm2"}, {"in²", "in2"}},
    TradeRule{Kind::Volume, {"mL", "mL"}, {"fl oz", "fl oz"}, {"L", "L"}, {}, 10e-3},
    TradeRule{Kind::Mass, {"kg", "kg"}, {"lb", "lb"}},
    TradeRule{Kind::Force, {"N", "N"}, {"lbf", "lbf"}},
    TradeRule{Kind::Torque, {"N·m", "N.m"}, {"in·lbf", "in.lbf"}, {}, {"ft·lbf", "ft.lbf"}, 20.0},
    TradeRule{Kind::Pressure, {"bar", "bar"}, {"psi", "psi"}},
    TradeRule{Kind::PressureDifference, {"bar", "bar"}, {"psi", "psi"}},
    TradeRule{Kind::Stress, {"MPa", "MPa"}, {"ksi", "ksi"}, {"GPa", "GPa"}, {}, 10e9},
    TradeRule{Kind::Temperature, {"°C", "degC"}, {"°F", "degF"}, {}, {}, 0.0, 1},
    TradeRule{Kind::TemperatureDifference, {"K", "K"}, {"Δ°F", "delta_degF"}, {}, {}, 0.0, 1},
    TradeRule{Kind::Speed, {"m/s", "m/s"}, {"in/s", "in/s"}},
    TradeRule{Kind::Acceleration, {"m/s²", "m/s2"}, {"ft/s²", "ft/s2"}},
    TradeRule{Kind::SpringRate, {"N/mm", "N/mm"}, {"lbf/in", "lbf/in"}},
    TradeRule{Kind::Damping, {"N·s/m", "N.s/m"}, {"lbf·s/in", "lbf.s/in"}},
    TradeRule{Kind::KinematicViscosity, {"mm²/s", "mm2/s"}, {"mm²/s", "mm2/s"}},
    TradeRule{Kind::DynamicViscosity, {"mPa·s", "mPa.s"}, {"mPa·s", "mPa.s"}},
    TradeRule{Kind::Density, {"kg/m³", "kg/m3"}, {"lb/ft³", "lb/ft3"}},
    TradeRule{Kind::VolumeRate, {"L/min", "L/min"}, {"in³/s", "in3/s"}},
    TradeRule{Kind::ThermalExpansion, {"1/K", "1/K"}, {"1/K", "1/K"}},
    TradeRule{Kind::Angle, {"°", "deg"}, {"°", "deg"}, {}, {}, 0.0, 1},
    TradeRule{Kind::Frequency, {"Hz", "Hz"}, {"Hz", "Hz"}},
    TradeRule{Kind::Time, {"s", "s"}, {"s", "s"}, {"min", "min"}, {"min", "min"}, 120.0},
    TradeRule{Kind::Power, {"W", "W"}, {"W", "W"}, {"kW", "kW"}, {"kW", "kW"}, 10e3},
    TradeRule{Kind::Energy, {"J", "J"}, {"ft·lbf", "ft.lbf"}},
    TradeRule{Kind::Fraction, {"%", "%"}, {"%", "%"}, {}, {}, 0.0, 1},
    TradeRule{Kind::Number, {"", ""}, {"", ""}},
};

/// A trade unit with what it is worth.
struct ResolvedUnit {
  TradeUnit name;
  UnitValue value;
};

struct ResolvedRule {
  ResolvedUnit usual[2];  // by System
  ResolvedUnit large[2];
  double large_from = 0.0;
  int decimals = -1;
};

ResolvedUnit resolved(const TradeUnit& name) {
  if (name.plain.empty()) return {name, {}};
  const auto value = unit_value(name.plain);
  SW_CHECK(value.has_value(), name.plain);
  return {name, *value};
}

const ResolvedRule& rule_for(Kind kind) {
  // worth of each unit, read once from the one table that parse() uses
  static const auto rules = [] {
    std::array<ResolvedRule, kRules.size()> all;
    for (std::size_t i = 0; i < kRules.size(); ++i) {
      const TradeRule& rule = kRules[i];
      SW_CHECK(static_cast<std::size_t>(rule.kind) == i, i);
      all[i] = {{resolved(rule.metric), resolved(rule.imperial)},
                {resolved(rule.metric_large), resolved(rule.imperial_large)},
                rule.large_from,
                rule.decimals};
    }
    return all;
  }();
  const auto index = static_cast<std::size_t>(kind);
  SW_CHECK(index < rules.size(), index);
  return rules[index];
}

const ResolvedUnit& usual_unit(Kind kind, System system) {
  return rule_for(kind).usual[static_cast<int>(system)];
}

const ResolvedUnit& unit_at(double si, Kind kind, System system) {
  const ResolvedRule& rule = rule_for(kind);
  const ResolvedUnit& large = rule.large[static_cast<int>(system)];
  return !large.name.plain.empty() && std::abs(si) >= rule.large_from ? large : usual_unit(kind, system);
}

double in_unit(double si, const UnitValue& unit) {
  return si * unit.denominator / unit.numerator - unit.shift;
}

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

/// Digits of a value by the kind's rule, or with the fixed decimals asked for.
std::string digits_of(double magnitude, Kind kind, const FormatOptions& options) {
  if (options.decimals >= 0) return fmt::format("{:.{}f}", magnitude, std::min(options.decimals, 9));
  const int decimals = rule_for(kind).decimals;
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

std::string_view reference_word(Reference reference) {
  switch (reference) {
    case Reference::None:
      return "";
    case Reference::Gauge:
      return "(g)";
    case Reference::Absolute:
      return "(a)";
  }
  return "";
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
  const ResolvedUnit& unit = unit_at(si, kind, system);
  std::string text = signed_number(in_unit(si, unit.value), kind, options, kMinus);
  if (unit.name.print.empty()) return text;
  if (kind != Kind::Angle) text += kThinSpace;  // the degree sign of an angle stands close
  return text.append(unit.name.print).append(reference_word(options.reference));
}

std::string format_plain(double si, Kind kind, System system, const FormatOptions& options) {
  const ResolvedUnit& unit = unit_at(si, kind, system);
  std::string text = signed_number(in_unit(si, unit.value), kind, options, "-");
  if (unit.name.plain.empty()) return text;
  return text.append(" ").append(unit.name.plain).append(reference_word(options.reference));
}

std::string number_text(double si, Kind kind, System system, const FormatOptions& options) {
  return signed_number(to_unit(si, kind, system), kind, options, kMinus);
}

std::string number_text_plain(double si, Kind kind, System system, const FormatOptions& options) {
  return signed_number(to_unit(si, kind, system), kind, options, "-");
}

std::string unit_name(Kind kind, System system, Reference reference) {
  return std::string(usual_unit(kind, system).name.print).append(reference_word(reference));
}

std::string unit_name_plain(Kind kind, System system, Reference reference) {
  return std::string(usual_unit(kind, system).name.plain).append(reference_word(reference));
}

double to_unit(double si, Kind kind, System system) {
  return in_unit(si, usual_unit(kind, system).value);
}

double from_unit(double value, Kind kind, System system) {
  const UnitValue& unit = usual_unit(kind, system).value;
  return (value + unit.shift) * unit.numerator / unit.denominator;
}

std::string format_thickness(double si, System system) {
  return thickness_digits(si, system).append(kThinSpace).append(unit_name(Kind::Length, system));
}

std::string format_thickness_plain(double si, System system) {
  return thickness_digits(si, system).append(" ").append(unit_name_plain(Kind::Length, system));
}

}  // namespace shimwright::units
