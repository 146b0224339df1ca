#pragma once
#include "damper/motion_system.h"

// What the rates and their derivatives are put together from. Private to the module.

namespace shimwright::damper::motion {

/// The present state of a chamber.
struct MotionSystem::Node {
  double pressure = 0.0;
  double air = 0.0;         // at one atmosphere
  double air_volume = 0.0;  // at the pressure
  double oil_volume = 0.0;  // at the pressure, with its bubbles
  double compliance_walls = 0.0;
  Squeezed squeezed;
  double amount = 0.0;          // of oil with its bubbles, at one atmosphere
  double give = 0.0;            // volume per pressure, all together
  double give_by_volume = 0.0;  // its slope

  double gas_volume() const { return air_volume + amount * squeezed.bubbles; }
};

/// Every flow and force of one moment. Flows are per second, at one atmosphere.
struct MotionSystem::Flows {
  double travel = 0.0, speed = 0.0;
  Node c, r, s;
  WarmLaw::Point piston, foot;
  OpeningFlow bleed, port;
  Sloped bleed_open, port_open;
  ReleaseRate release_c, release_r, release_s;
  Sloped lift_goal;
  double float_sign = 1.0;
  double float_rate = 0.0;  // of the lift
  double float_flow = 0.0;  // compression chamber to rod chamber
  HoldingPressure holding;
  Sloped piston_friction;      // pressure over the rate of what is taken: seal and stops
  double stop_by_taken = 0.0;  // how that changes with what is taken
  double enthalpy_out = 0.0;   // of oil outside the port
  Forces forces;
  double heat = 0.0;

  double through_piston() const { return piston.q + bleed.q + float_flow; }
};

}  // namespace shimwright::damper::motion
