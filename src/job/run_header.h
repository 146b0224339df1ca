#pragma once
#include <optional>

#include "job/document.h"
#include "job/run.h"
#include "job/spec.h"

namespace shimwright::job {

Header header_of(const JobSpec& job, const RunOptions& options);
std::optional<RiderSummary> rider_of(const JobSpec& job);
std::optional<MachineSummary> machine_of(const JobSpec& job);

/// "fork leg", "closed cartridge"
std::string word(UnitKind kind);
std::string word(Layout layout);

}  // namespace shimwright::job
