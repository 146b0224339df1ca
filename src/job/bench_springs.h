#pragma once
#include <optional>
#include <vector>

#include "damper/motion_model.h"
#include "document/document_bench.h"
#include "document/document_phrase.h"
#include "resolve/resolve_springs.h"

namespace shimwright::job {

/// The springs that go on the bench with a unit's damper.
struct SpringsOnBench {
  std::optional<damper::SpringsBeside> springs;  // empty: none are known
  document::BenchSprings told;                   // what the document says about them; `in` as requested
};

/// All springs of a unit but those that are in its damper already: the push of its reservoir on the rod, and
/// the air over the oil where that is the reservoir.
///
/// Model:  the unit's own springs (resolve_springs), their air as warm as the bench.
/// Errors: faults are reported only where the springs are needed: in the runs or in the hand test.
/// Tested: bench_springs_test.cc
SpringsOnBench springs_on_bench(const file::JobSpec& job, const file::UnitSpec& unit,
                                const resolve::Conditions& conditions, const damper::MotionModel& damper,
                                const document::Phrase& phrase, resolve::ResolveReport& report);

/// Whether the job has the springs in, in the runs of the drives and in the try by hand.
bool springs_in_runs(const file::JobSpec& job);
bool springs_in_hand_test(const file::JobSpec& job);

}  // namespace shimwright::job
