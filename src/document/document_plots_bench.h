#pragma once
#include <vector>

#include "document/document_bench.h"
#include "units/format.h"

namespace shimwright::document {

/// Everything that a unit on the bench has to draw, in the order of the sheet.
///
/// Loops of the last cycle of each run: force over travel, the damper's alone where springs are in, and over
/// speed, with the largest force of each run over its speed. Then what goes on inside over one cycle of the
/// fastest finished run, the oil's temperature from cycle to cycle, each record beside what was computed, and
/// over time each step and the rod let go.
std::vector<PlotSpec> bench_plots(const BenchUnit& unit, units::System system);

/// Of events, those that a plot marks by number and print lists: the first dozen.
inline constexpr std::size_t kMostMarks = 12;

}  // namespace shimwright::document
