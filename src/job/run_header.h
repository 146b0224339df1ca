#pragma once
#include <optional>

#include "document/document.h"
#include "file/spec.h"
#include "job/run.h"
#include "resolve/resolve_conditions.h"

namespace shimwright::job {

document::Header header_of(const file::JobSpec& job, const RunOptions& options);
std::optional<document::RiderSummary> rider_of(const file::JobSpec& job);
std::optional<document::MachineSummary> machine_of(const file::JobSpec& job);

/// As the faces show them.
document::ConditionSummary condition_summary(const file::JobSpec& job, const resolve::Conditions& conditions);

/// As the technician typed it.
document::Value typed_value(const file::Quantity& quantity);

/// Turns the named adjusters of a job; a name that no unit has is a fault (E0904) with the nearest one that
/// is. Tested: run_test.cc
void set_clicks(file::JobSpec& job, const std::vector<ClickSetting>& settings, Diagnostics& diagnostics);

}  // namespace shimwright::job
