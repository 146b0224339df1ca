#pragma once
#include <numbers>

namespace shimwright::resolve {

/// Of a circle [m^2].
inline double disc_area(double diameter) {
  return 0.25 * std::numbers::pi * diameter * diameter;
}

inline constexpr double kAluminiumExpansion = 23e-6;  // linear, of a body [1/K], from memory

}  // namespace shimwright::resolve
