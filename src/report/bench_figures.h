#pragma once
#include <vector>

#include "job/document_bench.h"
#include "report/plot.h"
#include "units/format.h"

namespace shimwright::report {

/// Force over travel: one loop for each run, by its last cycle. At most six, spread over the speeds.
Plot loop_over_travel(const job::BenchUnit& unit, units::System system);

/// The same over speed.
Plot loop_over_speed(const job::BenchUnit& unit, units::System system);

/// The largest force of both strokes over the largest speed of each run; empty series with fewer than two
/// runs that swing.
Plot peak_speed_plot(const job::BenchUnit& unit, units::System system);

/// Chamber pressures over the last cycle of one run, with the pressure at which air comes out.
Plot bench_pressure_plot(const job::BenchUnit& unit, const job::BenchRun& run, units::System system);

/// Travel of the free piston over the same time, with its stops.
Plot free_piston_plot(const job::BenchUnit& unit, const job::BenchRun& run, units::System system);

/// Oil temperature, cycle by cycle; empty series where it moves by less than two degrees.
Plot temperature_plot(const job::BenchUnit& unit, units::System system);

/// A measured force beside the computed one, over travel.
Plot measured_plot(const job::BenchRun& run, units::System system);

/// All of the above that a unit has something for.
std::vector<Plot> bench_plots(const job::BenchUnit& unit, units::System system);

/// The run whose inside is shown: the fastest that is finished; null when none is.
const job::BenchRun* run_to_show(const job::BenchUnit& unit);

}  // namespace shimwright::report
