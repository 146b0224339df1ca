#pragma once
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "document/document_phrase.h"
#include "job/run.h"
#include "job/run_bench.h"

namespace shimwright::job {

/// What is asked for beside a job is judged as if its file stated it: a value outside the bounds that the
/// schema has for the key is a fault (E0905), in the units of the reader.
///
/// Tested: asked_values_test.cc
void judge_asked(const RunOptions& options, Diagnostics& diagnostics);
void judge_asked(const BenchOptions& options, Diagnostics& diagnostics);

/// The temperatures that were asked for, in the place of the job's.
void set_conditions(file::JobSpec& job, const RunOptions& options);

}  // namespace shimwright::job
