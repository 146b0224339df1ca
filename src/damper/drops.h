#pragma once
#include <cmath>

#include "damper/damper.h"

// Drops over both valves for full flow, signed as flow in compression. Private to the module.

namespace shimwright::damper {

struct FullFlowDrops {
  double foot = 0.0;    // [Pa]
  double piston = 0.0;  // [Pa]
  bool locked = false;  // a valve passes nothing: the last drop of its table is used
};

inline double drop_or_end(const valve::ValveLaw& law, double q, bool& locked) {
  const double drop = valve::drop_at(law, q);
  if (std::isfinite(drop)) return drop;
  locked = true;
  return std::copysign(valve::largest_drop(q < 0.0 ? law.rebound : law.compression), q);
}

/// speed positive in compression.
inline FullFlowDrops full_flow_drops(const Chambers& chambers, const DamperLaws& laws, double speed) {
  FullFlowDrops drops;
  if (laws.foot) drops.foot = drop_or_end(*laws.foot, chambers.rod_area * speed, drops.locked);
  drops.piston = drop_or_end(laws.piston, (chambers.piston_area - chambers.rod_area) * speed, drops.locked);
  return drops;
}

}  // namespace shimwright::damper
