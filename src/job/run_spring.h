#pragma once
#include "document/document_phrase.h"
#include "document/document_spring.h"
#include "resolve/resolve_springs.h"

namespace shimwright::job {

/// Curve, limits and the effects of small changes; without sag, which is a matter of the whole machine end.
///
/// Shape:  effects are read at `sag_travel` [m], at half and at full travel.
document::SpringResult spring_result(const resolve::SpringModel& model, double sag_travel,
                                     const document::Phrase& phrase);

}  // namespace shimwright::job
