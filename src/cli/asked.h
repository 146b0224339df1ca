#pragma once
#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "job/job_file.h"
#include "job/run.h"
#include "units/format.h"

namespace shimwright::cli {

/// What the command line asked for, as text; every verb uses its part.
struct Asked {
  std::string job, second;
  std::string units = "metric", theory = "large", paper = "a4";
  std::string plot, out;
  std::optional<std::string> pressures, speeds, temperatures;  // an empty text is one, too: a fault
  std::vector<std::string> clicks;
  bool json = false, csv = false;

  units::System system() const {
    return units == "imperial" ? units::System::Imperial : units::System::Metric;
  }
};

struct Streams {
  std::ostream& out;
  std::ostream& err;
};

/// Faults, each with its line of the job file or parts file, then how many there are.
void print_faults(const Streams& s, Diagnostics diagnostics, const job::JobFile& file);

/// A list of quantities from an option; a fault is printed with the place in the text.
std::optional<std::vector<double>> quantities(const Streams& s, const std::string& option,
                                              const std::string& text, units::Kind kind);

/// "compression needle = 8" -> a click setting; a fault is printed.
std::optional<job::ClickSetting> click_setting(const Streams& s, const std::string& text);

}  // namespace shimwright::cli
