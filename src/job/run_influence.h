#pragma once
#include <optional>
#include <vector>

#include "job/document_stack.h"
#include "job/phrase.h"
#include "job/resolve_stack.h"
#include "plate/stack.h"

namespace shimwright::job {

struct InfluenceRun {
  double pressure = 0.0;  // [Pa]
  Phrase phrase;
};

/// The lift with all shims of each group thicker by a hundredth of a millimetre, in the order of the groups;
/// nothing where that did not settle.
///
/// Model:  solved anew, not extrapolated: a tenth more thickness is a third more stiffness, and a gap shim
///         made thicker lifts more, not less.
std::vector<std::optional<double>> lifts_thicker(const StackModel& model, const StackGeometry& geometry,
                                                 double pressure, const plate::Options& options,
                                                 plate::Workspace& workspace);

/// How much each disc, each bracket of equal shims and each stage matters at one pressure, from what was
/// found there; nothing where the stack does not bend. `geometry` is that of the same stack.
///
/// Tested: run_influence_test.cc
std::optional<StackInfluence> influence_of(const StackModel& model, const StackGeometry& geometry,
                                           const InfluenceRun& run, const plate::StackInfluence& from,
                                           const std::vector<std::optional<double>>& lifts_thicker);

}  // namespace shimwright::job
