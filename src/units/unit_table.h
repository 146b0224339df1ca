#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "units/kind.h"
#include "units/quantity.h"

namespace shimwright::units {

/// One unit with a name of its own. SI value = (number + shift) * numerator / denominator: two factors, so
/// that 0.15 mm is 0.15 / 1000 and so the double nearest to 0.00015.
struct Unit {
  std::string_view name;
  double numerator;
  double denominator;
  Dimension dimension;
  double shift = 0.0;                     // only degC and degF; such a unit cannot be combined
  std::optional<Kind> only = {};          // J is an energy and never a torque
  Reference reference = Reference::None;  // psig, bara
  bool only_in_products = false;          // mPa: alone it is a slip for MPa, in mPa.s it is the trade's word
  bool imperial = false;                  // of the inch, the pound and degrees Fahrenheit
};

/// nullptr when there is no such unit. Case counts: mPa is not MPa.
const Unit* find_unit(std::string_view name);

std::span<const Unit> all_units();

/// A word of the shop that names no unit, or the wrong one, and what is meant by it.
struct ShopWord {
  std::string_view word;
  std::string_view meant;   // "lbf"
  std::string_view reason;  // "lb is a mass"; "" when the word is merely no unit here
};

/// All that may be meant by a word; the first that gives the wanted kind is offered.
std::span<const ShopWord> shop_words();

}  // namespace shimwright::units
