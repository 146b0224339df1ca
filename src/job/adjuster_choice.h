#pragma once
#include <vector>

#include "resolve/resolve_damper.h"

namespace shimwright::job {

/// What a rider tells apart: less than a twentieth of the force is not felt (common practice, no source;
/// people told forces apart from about 7 % on in [jones1989], from memory).
inline constexpr double kFeltShare = 0.05;

/// The forces of both strokes at a few speeds, at one setting.
struct StrokeForces {
  std::vector<double> compression;
  std::vector<double> rebound;

  const std::vector<double>& of(Stroke stroke) const {
    return stroke == Stroke::Compression ? compression : rebound;
  }
};
StrokeForces stroke_forces(const resolve::DamperParts& parts, const damper::DamperLaws& laws,
                           const std::vector<double>& speeds);

/// The largest change of force in a stroke as a share of the force before [-].
double change_share(const StrokeForces& before, const StrokeForces& after, Stroke stroke);

/// The adjuster that answers a stroke, null when there is none: of those that act in it at least as much as
/// in the other stroke the one that moves the other stroke least, and of such equals the strongest.
///
/// Model:  what acts is asked of the forces at `speeds`, three clicks to each side: no name and no place says
/// it. Tested: adjuster_choice_test.cc; laws of test/laws
const resolve::AdjusterModel* adjuster_for(Stroke stroke, const resolve::DamperParts& parts,
                                           const damper::SolvedDamper& solved,
                                           const std::vector<double>& speeds);

}  // namespace shimwright::job
