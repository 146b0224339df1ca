#pragma once
#include <optional>
#include <string>
#include <vector>

#include "file/spec.h"
#include "resolve/resolve_conditions.h"
#include "resolve/resolve_places.h"
#include "resolve/resolve_report.h"
#include "spring/unit_spring.h"

namespace shimwright::resolve {

/// All springs of one unit, ready to be computed.
struct SpringModel {
  spring::UnitSpring unit;
  spring::Conditions conditions;               // where it works
  std::optional<std::size_t> air_element;      // the main air spring
  std::optional<std::size_t> trapped_element;  // the air over the oil
  std::optional<std::size_t> coil_element;     // the first coil stack
  std::optional<std::size_t> rod_element;      // what the reservoir does to the rod
  FieldPlaces places;
  file::Origin origin;
};

/// The springs of a unit; none when it has none (the other leg springs). What pushes on the rod (gas,
/// compensator) is among them.
///
/// Model:  the oil-volume air of an open leg is sealed fully out, at the air outside, on the bench; chambers
/// are as
///         large as bore, rod and length say, less the oil.
/// Tested: resolve_test.cc
std::optional<SpringModel> resolve_springs(const file::JobSpec& job, const file::UnitSpec& unit,
                                           const Conditions& conditions, ResolveReport& report);

}  // namespace shimwright::resolve
