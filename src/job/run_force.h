#pragma once
#include <functional>
#include <vector>

#include "document/document_force.h"
#include "document/document_phrase.h"
#include "resolve/resolve_damper.h"

namespace shimwright::job {

struct RunMemo;  // run_memo.h

struct ForceRun {
  const damper::SolvedDamper* solved = nullptr;
  std::vector<double> speeds;  // magnitudes, ascending [m/s]
  file::JudgedSpeeds judged;
  RunMemo* memo = nullptr;               // null: everything is computed
  const file::UnitSpec* unit = nullptr;  // whose damper it is: what a cure changes stands there
  // whether a change of pressure or of clicks brings a stack nearer to bending or cracking; empty: not asked
  std::function<bool(const resolve::DamperParts&, const damper::DamperLaws&)> harms_a_stack;
};

/// Curves, families of clicks, cavitation and the four-speed table of one damper.
document::ForceResult force_result(const resolve::DamperParts& parts, const ForceRun& run,
                                   const document::Phrase& phrase);

/// Damping force in one stroke at one speed, at the clicks of `laws` [N], positive against the motion.
double damping_force(const resolve::DamperParts& parts, const damper::DamperLaws& laws, Stroke stroke,
                     double speed);

/// The laws with one adjuster turned, the stacks as they were solved.
damper::DamperLaws laws_at_clicks(const resolve::DamperParts& parts, const damper::SolvedDamper& solved,
                                  const resolve::AdjusterModel& adjuster, int clicks);

/// Clicks to turn one adjuster (negative: in) so that the force at one speed comes nearest to what it is now,
/// with another liquid in the damper; 0 where a click would not be felt.
int restoring_clicks(const resolve::DamperParts& parts, const damper::SolvedDamper& solved,
                     const resolve::AdjusterModel& adjuster, const oil::Liquid& liquid, double speed);

/// How far out an adjuster is drawn: as stated, or half as far again as it is set, 24 clicks at the least.
int most_clicks(const resolve::AdjusterModel& adjuster);

}  // namespace shimwright::job
