#pragma once
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "base/result.h"
#include "document/document.h"
#include "file/spec.h"
#include "units/format.h"

namespace shimwright::job {

/// Calls `one(i)` once for each i in [0, n), in any order and on any thread, and returns when all are done.
using Executor = std::function<void(std::size_t n, const std::function<void(std::size_t)>& one)>;

struct RunMemo;  // run_memo.h

/// Which sections of the result document are wanted. What a section needs is computed with it.
struct Sections {
  bool stacks = false;   // every stack: points, path, influence
  bool valves = false;   // laws
  bool force = false;    // curves, family of clicks, cavitation, key forces
  bool springs = false;  // curve, effects, sag
  bool oils = false;
  bool assembly = false;  // ledger, spacers, torque, directions
  bool fill = false;
  bool pick_list = false;
  bool plan = false;      // the build sheet's steps; brings assembly and fill
  bool settings = false;  // the rider's guide; brings force and springs
  bool findings = false;  // judged from all the sections above, so it brings them
  // with the stacks: shapes of three states, and what every disc does, not the idle alone
  bool stack_details = true;
  // beside the plots: points of the force curves, all families of clicks, lines of lift
  bool curves = true;

  static Sections all() { return {true, true, true, true, true, true, true, true, true, true, true}; }
  /// What a person at work looks at: without what only prints.
  static Sections live() {
    Sections sections = all();
    sections.plan = sections.settings = sections.pick_list = false;
    sections.oils = false;  // those in use come with the findings; alone it brings every other oil there is
    sections.stack_details = false;  // who looks at a stack bends it as the hand asks: StackViewer
    sections.curves = false;         // who looks at a curve looks at its plot
    return sections;
  }
};

/// A setting other than the job's, for one run.
struct ClickSetting {
  std::string adjuster;  // name of the needle, in every unit that has it, or name_in_unit()
  int clicks = 0;        // out from seated
};

/// What a setting calls the needle of one unit alone: "fork leg: rebound needle".
std::string name_in_unit(std::string_view unit, std::string_view adjuster);

struct RunOptions {
  Sections sections = Sections::all();
  Theory theory = Theory::Large;
  units::System system = units::System::Metric;  // of the numbers inside sentences; all other numbers are SI

  /// If the job cannot give a requested section: a fault that names what is missing (a verb that shows this
  /// part), or only a note among the findings (check, packet).
  bool must_have = false;

  std::vector<double> speeds;  // of the force curves [m/s]; empty: 60 from 0.01 m/s to what the kind of unit
                               // sees (JudgedSpeeds)
  std::vector<double>
      pressures;  // of the stack points [Pa]; empty: those of the lone stack, or the drops at the key speeds
  std::vector<ClickSetting> clicks;
  std::optional<double> oil_temperature;  // of the work, in place of the job's [K]
  std::optional<double> air_temperature;  // of air springs at work, in place of the job's [K]
  std::vector<double> oil_temperatures;   // rows of the oil table [K]; empty: 0 to 100 degC in tens

  /// Gets the fraction done and the name of the next step; false ends the run. Empty: never called.
  std::function<bool(double done, std::string_view next)> progress;

  /// Where what earlier runs computed is looked up; null: nowhere. The result is the same to the last bit.
  RunMemo* memo = nullptr;

  Executor run_all;  // of parts that do not need each other; empty: one after the other, with the same bits
};

/// Why there is no document.
struct RunFault {
  Diagnostics diagnostics;  // by place in the job file; empty when cancelled
  bool cancelled = false;
};

/// One job from its spec to the document: resolve to models, compute, judge.
///
/// Model:  `spec` was read without a stop (has_stop is false); what physics refuses comes back as diagnostics
/// with the
///         place in the file and the user's unit. Numerical trouble is no fault: it is the Outcome beside
///         each result.
/// Tested: run_test.cc, run_closed_form_test.cc, run_golden_test.cc
Result<document::ResultDocument, RunFault> run_job(const file::JobSpec& spec, const RunOptions& options);

}  // namespace shimwright::job
