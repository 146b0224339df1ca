#pragma once
#include "document/document.h"
#include "report/article.h"
#include "units/format.h"

namespace shimwright::report {

/// The sheet above the vice: what to pick, in which order to work, where to stop and measure, how to fill,
/// bleed and accept. `width` is that of its figures [pt].
Article build_sheet(const document::ResultDocument& document, units::System system, double width);

/// Job, revision and date as every foot shows them.
Foot foot_of(const document::ResultDocument& document);

}  // namespace shimwright::report
