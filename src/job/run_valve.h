#pragma once
#include <vector>

#include "document/document_valve.h"
#include "resolve/resolve_damper.h"
#include "resolve/resolve_valve.h"

namespace shimwright::job {

/// The request for one valve: its solved law, and the flow over the damper's speed.
struct ValveRun {
  const valve::SolvedValve* solved = nullptr;
  double area = 0.0;           // flow of this valve over the damper's speed [m2]
  std::vector<double> speeds;  // of the table [m/s], ascending
};

/// Both directions and all bleeds of a valve; other code adds stacks and post.
document::ValveResult valve_result(const resolve::ValveParts& parts, const ValveRun& run);

/// Pressure drop over the stack of one direction at a damper speed [Pa]; 0 where it has no stack.
double pocket_at_speed(const ValveRun& run, Stroke stroke, double speed);

}  // namespace shimwright::job
