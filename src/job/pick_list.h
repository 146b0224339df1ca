#pragma once
#include "document/document.h"
#include "document/document_plan.h"
#include "file/spec.h"
#include "units/format.h"

namespace shimwright::job {

/// Every part that the build takes out of the drawer, over all equal units: shims, spacers as chosen, nuts,
/// springs, oil. Equal parts of one stack are one line; what is in hand is compared over all lines of the
/// same part. Tested: pick_list_test.cc
document::PickList pick_list(const file::JobSpec& job, const document::ResultDocument& document,
                             units::System system = units::System::Metric);

}  // namespace shimwright::job
