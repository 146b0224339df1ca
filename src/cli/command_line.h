#pragma once
#include <ostream>
#include <string>
#include <vector>

#include "cli/asked.h"
#include "cli/bench.h"
#include "cli/commands.h"
#include "cli/open.h"

namespace shimwright::cli {

/// What the command line says.
struct CommandLine {
  std::string verb;  // empty: it is answered, and the program ends with `exit_code`
  ExitCode exit_code = kFine;
  Asked asked;
  BenchAsked bench;
  OpenRequest open;
  std::string manual_pdf;      // where `manual` writes the whole manual; empty: it prints the page for man
  std::string start = "fork";  // the kind of job that `start` prints
};

/// Reads the verb and its options. Help, version, completions and faults are answered on the streams.
CommandLine read_command_line(const std::vector<std::string>& arguments, std::ostream& out,
                              std::ostream& err);

}  // namespace shimwright::cli
