#pragma once
#include <sstream>
#include <string>
#include <vector>

#include "cli/commands.h"

namespace shimwright::cli {

/// What a command line brought.
struct Ran {
  int code;
  std::string out, err;
};

inline Ran run(const std::vector<std::string>& arguments, const std::string& standard_input = "") {
  std::ostringstream out, err;
  std::istringstream in(standard_input);
  const int code = run_command(arguments, out, err, {}, in);
  return {code, out.str(), err.str()};
}

}  // namespace shimwright::cli
