#pragma once
#include <array>
#include <span>
#include <string>
#include <string_view>

namespace shimwright::units {

/// What a quantity is, which is more than its dimension: a torque is no energy, a temperature no difference.
enum class Kind {
  Length,
  Area,
  Volume,
  Mass,
  Force,
  Torque,
  Pressure,            // must say gauge or absolute
  PressureDifference,  // a drop, a threshold: neither gauge nor absolute
  Stress,              // stress or modulus
  Temperature,         // a point on the scale
  TemperatureDifference,
  Speed,
  Acceleration,
  SpringRate,
  Damping,
  KinematicViscosity,
  DynamicViscosity,
  Density,
  VolumeRate,
  ThermalExpansion,
  Angle,
  Frequency,
  Time,
  Power,
  Energy,
  Height,    // above the sea
  Fraction,  // percent or plain
  Number,    // no unit at all
};

/// The word of each kind, in the order of the enumeration: in documents and on the page.
inline constexpr std::array kKindWords = {"length",
                                          "area",
                                          "volume",
                                          "mass",
                                          "force",
                                          "torque",
                                          "pressure",
                                          "pressure difference",
                                          "stress",
                                          "temperature",
                                          "temperature difference",
                                          "speed",
                                          "acceleration",
                                          "spring rate",
                                          "damping",
                                          "kinematic viscosity",
                                          "dynamic viscosity",
                                          "density",
                                          "volume rate",
                                          "thermal expansion",
                                          "angle",
                                          "frequency",
                                          "time",
                                          "power",
                                          "energy",
                                          "height",
                                          "fraction",
                                          "number"};
static_assert(kKindWords.size() == static_cast<std::size_t>(Kind::Number) + 1);

/// Exponents of the base quantities. The angle has its own, so that a degree is no plain number.
struct Dimension {
  int length = 0;
  int mass = 0;
  int time = 0;
  int temperature = 0;
  int angle = 0;

  bool operator==(const Dimension&) const = default;
};

/// What is said about a kind, and what it is measured in.
struct KindFacts {
  Kind kind;
  std::string_view name;              // with its article, "a length"
  Dimension dimension;                // in SI base units
  std::string_view metric_example;    // "0.15 mm"
  std::string_view imperial_example;  // "0.006 in"; the same text as the metric one where the trade has none
};

const KindFacts& facts(Kind kind);

/// The SI unit of a kind: "m", "N m", "kg/m3"; "" for a fraction and a plain number.
std::string_view si_unit(Kind kind);

/// All kinds, in the order of the enumeration.
std::span<const KindFacts> all_kinds();

/// The kinds that a dimension can mean, in words: "a torque or an energy"; "" when there is none.
std::string kinds_of(const Dimension& dimension);

/// `"0.15 mm" (or "0.006 in")`
std::string examples(Kind kind);

}  // namespace shimwright::units
