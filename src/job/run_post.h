#pragma once
#include "document/document_phrase.h"
#include "document/document_post.h"
#include "file/spec.h"
#include "resolve/resolve_post.h"

namespace shimwright::job {

/// Ledger, spacers, thread and torque of one post.
document::PostResult post_result(const resolve::PostModel& model, const document::Phrase& phrase);

/// The right way round of each directional part of a valve: what the job says of a piece, else the trade's
/// rule.
std::vector<document::DirectionNote> direction_notes(const file::ValveSpec& valve,
                                                     const std::string& picture_name);

}  // namespace shimwright::job
