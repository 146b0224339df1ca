#pragma once
#include <vector>

#include "job/run.h"
#include "job/spec.h"

namespace shimwright::job {

/// Turns the named adjusters of a job; a name that no unit has is a fault (E0904) with the nearest one that
/// is. Tested: run_test.cc
void set_clicks(JobSpec& job, const std::vector<ClickSetting>& settings, Diagnostics& diagnostics);

}  // namespace shimwright::job
