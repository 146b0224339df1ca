#include "job/adjuster_choice.h"

#include <algorithm>
#include <cmath>

#include "job/run_force.h"

namespace shimwright::job {
namespace {

constexpr int kReach = 3;  // clicks to each side at which an adjuster is asked what it does

/// What a few clicks of an adjuster change, as a share of the force.
struct Action {
  double compression = 0.0;
  double rebound = 0.0;

  double in(Stroke stroke) const { return stroke == Stroke::Compression ? compression : rebound; }
};

Action action_of(const resolve::AdjusterModel& adjuster, const resolve::DamperParts& parts,
                 const damper::SolvedDamper& solved, const std::vector<double>& speeds) {
  const StrokeForces now = stroke_forces(parts, solved.laws, speeds);
  Action action;
  for (const int step : {-kReach, kReach}) {
    const int clicks = std::clamp(adjuster.clicks + step, 0, most_clicks(adjuster));
    const StrokeForces there = stroke_forces(parts, laws_at_clicks(parts, solved, adjuster, clicks), speeds);
    action.compression = std::max(action.compression, change_share(now, there, Stroke::Compression));
    action.rebound = std::max(action.rebound, change_share(now, there, Stroke::Rebound));
  }
  return action;
}

Stroke other(Stroke stroke) {
  return stroke == Stroke::Compression ? Stroke::Rebound : Stroke::Compression;
}

}  // namespace

StrokeForces stroke_forces(const resolve::DamperParts& parts, const damper::DamperLaws& laws,
                           const std::vector<double>& speeds) {
  StrokeForces forces;
  for (const double speed : speeds) {
    forces.compression.push_back(damping_force(parts, laws, Stroke::Compression, speed));
    forces.rebound.push_back(damping_force(parts, laws, Stroke::Rebound, speed));
  }
  return forces;
}

double change_share(const StrokeForces& before, const StrokeForces& after, Stroke stroke) {
  double share = 0.0;
  for (std::size_t i = 0; i < before.of(stroke).size(); ++i) {
    const double force = before.of(stroke)[i];
    if (force > 0.0) share = std::max(share, std::abs(after.of(stroke)[i] - force) / force);
  }
  return share;
}

const resolve::AdjusterModel* adjuster_for(Stroke stroke, const resolve::DamperParts& parts,
                                           const damper::SolvedDamper& solved,
                                           const std::vector<double>& speeds) {
  const resolve::AdjusterModel* best = nullptr;
  Action best_action;
  for (const resolve::AdjusterModel& adjuster : parts.adjusters) {
    if (adjuster.stroke != stroke) continue;
    const Action action = action_of(adjuster, parts, solved, speeds);
    if (action.in(stroke) <= 0.0 || action.in(other(stroke)) > action.in(stroke)) continue;
    // shares of the other stroke in the whole action: a ratio that no division by nothing spoils
    const double disturbs = action.in(other(stroke))*best_action.in(stroke);
    const double best_disturbs = best_action.in(other(stroke))*action.in(stroke);
    const bool better = best == nullptr || disturbs < best_disturbs ||
                        (disturbs == best_disturbs && action.in(stroke) > best_action.in(stroke));
    if (!better) continue;
    best = &adjuster;
    best_action = action;
  }
  return best;
}

}  // namespace shimwright::job
