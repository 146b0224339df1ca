#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "damper/damper.h"
#include "damper/drops.h"

namespace shimwright::damper {
namespace {

/// Both chamber pressures and both drops, all signed as flow in compression.
struct Pressures {
  double compression = 0.0;
  double rod = 0.0;
  double foot_drop = 0.0;
  double piston_drop = 0.0;
};

/// Pressures if oil could be pulled: the margin is read from them.
Pressures at_full_flow(const Chambers& chambers, const FullFlowDrops& drops) {
  const double compression = chambers.reservoir_pressure + drops.foot;
  return {compression, compression - drops.piston, drops.foot, drops.piston};
}

/// Compression with a void behind the piston: what the piston pushes away goes out at both valves.
Pressures with_rod_void(const Chambers& chambers, const DamperLaws& laws, double speed,
                        double full_foot_drop) {
  Pressures p;
  p.rod = chambers.release_pressure;
  const double reservoir = chambers.reservoir_pressure;
  if (!laws.foot) {
    p.compression = reservoir;
    p.piston_drop = reservoir - p.rod;
    return p;
  }

  // flow out rises with the chamber's pressure; less than the whole displacement leaves by the piston alone
  // at the reservoir pressure, more than it at the pressure that drives the whole of it through either valve
  const double q = chambers.piston_area * speed;
  const auto excess = [&](double compression) {
    const flow::FlowPoint foot = valve::flow_at(*laws.foot, compression - reservoir);
    const flow::FlowPoint piston = valve::flow_at(laws.piston, compression - p.rod);
    return flow::FlowPoint{foot.q + piston.q - q, foot.dq_ddp + piston.dq_ddp};
  };
  double low = reservoir;
  bool locked = false;
  double high =
      std::min(reservoir + drop_or_end(*laws.foot, q, locked), p.rod + drop_or_end(laws.piston, q, locked));
  // the pressure of full flow starts the search: at the onset it is the answer
  double guess = std::clamp(reservoir + full_foot_drop, low, high);
  for (int i = 0; i < 200; ++i) {
    const flow::FlowPoint point = excess(guess);
    (point.q > 0.0 ? high : low) = guess;
    double next = guess - point.q / point.dq_ddp;
    if (!(next >= low && next <= high)) next = 0.5 * (low + high);
    const double moved = std::abs(next - guess);
    guess = next;
    if (moved <= 1e-14 * guess) break;
  }
  p.compression = guess;
  p.foot_drop = guess - reservoir;
  p.piston_drop = guess - p.rod;
  return p;
}

/// Rebound with a void in front of the piston: the foot valve gives what the reservoir can push, the piston
/// valve still passes all that the rod chamber loses.
Pressures with_compression_void(const Chambers& chambers, const Pressures& full) {
  Pressures p;
  p.compression = chambers.release_pressure;
  p.foot_drop = chambers.release_pressure - chambers.reservoir_pressure;
  p.piston_drop = full.piston_drop;
  p.rod = p.compression - p.piston_drop;
  return p;
}

/// What the flow of one valve says about the result.
void inherit(const valve::ValveLaw& law, const valve::ValveState& state, const char* name, Outcome& outcome) {
  const valve::DirectionLaw& way = state.drop < 0.0 ? law.rebound : law.compression;
  if (state.q != 0.0 && !way.outcome.ok()) outcome = worse(outcome, way.outcome);
  if (state.beyond_table && outcome.ok()) {
    outcome.status = Status::OutOfRange;
    outcome.note = std::string("the ") + name + " valve passes more flow than its stack was solved for";
  }
}

}  // namespace

SteadyPoint steady_point(const Chambers& chambers, const DamperLaws& laws, double speed) {
  SW_CHECK(std::isfinite(speed), speed);
  SteadyPoint point;
  point.speed = speed;

  // pressures at full flow, and whether they can be
  const FullFlowDrops drops = full_flow_drops(chambers, laws, speed);
  Pressures p = at_full_flow(chambers, drops);
  if (drops.locked)
    point.outcome = {
        .status = Status::Stalled, .residual = 1.0, .note = "a valve passes nothing: the rod is locked"};
  const double critical = speed >= 0.0 ? p.rod : p.compression;
  point.margin = critical - chambers.release_pressure;
  point.cavitated = point.margin < 0.0;
  if (point.cavitated)
    p = speed > 0.0 ? with_rod_void(chambers, laws, speed, drops.foot) : with_compression_void(chambers, p);
  point.p_compression = p.compression;
  point.p_rod = p.rod;

  // forces on the rod, outwards
  const double ring = chambers.piston_area - chambers.rod_area;
  const double pushed = p.compression * chambers.piston_area - p.rod * ring;
  point.force_static = (chambers.reservoir_pressure - chambers.atmospheric_pressure) * chambers.rod_area;
  point.force_damping = pushed - chambers.reservoir_pressure * chambers.rod_area;
  if (speed != 0.0) point.force_friction = std::copysign(chambers.seal_friction, speed);

  // what happens inside the valves
  point.piston = valve::state_at(laws.piston, p.piston_drop);
  inherit(laws.piston, point.piston, "piston", point.outcome);
  if (laws.foot) {
    point.foot = valve::state_at(*laws.foot, p.foot_drop);
    inherit(*laws.foot, point.foot, "foot", point.outcome);
  } else {
    // an open passage: what the piston displaces and its valve does not pass
    point.foot.q = chambers.piston_area * speed - point.piston.q;
  }
  return point;
}

ForceCurve force_curve(const Chambers& chambers, const DamperLaws& laws, std::span<const double> speeds) {
  ForceCurve curve;
  curve.points.reserve(speeds.size());
  for (const double speed : speeds) {
    curve.points.push_back(steady_point(chambers, laws, speed));
    curve.outcome = worse(curve.outcome, curve.points.back().outcome);
  }
  return curve;
}

}  // namespace shimwright::damper
