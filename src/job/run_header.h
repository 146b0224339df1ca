#pragma once
#include <optional>

#include "job/document.h"
#include "job/resolve_conditions.h"
#include "job/run.h"
#include "job/spec.h"

namespace shimwright::job {

Header header_of(const JobSpec& job, const RunOptions& options);
std::optional<RiderSummary> rider_of(const JobSpec& job);
std::optional<MachineSummary> machine_of(const JobSpec& job);

/// As the faces show them.
ConditionSummary condition_summary(const JobSpec& job, const Conditions& conditions);

/// As the technician typed it.
Value typed_value(const Quantity& quantity);

}  // namespace shimwright::job
