#pragma once
#include <optional>
#include <vector>

#include "damper/motion.h"
#include "document/document_bench.h"
#include "job/plan_bench.h"

namespace shimwright::job {

/// From what the physics gives to what the document shows; nothing is computed here but what is read off a
/// loop.

document::BenchLoop loop_of(const damper::MotionResult& result);
document::BenchCycle cycle_of(const damper::CycleFigures& figures, int number);

/// `valves`: also what the valves do, which in a stroke that comes again is said too often.
std::vector<document::BenchEvent> events_of(const std::vector<damper::MotionEvent>& events, bool valves);

document::ReleaseTrace trace_of(const std::string& name, const damper::ReleaseResult& result);

/// How far the rod goes after each turn until half of the damper's force of that stroke has come up; nothing
/// for a loop that holds no two turns.
std::vector<document::TurnLag> turns_of(const document::BenchLoop& loop);

document::OilChamber oil_chamber(damper::Chamber chamber);

}  // namespace shimwright::job
