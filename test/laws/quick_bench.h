#pragma once
#include "file/spec.h"

namespace shimwright::laws {

/// The same job with a bench that is quick and coarse: two cycles, few samples, one run for each drive.
file::JobSpec with_quick_bench(file::JobSpec job);

}  // namespace shimwright::laws
