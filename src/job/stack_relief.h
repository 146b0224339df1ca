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

/// The stack with its relief in it.
plate::Stack relieved(const plate::Stack& stack, const document::StackRelief& relief);

/// How near a stack is to bending for good or to cracking at its points, the larger the graver: 0 is fine,
/// each limit of judge/stack_limits.h that is passed counts, and 4 is a stack that does not settle.
int gravity_of(const plate::StackResult& solved);

}  // namespace shimwright::job
