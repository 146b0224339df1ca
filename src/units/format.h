#pragma once
#include <string>
#include <string_view>

#include "units/kind.h"
#include "units/quantity.h"

namespace shimwright::units {

/// Which units a reader wants to see. The number itself is the same.
enum class System { Metric, Imperial };

struct FormatOptions {
  Reference reference = Reference::None;  // for a pressure: shown behind the unit
  bool sign = false;                      // a change: "+12 N"
  int decimals = -1;                      // fixed digits behind the point; -1 is the kind's own rule
};

/// A number with its unit for a page: three significant figures unless the trade uses fewer, a thin space
/// (U+2009), the minus of print (U+2212), "°C" and "N·m".
///
/// Units:  si in the kind's SI unit; finite. A large or a small value takes the unit the trade takes:
///         a torque in imperial changes from in·lbf to ft·lbf at 20 N·m, a length from mm to m at 10 m.
/// Tested: format_test.cc; format_property_test.cc: what is printed reads back within the printed digits
std::string format(double si, Kind kind, System system, const FormatOptions& options = {});

/// The same without the zeros at the end that only say how it was computed: "0.05 m/s".
std::string format_round(double si, Kind kind, System system);

/// The same for a terminal, a CSV or JSON: a blank, a hyphen for minus, "degC", "N.m". ASCII only.
std::string format_plain(double si, Kind kind, System system, const FormatOptions& options = {});

/// The number of format() alone, for a table whose heading holds the unit. Always in unit_name()'s unit.
std::string number_text(double si, Kind kind, System system, const FormatOptions& options = {});
std::string number_text_plain(double si, Kind kind, System system, const FormatOptions& options = {});

/// The trade's unit for a kind: "mm", "in·lbf", "bar(g)"; "" for a plain number.
std::string unit_name(Kind kind, System system, Reference reference = Reference::None);
std::string unit_name_plain(Kind kind, System system, Reference reference = Reference::None);

/// From SI to the unit that unit_name() names, and back.
double to_unit(double si, Kind kind, System system);
double from_unit(double value, Kind kind, System system);

/// A thickness as the trade writes it: "0.15 mm", "0.0059 in"; a third decimal of a millimetre when it is
/// there.
std::string format_thickness(double si, System system);
std::string format_thickness_plain(double si, System system);

}  // namespace shimwright::units
