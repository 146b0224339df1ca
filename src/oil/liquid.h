#pragma once

namespace shimwright::oil {

/// What a flow path needs to know of an oil: its state at one temperature. Made by `liquid_at` (oil/oil.h),
/// or written by hand where density and viscosity are known.
struct Liquid {
  double density = 0.0;    // [kg/m^3]
  double viscosity = 0.0;  // dynamic [Pa.s]
};

/// Viscosity over density [m^2/s].
inline double kinematic_viscosity(const Liquid& liquid) {
  return liquid.viscosity / liquid.density;
}

}  // namespace shimwright::oil
