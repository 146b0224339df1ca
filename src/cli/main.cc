#include <csignal>
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include "cli/commands.h"

int main(int argc, char** argv) {
  std::signal(SIGPIPE, SIG_DFL);  // `| head` ends the program quietly
  try {
    return shimwright::cli::run_command({argv + 1, argv + argc}, std::cout, std::cerr,
                                        shimwright::server::page_assets());
  } catch (const std::exception& fault) {
    std::cerr << "This is a fault in the program, not in your file: " << fault.what()
              << "\nKeep this job file and report the fault.\n";
    return shimwright::cli::kBug;
  }
}
