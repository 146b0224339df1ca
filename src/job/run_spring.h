#pragma once
#include "job/document_phrase.h"
#include "job/document_spring.h"
#include "job/resolve_springs.h"

namespace shimwright::job {

/// Curve, limits and the effects of small changes; without sag, which is a matter of the whole machine end.
///
/// Shape:  effects are read at `sag_travel` [m], at half and at full travel.
SpringResult spring_result(const SpringModel& model, double sag_travel, const Phrase& phrase);

}  // namespace shimwright::job
