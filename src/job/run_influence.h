#pragma once
#include <optional>
#include <vector>

#include "document/document_phrase.h"
#include "document/document_stack.h"
#include "plate/stack.h"
#include "resolve/resolve_stack.h"

namespace shimwright::job {

struct InfluenceRun {
  double pressure = 0.0;  // [Pa]
  document::Phrase phrase;
  std::vector<int> of;  // numbers of the discs to tell of, ascending
};

/// How much discs, each bracket of equal shims and each stage matter at one pressure; nothing where the stack
/// does not bend there. `geometry` is that of the same stack.
///
/// Model:  the lift of a whole group made thicker is solved again, not extrapolated: a tenth more thickness
/// is
///         a third more stiffness, and a gap shim made thicker lifts more, not less.
/// Tested: run_influence_test.cc
std::optional<document::StackInfluence> influence_of(const resolve::StackModel& model,
                                                     const document::StackGeometry& geometry,
                                                     const InfluenceRun& run, const plate::Options& options,
                                                     plate::Workspace& workspace);

}  // namespace shimwright::job
