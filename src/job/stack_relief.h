#pragma once
#include <optional>

#include "document/document_stack.h"
#include "plate/stack.h"
#include "resolve/resolve_stack.h"

namespace shimwright::job {

/// What lowers the stress of a stack whose margin to yield or to the fatigue limit is too small: thinner
/// discs in the place of the worst one and its equal neighbours, so many that they are at least as stiff
/// (stiffness goes with the cube of the thickness). It is computed, and only told when the margin grows.
///
/// Tested: stack_relief_test.cc; laws of test/laws
std::optional<document::StackRelief> stack_relief(const resolve::StackModel& model,
                                                  const document::StackResult& result,
                                                  const plate::Options& options, plate::Workspace& workspace);

}  // namespace shimwright::job
