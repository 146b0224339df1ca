#pragma once
#include <istream>
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
  std::string oil_temperature, air_temperature;                // in place of the job's, "60 degC"
  std::string table;                                           // the one that is wanted as CSV; empty: all
  std::vector<std::string> clicks;
  bool json = false, csv = false;

  units::System system() const {
    return units == "imperial" ? units::System::Imperial : units::System::Metric;
  }
};

struct Streams {
  std::ostream& out;
  std::ostream& err;
  std::istream& in;  // a job whose name is "-"
};

/// The name that means standard input.
inline constexpr const char* kStandardInput = "-";

/// A job from the disk, or from standard input; then its parts files are looked up from the current folder.
job::JobFile read_job(const Streams& s, const std::string& name);

/// Faults, each with its line of the job file or parts file, then how many there are.
void print_faults(const Streams& s, Diagnostics diagnostics, const job::JobFile& file);

/// One quantity from an option, nothing when the option is not there; false after a fault was printed.
bool one_quantity(const Streams& s, const char* option, const std::string& text, units::Kind kind,
                  std::optional<double>& value);

/// A list of quantities from an option; a fault is printed with the place in the text.
std::optional<std::vector<double>> quantities(const Streams& s, const std::string& option,
                                              const std::string& text, units::Kind kind);

/// "compression needle = 8" -> a click setting; a fault is printed.
std::optional<job::ClickSetting> click_setting(const Streams& s, const std::string& text);

}  // namespace shimwright::cli
