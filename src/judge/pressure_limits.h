#pragma once

namespace shimwright::judge {

/// Where the trade keeps gas and air, above the air outside [Pa] (common practice, no source). A finding
/// looks at what is set, and no advice goes beyond `look`.
struct PressureLimits {
  double look = 0.0;
  double stop = 0.0;
};
inline constexpr PressureLimits kReservoirPressure{20e5, 35e5};
/// A reservoir at rest, rod fully in and the oil warm.
inline constexpr PressureLimits kReservoirAtRest{40e5, 70e5};
/// What a spring behind a free piston reaches, by its force over the area of the piston.
inline constexpr double kMostSprungPressure = 5e5;
inline constexpr PressureLimits kAirSpringPressure{15e5, 25e5};

}  // namespace shimwright::judge
