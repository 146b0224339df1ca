#pragma once
#include <numbers>

namespace shimwright::assembly {

inline constexpr double kMm = 1e-3;
inline constexpr double kMm2 = 1e-6;
inline constexpr double kCm3 = 1e-6;

inline double circle(double diameter) {
  return 0.25 * std::numbers::pi * diameter * diameter;
}

}  // namespace shimwright::assembly
