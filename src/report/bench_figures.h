#pragma once
#include <vector>

#include "document/document_bench.h"
#include "report/plot.h"
#include "units/format.h"

namespace shimwright::report {

/// What of the force a loop shows: all of it, or the damper's with the springs taken off.
enum class ForceOf { All, Damper };

/// Force over travel: one loop for each run, by its last cycle. At most six, spread over the speeds. With the
/// springs in, all of the force stands beside the springs' own line.
Plot loop_over_travel(const document::BenchUnit& unit, ForceOf what, units::System system);

/// The damper's force over speed.
Plot loop_over_speed(const document::BenchUnit& unit, units::System system);

/// Force over the time of a step, with what happened marked by number.
Plot step_plot(const document::BenchUnit& unit, const document::BenchRun& run, units::System system);

/// The rod let go: its travel over time for each state of the try by hand, and the force that speeds it up,
/// what happened to the well bled unit marked by number. Nothing without traces.
Plot release_travel_plot(const document::BenchUnit& unit, units::System system);
Plot release_force_plot(const document::BenchUnit& unit, units::System system);

/// Of events, those that a plot marks and a table lists: the first dozen.
inline constexpr std::size_t kMostMarks = 12;

/// The damper's largest force of both strokes over the largest speed of each run; empty series with fewer
/// than two runs that swing.
Plot peak_speed_plot(const document::BenchUnit& unit, units::System system);

/// Chamber pressures over the last cycle of one run, with the pressure at which air comes out.
Plot bench_pressure_plot(const document::BenchUnit& unit, const document::BenchRun& run,
                         units::System system);

/// Travel of the free piston over the same time, with its stops.
Plot free_piston_plot(const document::BenchUnit& unit, const document::BenchRun& run, units::System system);

/// Oil temperature, cycle by cycle; empty series where it moves by less than two degrees.
Plot temperature_plot(const document::BenchUnit& unit, units::System system);

/// A measured force beside the computed one, over travel.
Plot measured_plot(const document::BenchRun& run, units::System system);

/// Of the above, those over one cycle or over all runs, that a unit has something for.
std::vector<Plot> cycle_plots(const document::BenchUnit& unit, units::System system);

/// All of the above that a unit has something for.
std::vector<Plot> bench_plots(const document::BenchUnit& unit, units::System system);

/// The run whose inside is shown: the fastest that is finished; null when none is.
const document::BenchRun* run_to_show(const document::BenchUnit& unit);

}  // namespace shimwright::report
