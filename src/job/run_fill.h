#pragma once
#include "document/document_fill.h"
#include "document/document_phrase.h"
#include "resolve/resolve_fill.h"

namespace shimwright::job {

/// Volumes, growth, purge, how to bleed, and the acceptance test read backwards.
document::FillResult fill_result(const resolve::FillModel& model, const document::Phrase& phrase);

}  // namespace shimwright::job
