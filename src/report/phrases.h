#pragma once
#include <string>

#include "document/document.h"
#include "units/format.h"

namespace shimwright::report {

/// A value as print shows it: with its unit, or with what it counts.
std::string shown(const document::Value& value, units::System system);

/// The same in both systems, "4.50 N·m = 39.8 in·lbf": torque is never left to one.
std::string shown_in_both(const document::Value& value);

/// The expected value of a hold point, a length with as many digits as its range asks for.
std::string expected_words(const document::HoldPoint& hold, units::System system);

/// With a capital at its start.
std::string capitalised(std::string words);

/// "from 4.0 to 4.5 mm", or "" when only the expected value or any value will do.
std::string range_words(const document::HoldPoint& hold, units::System system);

}  // namespace shimwright::report
