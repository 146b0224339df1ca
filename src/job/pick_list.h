#pragma once
#include "job/document.h"
#include "job/document_plan.h"
#include "job/spec.h"
#include "units/format.h"

namespace shimwright::job {

/// Every part that the build takes out of the drawer, over all equal units: shims, spacers as chosen, nuts,
/// springs, oil. Equal parts of one stack are one line; what is in hand is compared over all lines of the
/// same part. Tested: pick_list_test.cc
PickList pick_list(const JobSpec& job, const ResultDocument& document,
                   units::System system = units::System::Metric);

}  // namespace shimwright::job
