#pragma once
#include "document/document_phrase.h"
#include "document/document_post.h"
#include "resolve/resolve_post.h"

namespace shimwright::job {

/// What the asked torque does to the joint, or the range that is derived where none is asked.
///
/// Units:  engaged_length: of full thread in the nut [m], > 0.
document::TorqueResult torque_result(const resolve::TorqueModel& model, double engaged_length,
                                     const document::Phrase& phrase);

}  // namespace shimwright::job
