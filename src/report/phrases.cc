#include "report/phrases.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace shimwright::report {

std::string shown(const job::Value& value, units::System system) {
  if (value.kind == units::Kind::Number && !value.counted.empty())
    return fmt::format("{:g}\xE2\x80\x89{}", value.si, value.counted);
  units::FormatOptions options;
  options.reference = value.reference;
  return units::format(value.si, value.kind, system, options);
}

std::string shown_in_both(const job::Value& value) {
  return shown(value, units::System::Metric) + "  =  " + shown(value, units::System::Imperial);
}

std::string shown_as_measured(const job::Value& value, units::System system) {
  constexpr double kLongest = 0.1;  // a caliper on the bench reads hundredths up to here [m]
  if (value.kind != units::Kind::Length || std::abs(value.si) > kLongest) return shown(value, system);
  return units::format_thickness(value.si, system);
}

std::string shown_round(double si, units::Kind kind, units::System system) {
  std::string text = units::format(si, kind, system);
  const std::size_t end = std::min(text.find("\xE2\x80\x89"), text.size());
  if (text.find('.') >= end) return text;
  std::size_t last = end;
  while (text[last - 1] == '0') --last;
  if (text[last - 1] == '.') --last;
  return text.erase(last, end - last);
}

std::string capitalised(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::string status_words(const Outcome& outcome) {
  if (outcome.ok()) return "";
  return (outcome.status == Status::OutOfRange ? "Outside the model's range: " : "Not converged: ") +
         outcome.note;
}

std::string range_words(const job::HoldPoint& hold, units::System system) {
  if (hold.low && hold.high)
    return fmt::format("from {} to {}", shown_as_measured(*hold.low, system),
                       shown_as_measured(*hold.high, system));
  if (hold.low) return "at least " + shown_as_measured(*hold.low, system);
  if (hold.high) return "at most " + shown_as_measured(*hold.high, system);
  return "";
}

}  // namespace shimwright::report
