#pragma once
#include "job/document_phrase.h"
#include "job/document_post.h"
#include "job/resolve_post.h"

namespace shimwright::job {

/// What the asked torque does to the joint, or the range that is derived where none is asked.
///
/// Units:  engaged_length: of full thread in the nut [m], > 0.
TorqueResult torque_result(const TorqueModel& model, double engaged_length, const Phrase& phrase);

}  // namespace shimwright::job
