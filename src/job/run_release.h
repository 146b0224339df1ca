#pragma once
#include <functional>
#include <optional>
#include <vector>

#include "damper/motion_model.h"
#include "document/document_bench.h"
#include "document/document_phrase.h"
#include "file/spec_bench.h"

namespace shimwright::job {

/// What a stop short says of a unit without springs, and how far short is accepted: by the balance of forces,
/// so at any temperature the same. `model` needs no laws of valves. Tested: run_release_test.cc
document::StopReading stop_reading(const damper::MotionModel& model, const file::HandTestSpec* hand_test);

/// Air or missing oil with which the rod of this unit stops at a travel [m^3].
std::optional<double> air_behind_stop(const damper::MotionModel& model, double travel);

/// The try by hand with 0, 1, 2 and 5 mL of air in the rod chamber and with a dragging seal (three times the
/// stated drag, 10 N more at least). Springs beside the damper push too, and the words follow.
///
/// `hand_test` may be null: four fifths of the travel, 0.5 kg.
/// Tested: run_release_test.cc
document::ReleaseTest release_test(const damper::MotionModel& model, const file::HandTestSpec* hand_test,
                                   const document::Phrase& phrase);

/// The same with all that a plot of it needs.
struct HandTestRun {
  document::ReleaseTest test;
  std::vector<document::ReleaseTrace> traces;  // as test.cases
  bool stopped = false;                        // by `proceed`: what is there says nothing
};

/// `proceed`: gets the fraction done every damper::kStepsBetweenAsks steps; false ends it.
HandTestRun hand_test_run(const damper::MotionModel& model, const file::HandTestSpec* hand_test,
                          const document::Phrase& phrase, const std::function<bool(double)>& proceed);

}  // namespace shimwright::job
