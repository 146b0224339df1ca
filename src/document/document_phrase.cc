#include "document/document_phrase.h"

#include <fmt/core.h>

#include <array>
#include <cctype>
#include <cmath>

namespace shimwright::document {

std::string Phrase::altitude(double si) const {
  return units::format(si, units::Kind::Height, system);
}

std::string Phrase::absolute(double si) const {
  return units::format(si, units::Kind::Pressure, system, {.reference = units::Reference::Absolute});
}

std::string Phrase::gauge(double si) const {
  return units::format(si, units::Kind::Pressure, system, {.reference = units::Reference::Gauge});
}

std::string Phrase::torque_both(double si) const {
  const auto other = system == units::System::Metric ? units::System::Imperial : units::System::Metric;
  return torque(si) + " (" + units::format(si, units::Kind::Torque, other) + ")";
}

std::string Phrase::change(double si, units::Kind kind) const {
  return units::format(si, kind, system, {.sign = true});
}

std::string Phrase::force_change(double si) const {
  constexpr double kFelt = 0.5;
  if (std::abs(si) < kFelt) return "less than " + force(kFelt);
  return change(si, units::Kind::Force);
}

std::string count_word(int count) {
  static constexpr std::array words = {"no",  "one",   "two",   "three", "four", "five",
                                       "six", "seven", "eight", "nine",  "ten"};
  if (count < 0 || count >= static_cast<int>(words.size())) return std::to_string(count);
  return words[static_cast<std::size_t>(count)];
}

std::string counted(int count, std::string_view one, std::string_view several) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : several);
}

std::string readable(std::string name) {
  for (std::size_t i = 1; i + 1 < name.size(); ++i) {
    const bool joins = std::isalpha(static_cast<unsigned char>(name[i - 1])) != 0 &&
                       std::isalnum(static_cast<unsigned char>(name[i + 1])) != 0;
    if ((name[i] == '-' || name[i] == '_') && joins) name[i] = ' ';
  }
  return name;
}

std::string sentence_case(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

Value computed(double si, units::Kind kind) {
  return {.si = si, .kind = kind};
}

Value computed_absolute(double si) {
  return {.si = si, .kind = units::Kind::Pressure, .reference = units::Reference::Absolute};
}

Value counted_value(double count, std::string noun) {
  return {.si = count, .kind = units::Kind::Number, .counted = std::move(noun)};
}

}  // namespace shimwright::document
