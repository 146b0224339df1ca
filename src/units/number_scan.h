#pragma once
#include <cstddef>
#include <string>
#include <string_view>

#include "units/quantity.h"

namespace shimwright::units {

/// A number at the start of a text.
struct ScannedNumber {
  double value = 0.0;
  std::size_t n_bytes = 0;   // of the number, without what follows
  bool is_fraction = false;  // 1/8 or 1 1/8
};

/// Bytes of blanks at `offset`: space, tab, no-break and thin spaces.
std::size_t blanks_at(std::string_view text, std::size_t offset);

/// Without the blanks around it; the view points into `text`.
std::string_view trimmed(std::string_view text);

/// Reads "+0.15", "−5", "1e-6", "1/8", "1 1/8" at the very start of the text. A fault's place is relative to
/// it.
Result<ScannedNumber, UnitFault> scan_number(std::string_view text);

/// The text with a point for each comma between two digits.
std::string with_points(std::string_view text);

/// Adds to the remedy of a fault what else is wrong.
void tell_too(const UnitFault& next, UnitFault& fault);

/// What `read` makes of a text. If the text has a decimal comma, the fault also says what would be
/// wrong with a point in its place, so that the user sees both faults at once.
template <typename Read>
auto read_past_commas(std::string_view text, Read&& read) {
  auto result = read(text);
  if (result || result.error().fault != Fault::DecimalComma) return result;
  const auto next = read(with_points(text));
  if (!next) tell_too(next.error(), result.error());
  return result;
}

}  // namespace shimwright::units
