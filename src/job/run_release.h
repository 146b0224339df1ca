#pragma once
#include "damper/motion_model.h"
#include "job/document_release.h"
#include "job/phrase.h"
#include "job/spec_bench.h"

namespace shimwright::job {

/// The try by hand with 0, 1, 2 and 5 mL of air in the rod chamber and with a dragging seal (three times the
/// stated drag, 10 N more at least).
///
/// `hand_test` may be null: four fifths of the travel, 0.5 kg.
/// Tested: run_release_test.cc
ReleaseTest release_test(const damper::MotionModel& model, const HandTestSpec* hand_test,
                         const Phrase& phrase);

}  // namespace shimwright::job
