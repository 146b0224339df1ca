#include "report/phrases.h"

#include <fmt/format.h>

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

std::string status_words(const Outcome& outcome) {
  if (outcome.ok()) return "";
  return (outcome.status == Status::OutOfRange ? "Outside the model's range: " : "Not converged: ") +
         outcome.note;
}

std::string range_words(const job::HoldPoint& hold, units::System system) {
  if (hold.low && hold.high)
    return fmt::format("from {} to {}", shown(*hold.low, system), shown(*hold.high, system));
  if (hold.low) return "at least " + shown(*hold.low, system);
  if (hold.high) return "at most " + shown(*hold.high, system);
  return "";
}

}  // namespace shimwright::report
