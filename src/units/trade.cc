#include "units/trade.h"

#include <array>
#include <cmath>

#include "base/check.h"
#include "units/unit_expression.h"

namespace shimwright::units {
namespace {

/// A unit's name in print and in ASCII; its value is in the one table that parse() uses.
struct Name {
  std::string_view print;
  std::string_view plain;
};

/// A rule as it is written here.
struct Written {
  Kind kind;
  Name metric;
  Name imperial;
  Name metric_large = {};
  Name imperial_large = {};
  double large_from = 0.0;
  int decimals = -1;
};

constexpr std::array kWritten{
    Written{Kind::Length, {"mm", "mm"}, {"in", "in"}, {"m", "m"}, {"ft", "ft"}, 10.0},
    Written{Kind::Area, {"mm²", "mm2"}, {"in²", "in2"}},
    Written{Kind::Volume, {"mL", "mL"}, {"fl oz", "fl oz"}, {"L", "L"}, {}, 10e-3},
    Written{Kind::Mass, {"kg", "kg"}, {"lb", "lb"}},
    Written{Kind::Force, {"N", "N"}, {"lbf", "lbf"}},
    Written{Kind::Torque, {"N·m", "N.m"}, {"in·lbf", "in.lbf"}, {}, {"ft·lbf", "ft.lbf"}, 20.0},
    Written{Kind::Pressure, {"bar", "bar"}, {"psi", "psi"}},
    Written{Kind::PressureDifference, {"bar", "bar"}, {"psi", "psi"}},
    Written{Kind::Stress, {"MPa", "MPa"}, {"ksi", "ksi"}, {"GPa", "GPa"}, {}, 10e9},
    Written{Kind::Temperature, {"°C", "degC"}, {"°F", "degF"}, {}, {}, 0.0, 1},
    Written{Kind::TemperatureDifference, {"K", "K"}, {"Δ°F", "delta_degF"}, {}, {}, 0.0, 1},
    Written{Kind::Speed, {"m/s", "m/s"}, {"in/s", "in/s"}},
    Written{Kind::Acceleration, {"m/s²", "m/s2"}, {"ft/s²", "ft/s2"}},
    Written{Kind::SpringRate, {"N/mm", "N/mm"}, {"lbf/in", "lbf/in"}},
    Written{Kind::Damping, {"N·s/m", "N.s/m"}, {"lbf·s/in", "lbf.s/in"}},
    Written{Kind::KinematicViscosity, {"mm²/s", "mm2/s"}, {"mm²/s", "mm2/s"}},
    Written{Kind::DynamicViscosity, {"mPa·s", "mPa.s"}, {"mPa·s", "mPa.s"}},
    Written{Kind::Density, {"kg/m³", "kg/m3"}, {"lb/ft³", "lb/ft3"}},
    Written{Kind::VolumeRate, {"L/min", "L/min"}, {"in³/s", "in3/s"}},
    Written{Kind::ThermalExpansion, {"1/K", "1/K"}, {"1/K", "1/K"}},
    Written{Kind::Angle, {"°", "deg"}, {"°", "deg"}, {}, {}, 0.0, 1},
    Written{Kind::Frequency, {"Hz", "Hz"}, {"Hz", "Hz"}},
    Written{Kind::Time, {"s", "s"}, {"s", "s"}, {"min", "min"}, {"min", "min"}, 120.0},
    Written{Kind::Power, {"W", "W"}, {"W", "W"}, {"kW", "kW"}, {"kW", "kW"}, 10e3},
    Written{Kind::Energy, {"J", "J"}, {"ft·lbf", "ft.lbf"}},
    Written{Kind::Height, {"m", "m"}, {"ft", "ft"}, {}, {}, 0.0, 0},
    Written{Kind::Fraction, {"%", "%"}, {"%", "%"}, {}, {}, 0.0, 1},
    Written{Kind::Number, {"", ""}, {"", ""}},
};

TradeUnit with_worth(const Name& name) {
  if (name.plain.empty()) return {name.print, name.plain};
  const auto value = unit_value(name.plain);
  SW_CHECK(value.has_value(), name.plain);
  return {name.print, name.plain, value->numerator, value->denominator, value->shift};
}

}  // namespace

const TradeRule& trade_rule(Kind kind) {
  static const auto rules = [] {
    std::array<TradeRule, kWritten.size()> all;
    for (std::size_t i = 0; i < kWritten.size(); ++i) {
      const Written& from = kWritten[i];
      SW_CHECK(static_cast<std::size_t>(from.kind) == i, i);
      all[i] = {{with_worth(from.metric), with_worth(from.imperial)},
                {with_worth(from.metric_large), with_worth(from.imperial_large)},
                from.large_from,
                from.decimals};
    }
    return all;
  }();
  const auto index = static_cast<std::size_t>(kind);
  SW_CHECK(index < rules.size(), index);
  return rules[index];
}

const TradeUnit& usual_unit(Kind kind, System system) {
  return trade_rule(kind).usual[static_cast<int>(system)];
}

const TradeUnit& unit_at(double si, Kind kind, System system) {
  const TradeRule& rule = trade_rule(kind);
  const TradeUnit& large = rule.large[static_cast<int>(system)];
  return !large.plain.empty() && std::abs(si) >= rule.large_from ? large : usual_unit(kind, system);
}

double in_unit(double si, const TradeUnit& unit) {
  return si * unit.denominator / unit.numerator - unit.shift;
}

double out_of_unit(double value, const TradeUnit& unit) {
  return (value + unit.shift) * unit.numerator / unit.denominator;
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

}  // namespace shimwright::units
