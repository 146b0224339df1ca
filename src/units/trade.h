#pragma once
#include <string_view>

#include "units/format.h"
#include "units/kind.h"

namespace shimwright::units {

/// One unit of the trade: its names, and what it is worth. SI value = (number + shift) * numerator /
/// denominator.
struct TradeUnit {
  std::string_view print;  // "N·m"
  std::string_view plain;  // "N.m"
  double numerator = 1.0;
  double denominator = 1.0;
  double shift = 0.0;  // of a scale with its own zero
};

/// What a kind is shown in, and how finely. The page has the same table, written from this one:
/// page_table_test.cc.
struct TradeRule {
  TradeUnit usual[2];       // by System
  TradeUnit large[2];       // from large_from on; no names if there is no large unit
  double large_from = 0.0;  // [SI]
  int decimals = -1;        // at most so many, zeros at the end left out; -1: three significant figures
};

const TradeRule& trade_rule(Kind kind);

/// The unit that a column of this kind is headed with.
const TradeUnit& usual_unit(Kind kind, System system);

/// The unit that this very value takes.
const TradeUnit& unit_at(double si, Kind kind, System system);

double in_unit(double si, const TradeUnit& unit);
double out_of_unit(double value, const TradeUnit& unit);

/// Behind the unit of a pressure: "(g)", "(a)".
std::string_view reference_word(Reference reference);

}  // namespace shimwright::units
