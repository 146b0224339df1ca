#pragma once
#include "job/run_force.h"

namespace shimwright::job {

/// Pressure that must be left above air release at the working speed, so that a warm day or a worn seal does
/// not use it up [Pa]. Common practice, no source.
inline constexpr double kMarginWanted = 20e3;

/// What keeps oil in the chamber that runs short: the pressure to set and the clicks to turn, as cures that
/// were computed, and the valving to change, in words. Nothing that the unit lacks, and no pressure beyond
/// what the trade sets. `result` holds its numbers already.
/// Tested: cavitation_advice_test.cc; laws of test/laws
void add_cavitation_advice(const resolve::DamperParts& parts, const ForceRun& run,
                           const damper::CavitationReport& report, const document::Phrase& phrase,
                           document::CavitationResult& result);

}  // namespace shimwright::job
