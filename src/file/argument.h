#pragma once
#include <optional>
#include <string_view>

#include "base/diagnostic.h"

namespace shimwright::file {

/// What is wrong with a value that a command or a request brings in place of a key of the job: it has the
/// bounds of that key. `path`: "bench.oil_temperature"; `si`: the value. Empty: nothing is wrong. Tested:
/// argument_test.cc
std::optional<Diagnostic> argument_fault(std::string_view path, double si);

}  // namespace shimwright::file
