#pragma once
#include "job/document_fill.h"
#include "job/document_phrase.h"
#include "job/resolve_fill.h"

namespace shimwright::job {

/// Volumes, growth, purge, how to bleed, and the acceptance test read backwards.
FillResult fill_result(const FillModel& model, const Phrase& phrase);

}  // namespace shimwright::job
