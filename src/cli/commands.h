#pragma once
#include <iostream>
#include <span>
#include <string>
#include <vector>

#include "server/assets.h"

namespace shimwright::cli {

/// Exit codes. Anything serious is never hidden behind a 0.
enum ExitCode {
  kFine = 0,
  kStopFindings = 1,  // computed, but a finding says stop
  kFaults = 2,        // a fault in a file or in the command line; nothing was computed
  kEnvironment = 3,   // a file could not be read or written
  kBug = 4,           // ours
  kStopped = 5,       // ended by hand; what was finished is shown
};

/// The whole program but for main(): `arguments` without the program's name, `page` for the workbench, `in`
/// for a job whose name is "-".
int run_command(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err,
                std::span<const server::Asset> page = {}, std::istream& in = std::cin);

}  // namespace shimwright::cli
