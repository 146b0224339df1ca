#pragma once
#include "job/run_bench.h"

namespace shimwright::cli {

/// Runs tasks on `n_threads` threads (0: one for each core), the next free one taking the next task. A fault
/// of the program in one of them comes out of the call.
job::Executor on_cores(unsigned n_threads);

}  // namespace shimwright::cli
