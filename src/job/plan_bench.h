#pragma once
#include <string>
#include <vector>

#include "damper/drive.h"
#include "document/document_bench.h"
#include "document/document_phrase.h"
#include "file/spec.h"

namespace shimwright::job {

/// One motion of the rod that the bench is to do.
struct PlannedRun {
  std::string name;  // "sine 50 mm, 1.6 Hz"
  document::RunKind kind = document::RunKind::Sine;
  damper::Drive drive;
  double stroke = 0.0;     // from end to end [m]
  double middle = 0.0;     // [m]
  double frequency = 0.0;  // [Hz]; 0: none
  double top_speed = 0.0;  // [m/s]
  int n_cycles = 1;
  int samples = 240;                      // of each cycle
  const file::DriveSpec* spec = nullptr;  // null: the bench's own choice
};

/// The runs of one unit. A job without drives gets a sine at the four speeds its kind is judged at, over a
/// sixth of its travel (common practice of benches, no source).
///
/// Errors: a stroke that follows from speed and frequency and goes beyond the travel is a fault at the drive.
/// Tested: run_bench_test.cc
std::vector<PlannedRun> planned_runs(const file::JobSpec& job, const file::UnitSpec& unit,
                                     const document::Phrase& phrase, Diagnostics& diagnostics);

}  // namespace shimwright::job
