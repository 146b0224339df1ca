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
std::vector<BenchEvent> events_of(const damper::MotionResult& result);

/// How far the rod goes after each turn until half of the stroke's force has come up; nothing for a loop that
/// holds no two turns.
std::vector<TurnLag> turns_of(const BenchLoop& loop);

std::string word(damper::Chamber chamber);  // "rod chamber"

}  // namespace shimwright::job
