#pragma once
#include "units/kind.h"

/// The dimensions that the trade has quantities of.
namespace shimwright::units::dimensions {

inline constexpr Dimension kNone{};
inline constexpr Dimension kLength{.length = 1};
inline constexpr Dimension kArea{.length = 2};
inline constexpr Dimension kVolume{.length = 3};
inline constexpr Dimension kMass{.mass = 1};
inline constexpr Dimension kForce{.length = 1, .mass = 1, .time = -2};
inline constexpr Dimension kTorque{.length = 2, .mass = 1, .time = -2};
inline constexpr Dimension kPressure{.length = -1, .mass = 1, .time = -2};
inline constexpr Dimension kTemperature{.temperature = 1};
inline constexpr Dimension kSpeed{.length = 1, .time = -1};
inline constexpr Dimension kAcceleration{.length = 1, .time = -2};
inline constexpr Dimension kSpringRate{.mass = 1, .time = -2};
inline constexpr Dimension kDamping{.mass = 1, .time = -1};
inline constexpr Dimension kKinematicViscosity{.length = 2, .time = -1};
inline constexpr Dimension kDynamicViscosity{.length = -1, .mass = 1, .time = -1};
inline constexpr Dimension kDensity{.length = -3, .mass = 1};
inline constexpr Dimension kVolumeRate{.length = 3, .time = -1};
inline constexpr Dimension kPerTemperature{.temperature = -1};
inline constexpr Dimension kAngle{.angle = 1};
inline constexpr Dimension kFrequency{.time = -1};
inline constexpr Dimension kTime{.time = 1};
inline constexpr Dimension kPower{.length = 2, .mass = 1, .time = -3};
inline constexpr Dimension kImpulse{.length = 1, .mass = 1, .time = -1};

}  // namespace shimwright::units::dimensions
