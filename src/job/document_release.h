#pragma once
#include <string>
#include <vector>

#include "base/outcome.h"

namespace shimwright::job {

/// Push the rod in, let go: one state of the unit.
struct ReleaseCase {
  std::string name;          // "no air", "2 mL of air", "dragging seal"
  double air = 0;            // left in the unit, at one atmosphere [m3]
  double seal_friction = 0;  // [N]
  double push_force = 0;     // that holds the rod in [N]
  bool fully_out = false;
  double rest_travel = 0;  // where it stops, from fully out [m]
  double time = 0;         // until then [s]
  double half_time = 0;    // until half of the push has come back [s]; 0: it never does
  double top_speed = 0;    // [m/s]
  double reads_as = 0;     // what it stops short, times the rod's area: what the test is usually read as [m3]
  Outcome outcome;
};

/// The try by hand of a finished unit, made physical.
struct ReleaseTest {
  double pushed_to = 0;       // [m]
  double moving_mass = 0;     // [kg]
  double rod_area = 0;        // [m2]
  bool springs_in = false;    // main spring, air spring and stops push too
  double balance_travel = 0;  // where springs that pull near fully out hold the rod; 0: fully out [m]
  std::vector<ReleaseCase> cases;
  std::string words;  // what to see, in one or two sentences
  Outcome outcome;    // the worst of all
};

}  // namespace shimwright::job
