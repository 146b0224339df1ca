#pragma once
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "units/kind.h"

namespace shimwright::units {

/// What a pressure is counted from. Every other kind has None.
enum class Reference {
  None,
  Gauge,     // above the outside air; the caller adds the air pressure of the place
  Absolute,  // above vacuum
};
inline constexpr std::array kReferenceWords = {"none", "gauge",
                                               "absolute"};  // in the order of the enumeration

/// A number with its unit, as a person wrote it and in SI.
struct Quantity {
  double si = 0.0;  // Kind's SI unit; kelvin for a temperature, gauge pascal for a Gauge pressure
  Reference reference = Reference::None;  // set for Kind::Pressure alone
  Kind kind = Kind::Number;
  std::string text;  // as typed, without the blanks around it
};

/// The kind of fault, for a stable code; its words are only for reading.
enum class Fault {
  Empty,              // nothing there
  NotANumber,         // a number is missing, or too long to be meant
  DecimalComma,       // 0,15
  UnitMissing,        // a bare number
  UnitUnknown,        // a word that is no unit
  UnitMalformed,      // two slashes, an exponent without a word, ...
  UnitAmbiguous,      // lb for a force, C for a temperature: refused, with what to write
  WrongKind,          // a force where a length belongs
  ReferenceMissing,   // a pressure without (g) or (a)
  ReferenceUnwanted,  // (g) or (a) on anything else
  OutOfRange,         // below absolute zero, or beyond what any machine has
  BottleWeight,       // "5 wt": the weight on a bottle is no viscosity
  StackShape,         // not COUNT x DIAMETER x THICKNESS
};

/// Why a text is no quantity: where in it, and what to do.
struct UnitFault {
  Fault fault = Fault::Empty;
  int offset = 0;        // where, in characters (code points) from the start of the text
  int length = 1;        // how many characters
  std::string what;      // "expected a length with its unit"
  std::string got;       // as typed
  std::string expected;  // what would be accepted, "" when `what` says it
  std::string remedy;    // one imperative sentence
};

/// Reads one quantity: "0.15 mm", "1/8 in", "4.5 N.m", "10 bar(g)", "-5 degC".
///
/// Grammar: NUMBER UNIT. The number has a decimal point, or is a fraction of an inch. The unit is words
/// joined by
///          `.` `*` `·` or `-`, each with an exponent (`mm2`, `mm^2`, `mm²`), and at most one `/`; a product
///          below the `/` is in parentheses. A unit with an offset (degC, degF) cannot be combined.
/// Units:   SI out. See the README of this module for the table and for what is refused on purpose.
/// Tested:  quantity_test.cc, quantity_property_test.cc; every unit against udunits2 in
/// udunits_reference_test.cc
Result<Quantity, UnitFault> parse(std::string_view text, Kind kind);

/// True when a quantity was written in a unit of the inch or the pound: "0.006 in", "40 in.lbf".
bool is_imperial(std::string_view text);

/// Reads "0.2 MPa, 0.5 MPa" or, with the last unit for all, "0.2, 0.5 MPa". A comma between two digits is
/// refused: it might be a decimal comma. Items are separated by a comma and a blank, or by a semicolon.
Result<std::vector<Quantity>, UnitFault> parse_list(std::string_view text, Kind kind);

}  // namespace shimwright::units
