#pragma once
#include <string>
#include <vector>

#include "file/spec.h"

namespace shimwright::file {

/// One key that is not the same in two jobs.
struct KeyChange {
  std::string path;    // "unit[0].foot_valve.compression.stack"
  std::string first;   // as typed; empty: not there
  std::string second;  // as typed; empty: not there
};

/// Keys whose values differ between two jobs and their parts files, in the order of the first, then what only
/// the second has. Values with a unit differ when their SI values do. Tested: compare_test.cc
std::vector<KeyChange> key_changes(const JobSpec& first, const JobSpec& second);

}  // namespace shimwright::file
