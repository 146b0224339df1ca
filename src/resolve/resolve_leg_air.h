#pragma once
#include <optional>

#include "assembly/fill.h"
#include "file/spec.h"

namespace shimwright::resolve {

/// The outer tube as the fill states it; nothing when something is left out or cannot be.
std::optional<assembly::OuterTube> outer_tube(const file::UnitSpec& unit);

/// From the rim of the outer tube down to its oil, leg fully in and spring out [m]: as stated for the air,
/// else for the tube, else what the volume of the outer oil leaves in the tube.
/// Tested: resolve_reservoir_test.cc
std::optional<double> outer_level(const file::UnitSpec& unit);

/// The air over the oil of a leg.
struct LegAir {
  double area = 0.0;      // that the leg squeezes [m^2]
  double volume = 0.0;    // leg fully out [m^3]
  double pressure = 0.0;  // when closed, fully out, absolute [Pa]
};

/// Nothing where no air is stated, or no level follows.
std::optional<LegAir> leg_air(const file::UnitSpec& unit, double ambient_pressure);

}  // namespace shimwright::resolve
