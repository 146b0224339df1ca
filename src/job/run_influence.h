#pragma once
#include <optional>

#include "job/document_stack.h"
#include "job/phrase.h"
#include "job/resolve_stack.h"
#include "plate/stack.h"

namespace shimwright::job {

struct InfluenceRun {
  double pressure = 0.0;  // [Pa]
  Phrase phrase;
};

/// How much each disc, each bracket of equal shims and each stage matters at one pressure; nothing where the
/// stack does not bend there. `geometry` is that of the same stack.
///
/// Model:  the lift of a whole group made thicker is solved anew, not extrapolated: a tenth more thickness is
///         a third more stiffness, and a gap shim made thicker lifts more, not less.
/// Tested: run_influence_test.cc
std::optional<StackInfluence> influence_of(const StackModel& model, const InfluenceRun& run,
                                           const StackGeometry& geometry, const plate::Options& options,
                                           plate::Workspace& workspace);

}  // namespace shimwright::job
