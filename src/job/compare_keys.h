#pragma once
#include <vector>

#include "job/document_comparison.h"
#include "job/spec.h"

namespace shimwright::job {

/// Keys whose values differ between two jobs and their parts files, in the order of the first, then what only
/// the second has. Values with a unit differ when their SI values do. Tested: compare_test.cc
std::vector<KeyDifference> key_differences(const JobSpec& first, const JobSpec& second);

}  // namespace shimwright::job
