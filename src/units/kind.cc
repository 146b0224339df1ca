#include "units/kind.h"

#include <fmt/core.h>

#include <array>

#include "base/check.h"
#include "units/dimensions.h"

namespace shimwright::units {
namespace {

constexpr std::array kFacts{
    KindFacts{Kind::Length, "a length", dimensions::kLength, "0.15 mm", "0.006 in"},
    KindFacts{Kind::Area, "an area", dimensions::kArea, "110 mm2", "0.17 in2"},
    KindFacts{Kind::Volume, "a volume", dimensions::kVolume, "380 mL", "12.8 fl oz"},
    KindFacts{Kind::Mass, "a mass", dimensions::kMass, "82 kg", "181 lb"},
    KindFacts{Kind::Force, "a force", dimensions::kForce, "120 N", "27 lbf"},
    KindFacts{Kind::Torque, "a torque", dimensions::kTorque, "4.5 N.m", "40 in.lbf"},
    KindFacts{Kind::Pressure, "a pressure", dimensions::kPressure, "10 bar(g)", "145 psi(g)"},
    KindFacts{Kind::PressureDifference, "a pressure difference", dimensions::kPressure, "0.5 MPa", "73 psi"},
    KindFacts{Kind::Stress, "a stress or modulus", dimensions::kPressure, "206 GPa", "29900 ksi"},
    KindFacts{Kind::Temperature, "a temperature", dimensions::kTemperature, "40 degC", "104 degF"},
    KindFacts{Kind::TemperatureDifference, "a temperature difference", dimensions::kTemperature, "10 K",
              "18 delta_degF"},
    KindFacts{Kind::Speed, "a speed", dimensions::kSpeed, "0.5 m/s", "20 in/s"},
    KindFacts{Kind::Acceleration, "an acceleration", dimensions::kAcceleration, "9.8 m/s2", "32 ft/s2"},
    KindFacts{Kind::SpringRate, "a spring rate", dimensions::kSpringRate, "4.6 N/mm", "26 lbf/in"},
    KindFacts{Kind::Damping, "a damping coefficient", dimensions::kDamping, "900 N.s/m", "5.1 lbf.s/in"},
    KindFacts{Kind::KinematicViscosity, "a kinematic viscosity", dimensions::kKinematicViscosity, "15 mm2/s",
              "15 cSt"},
    KindFacts{Kind::DynamicViscosity, "a dynamic viscosity", dimensions::kDynamicViscosity, "12 mPa.s",
              "12 cP"},
    KindFacts{Kind::Density, "a density", dimensions::kDensity, "860 kg/m3", "53.7 lb/ft3"},
    KindFacts{Kind::VolumeRate, "a flow", dimensions::kVolumeRate, "12 L/min", "12.2 in3/s"},
    KindFacts{Kind::ThermalExpansion, "a thermal expansion", dimensions::kPerTemperature, "7e-4 1/K",
              "3.9e-4 1/delta_degF"},
    KindFacts{Kind::Angle, "an angle", dimensions::kAngle, "30 deg", "30 deg"},
    KindFacts{Kind::Frequency, "a frequency", dimensions::kFrequency, "1.7 Hz", "100 rpm"},
    KindFacts{Kind::Time, "a time", dimensions::kTime, "5 min", "5 min"},
    KindFacts{Kind::Power, "a power", dimensions::kPower, "80 W", "0.1 hp"},
    KindFacts{Kind::Energy, "an energy", dimensions::kTorque, "60 J", "44 ft.lbf"},
    KindFacts{Kind::Height, "a height above the sea", dimensions::kLength, "200 m", "650 ft"},
    KindFacts{Kind::Fraction, "a fraction", dimensions::kNone, "35 %", "0.35"},
    KindFacts{Kind::Number, "a plain number", dimensions::kNone, "0.7", "0.7"},
};

/// In the order of the enumeration.
constexpr std::array<std::string_view, kFacts.size()> kSiUnits = {
    "m",     "m2",   "m3",   "kg",    "N",    "N m", "Pa",  "Pa", "Pa", "K", "K", "m/s", "m/s2", "N/m",
    "N s/m", "m2/s", "Pa s", "kg/m3", "m3/s", "1/K", "rad", "Hz", "s",  "W", "J", "m",   "",     ""};

}  // namespace

const KindFacts& facts(Kind kind) {
  const auto index = static_cast<std::size_t>(kind);
  SW_CHECK(index < kFacts.size(), index);
  SW_CHECK(kFacts[index].kind == kind, index);
  return kFacts[index];
}

std::string_view si_unit(Kind kind) {
  const auto index = static_cast<std::size_t>(kind);
  SW_CHECK(index < kSiUnits.size(), index);
  return kSiUnits[index];
}

std::span<const KindFacts> all_kinds() {
  return kFacts;
}

std::string kinds_of(const Dimension& dimension) {
  std::string names;
  for (const KindFacts& one : kFacts) {
    // the three pressures and the two temperatures differ in what they are counted from, not in their unit
    const bool twin = one.kind == Kind::PressureDifference || one.kind == Kind::Stress ||
                      one.kind == Kind::TemperatureDifference || one.kind == Kind::Height ||
                      one.kind == Kind::Number;
    if (twin || one.dimension != dimension) continue;
    if (!names.empty()) names += " or ";
    names += one.name;
  }
  return names;
}

std::string examples(Kind kind) {
  const KindFacts& one = facts(kind);
  if (one.metric_example == one.imperial_example) return fmt::format("\"{}\"", one.metric_example);
  return fmt::format("\"{}\" (or \"{}\")", one.metric_example, one.imperial_example);
}

}  // namespace shimwright::units
