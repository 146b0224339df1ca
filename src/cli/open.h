#pragma once
#include <ostream>
#include <span>
#include <string>

#include "server/assets.h"

namespace shimwright::cli {

/// The options of `open`.
struct OpenRequest {
  std::string what;             // a job file, a folder, or empty: the current folder
  int port = 0;                 // 0: a free one
  bool no_browser = false;      // only print the address
  bool lan = false;             // let others on the net in, with a passphrase
  std::string passphrase_file;  // its first line; empty: the program asks at the terminal
  std::string journal;          // a file; empty: the user's own place for data
};

/// Serves the workbench until Ctrl-C. The exit code, with one sentence on `err` when it could not begin.
int open_workbench(const OpenRequest& request, std::span<const server::Asset> page, std::ostream& out,
                   std::ostream& err);

}  // namespace shimwright::cli
