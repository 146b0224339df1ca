#include "report/phrases.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace shimwright::report {

std::string shown(const document::Value& value, units::System system) {
  if (value.kind == units::Kind::Number && !value.counted.empty())
    return fmt::format("{:.3g}\xE2\x80\x89{}", value.si, value.counted);
  units::FormatOptions options;
  options.reference = value.reference;
  return units::format(value.si, value.kind, system, options);
}

std::string shown_in_both(const document::Value& value) {
  return shown(value, units::System::Metric) + "  =  " + shown(value, units::System::Imperial);
}

namespace {

/// Digits of a length follow from how closely it is held: a micrometer's for a tenth of a millimetre, a
/// rule's for the sag.
std::string measured(const document::HoldPoint& hold, const document::Value& value, units::System system) {
  if (value.kind != units::Kind::Length) return shown(value, system);
  double width = hold.low && hold.high ? (hold.high->si - hold.low->si) / 2.0 : 0.0;
  if (width <= 0.0 && hold.low) width = std::abs(hold.expected.si - hold.low->si);
  if (width <= 0.0 && hold.high) width = std::abs(hold.expected.si - hold.high->si);
  if (width < 0.03e-3) return units::format_thickness(value.si, system);
  units::FormatOptions options;
  options.decimals = width < 0.5e-3 ? 2 : width < 2e-3 ? 1 : 0;
  if (system == units::System::Imperial) options.decimals += 2;
  return units::format(value.si, value.kind, system, options);
}

}  // namespace

std::string expected_words(const document::HoldPoint& hold, units::System system) {
  return measured(hold, hold.expected, system);
}

std::string capitalised(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::string range_words(const document::HoldPoint& hold, units::System system) {
  if (hold.low && hold.high && hold.low->si == hold.high->si) return "";
  if (hold.low && hold.high)
    return fmt::format("from {} to {}", measured(hold, *hold.low, system),
                       measured(hold, *hold.high, system));
  if (hold.low) return "at least " + measured(hold, *hold.low, system);
  if (hold.high) return "at most " + measured(hold, *hold.high, system);
  return "";
}

}  // namespace shimwright::report
