#pragma once
#include <functional>
#include <vector>

#include "damper/damper.h"
#include "document/document_stack.h"
#include "job/run_unit.h"

namespace shimwright::job {

/// Takes back each relief (stack_relief.h) after which another stack of its unit would be nearer to bending
/// or cracking than it is now: the force that one valve gives up, the other one takes on. The damper is
/// solved once more for each relief; there are none in a sound job.
///
/// `stacks` are in the order of models.stacks. Tested: safe_reliefs_test.cc; laws of test/laws
using DamperSolve = std::function<damper::SolvedDamper(const resolve::DamperParts&)>;
void keep_safe_reliefs(const UnitModels& models, const UnitRun& run, const DamperSolve& solve,
                       plate::Workspace& workspace, std::vector<document::StackResult>& stacks);

/// Whether a stack of the unit is nearer to bending or cracking with other chambers or laws of its damper.
/// False while the damper is not solved.
bool harms_a_stack(const UnitModels& models, const UnitRun& run, const resolve::DamperParts& parts,
                   const damper::DamperLaws& laws, plate::Workspace& workspace);

}  // namespace shimwright::job
