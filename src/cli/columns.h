#pragma once
#include <optional>
#include <string>

#include "cli/table.h"
#include "units/format.h"

namespace shimwright::cli {

/// A column of words, and one of numbers with its unit in the heading.
inline Column words(std::string name) {
  return {std::move(name), "", true};
}
inline Column number(std::string name, units::Kind kind, units::System system,
                     units::Reference reference = units::Reference::None) {
  return {std::move(name), units::unit_name_plain(kind, system, reference), false};
}

/// A number in the unit of its column; a dash when there is none.
inline Cell text(double si, units::Kind kind, units::System system,
                 const units::FormatOptions& options = {}) {
  return {units::number_text_plain(si, kind, system, options), units::to_unit(si, kind, system)};
}
inline Cell text(const std::optional<double>& si, units::Kind kind, units::System system) {
  return si ? text(*si, kind, system) : "-";
}

}  // namespace shimwright::cli
