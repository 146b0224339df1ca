#pragma once
#include "job/document.h"
#include "report/article.h"
#include "units/format.h"

namespace shimwright::report {

/// The rider's page: what is set, what to turn for which feel and what that does, other weather, height and
/// weight.
Article settings_guide(const job::ResultDocument& document, units::System system, double width);

}  // namespace shimwright::report
