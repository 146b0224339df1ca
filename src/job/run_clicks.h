#pragma once
#include <vector>

#include "file/spec.h"
#include "job/run.h"

namespace shimwright::job {

/// Turns the named adjusters of a job; a name that no unit has is a fault (E0904) with the nearest one that
/// is. Tested: run_test.cc
void set_clicks(file::JobSpec& job, const std::vector<ClickSetting>& settings, Diagnostics& diagnostics);

}  // namespace shimwright::job
