#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/document_value.h"

namespace shimwright::job {

/// One point of the spring curve of a unit.
struct SpringPoint {
  double travel = 0;           // of the unit, from fully out [m]
  double force = 0;            // [N]
  double rate = 0;             // [N/m]
  std::vector<double> shares;  // force of each spring [N] (as SpringResult::names)
};

/// What a small change of one thing does to the spring force.
struct SpringEffect {
  std::string what;      // "0.1 bar more in the positive chamber"
  Value change;          // the change itself
  double at_sag = 0;     // change of force at rider sag (or at a third of the travel) [N]
  double at_middle = 0;  // at half travel [N]
  double at_end = 0;     // at full travel [N]
};

/// Sag of one end of the machine, at the unit or at the wheel as `where` says.
struct SagResult {
  std::string name;          // "static", "rider"
  double load = 0;           // carried by the springs of this end [N]
  double travel = 0;         // at the unit [m]
  double wheel_travel = 0;   // at the wheel [m]
  double share = 0;          // of the full travel
  std::optional<Value> low;  // target, at the wheel, as the job says
  std::optional<Value> high;
  bool usual_target =
      false;  // the job states none: what is usually aimed for off the road (common practice, no source)
  bool topped_out = false;  // the springs push harder than the load even fully out
  bool bottomed = false;    // the load is more than the springs carry at full travel
  std::string knob;  // that alone would bring it to the middle of its target: "positive pressure", "preload"
  std::optional<Value> change;  // of that knob; empty: in the target already, or no change in reach does it
  Outcome outcome;
};

/// The springs of one unit.
struct SpringResult {
  std::vector<std::string> names;   // "air, positive", "air, negative", "coil", "top-out"
  double travel = 0;                // full [m]
  std::vector<SpringPoint> points;  // ascending in travel
  std::vector<SpringEffect> effects;
  std::vector<SagResult> sag;

  std::optional<double> air_end_travel;    // travel at which the air is used up: the leg is full of oil [m]
  std::optional<double> coil_bind_travel;  // travel at which a coil is solid [m]
  std::optional<double>
      positive_pressure;     // set pressure now, absolute, at working temperature and altitude [Pa]
  double preload_force = 0;  // at zero travel [N]
  double end_force = 0;      // at full travel [N]
  Outcome outcome;
};

}  // namespace shimwright::job
