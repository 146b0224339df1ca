#pragma once
#include <string>
#include <vector>

namespace shimwright::cli {

// The command line as it is described once, for --help, the completions and the manual page.

struct OptionUsage {
  std::string name;                  // "--units"; of a place, "JOB"
  bool takes_value = false;          // else a flag
  bool is_place = false;             // a word without a name of its own
  std::string what;                  // one sentence, lower case, without a full stop
  std::string usual;                 // the default, "" when there is none to name
  std::vector<std::string> choices;  // empty: any text
};

struct VerbUsage {
  std::string name;
  std::string what;
  std::string example;  // "shimwright check fork.job.toml"
  std::vector<OptionUsage> options;
};

struct ProgramUsage {
  std::string what;
  std::vector<VerbUsage> verbs;
  std::vector<std::string> notes;  // below the list of verbs: what to read, exit codes
};

/// A completion script for "bash", "zsh" or "fish", made from what the program has, so that it cannot fall
/// behind.
std::string completion_script(const ProgramUsage& program, const std::string& shell);

/// The manual page in roff, section 1 (man-pages(7), groff_man(7)).
std::string manual_page(const ProgramUsage& program, const std::string& version);

}  // namespace shimwright::cli
