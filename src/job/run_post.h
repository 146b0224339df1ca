#pragma once
#include "job/document_phrase.h"
#include "job/document_post.h"
#include "job/resolve_post.h"
#include "job/spec.h"

namespace shimwright::job {

/// Ledger, spacers, thread and torque of one post.
PostResult post_result(const PostModel& model, const Phrase& phrase);

/// The right way round of each directional part of a valve: what the job says of a piece, else the trade's
/// rule.
std::vector<DirectionNote> direction_notes(const ValveSpec& valve, const std::string& picture_name);

}  // namespace shimwright::job
