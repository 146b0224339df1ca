#pragma once
#include <cstddef>
#include <functional>
#include <optional>
#include <string_view>

#include "document/document_bench.h"
#include "job/run.h"

namespace shimwright::job {

struct BenchOptions {
  Theory theory = Theory::Large;
  units::System system = units::System::Metric;  // of the numbers inside sentences
  std::vector<ClickSetting> clicks;
  std::optional<double> air_in_rod_chamber;  // in place of the job's air left [m3]
  std::optional<double> oil_temperature;     // at the start, in place of the job's [K]
  std::optional<bool> with_springs;          // main spring, air spring and stops in, in place of the job's

  Executor run_all;  // empty: one after the other. The result is the same to the last bit either way

  /// Gets the fraction done and what was last started, from any thread but never from two at once, some
  /// thousand times a second: after each cycle and every damper::kStepsBetweenAsks steps, wherever the work
  /// stands. False ends the bench, and what is finished is kept.
  std::function<bool(double done, std::string_view what)> progress;
};

/// A job on the bench: each drive of each unit, the try by hand, and what is to be said about them.
///
/// Model:  every run starts from rest at its own oil temperature and is independent of all others.
/// Errors: as run_job; there is a document even when it was stopped.
/// Tested: run_bench_test.cc, run_bench_golden_test.cc
Result<document::BenchDocument, RunFault> run_bench_job(const file::JobSpec& spec,
                                                        const BenchOptions& options);

}  // namespace shimwright::job
