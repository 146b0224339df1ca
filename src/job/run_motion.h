#pragma once
#include <optional>
#include <vector>

#include "damper/motion.h"
#include "job/document_bench.h"
#include "job/plan_bench.h"

namespace shimwright::job {

/// From what the physics gives to what the document shows; nothing is computed here but what is read off a
/// loop.

BenchLoop loop_of(const damper::MotionResult& result);
BenchCycle cycle_of(const damper::CycleFigures& figures, int number);

/// `valves`: also what the valves do, which in a stroke that comes again is said too often.
std::vector<BenchEvent> events_of(const std::vector<damper::MotionEvent>& events, bool valves);

ReleaseTrace trace_of(const std::string& name, const damper::ReleaseResult& result);

/// How far the rod goes after each turn until half of the damper's force of that stroke has come up; nothing
/// for a loop that holds no two turns.
std::vector<TurnLag> turns_of(const BenchLoop& loop);

std::string word(damper::Chamber chamber);  // "rod chamber"

}  // namespace shimwright::job
