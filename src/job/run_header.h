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

}  // namespace shimwright::job
