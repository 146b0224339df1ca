#pragma once
#include <string>
#include <string_view>

#include "document/document_value.h"
#include "units/format.h"

namespace shimwright::document {

/// Numbers inside sentences, in the units of the reader.
struct Phrase {
  units::System system = units::System::Metric;

  std::string operator()(double si, units::Kind kind) const { return units::format(si, kind, system); }
  std::string length(double si) const { return units::format(si, units::Kind::Length, system); }
  /// A height above the sea, in metres or feet: never in the millimetres of a shim.
  std::string altitude(double si) const;
  std::string thickness(double si) const { return units::format_thickness(si, system); }
  std::string force(double si) const { return units::format(si, units::Kind::Force, system); }
  std::string speed(double si) const { return units::format(si, units::Kind::Speed, system); }
  std::string drop(double si) const { return units::format(si, units::Kind::PressureDifference, system); }
  std::string stress(double si) const { return units::format(si, units::Kind::Stress, system); }
  std::string volume(double si) const { return units::format(si, units::Kind::Volume, system); }
  std::string temperature(double si) const { return units::format(si, units::Kind::Temperature, system); }
  std::string torque(double si) const { return units::format(si, units::Kind::Torque, system); }
  /// A pressure in a chamber, absolute in, shown absolute.
  std::string absolute(double si) const;
  /// A gauge pressure, as a hand gauge shows it.
  std::string gauge(double si) const;
  /// A torque in both units, whatever the reader's units: the wrench decides.
  std::string torque_both(double si) const;
  /// A change with its sign: "+12 N".
  std::string change(double si, units::Kind kind) const;
  /// A change of force that a hand could feel, else "less than 0.5 N": more digits would claim what no model
  /// holds.
  std::string force_change(double si) const;
};

/// "one", "two", ... "ten", then digits.
std::string count_word(int count);

/// "1 shim", "3 shims".
std::string counted(int count, std::string_view one, std::string_view several);

/// A part's name as a person says it: "post-nut" -> "post nut", "outer-4.6" -> "outer 4.6"; "6x0.3" stays.
std::string readable(std::string name);

/// First letter large.
std::string sentence_case(std::string text);

/// A computed number for a face.
Value computed(double si, units::Kind kind);
/// A computed pressure, absolute.
Value computed_absolute(double si);
/// A plain count of something.
Value counted_value(double count, std::string noun);
}  // namespace shimwright::document
