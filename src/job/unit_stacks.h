#pragma once
#include <vector>

#include "job/run_unit.h"

namespace shimwright::job {

/// Every stack of a unit at the pressures that it sees: those at the key speeds once the damper is solved,
/// those that were asked, or usual ones. Same length and order as models.stacks.
std::vector<document::StackResult> stack_results(const UnitModels& models, const UnitRun& run,
                                                 plate::Workspace& workspace);

/// The pressures of one of them, ascending.
std::vector<double> stack_pressures(const UnitModels& models, const PlacedStack& stack, const UnitRun& run);

/// Puts them in their valves and strokes.
void add_stacks(const UnitModels& models, std::vector<document::StackResult> stacks,
                document::UnitResult& result);

}  // namespace shimwright::job
