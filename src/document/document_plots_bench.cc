#include "document/document_plots_bench.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <set>
#include <string>
#include <utility>

namespace shimwright::document {
namespace {

using units::Kind;
using units::System;

constexpr std::size_t kMostLoops = 6;  // that a person tells apart in one picture
constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr std::array kDashes = {PlotDash::Solid, PlotDash::Long, PlotDash::Short, PlotDash::Chain};

bool has_loop(const BenchRun& run) {
  return run.kind != RunKind::Step && run.loop.time.size() > 2;
}

double largest(const std::vector<double>& values) {
  double most = 0.0;
  for (const double value : values) most = std::max(most, std::abs(value));
  return most;
}

PlotAxis force_axis(std::string title) {
  return {.title = std::move(title), .kind = Kind::Force, .zero = true};
}

PlotAxis time_axis(std::string title = "time") {
  return {.title = std::move(title), .kind = Kind::Time, .zero = true};
}

// ---- loops

/// Runs that go round, from the slowest to the fastest; those that swing where there are any.
std::vector<const BenchRun*> looping_runs(const BenchUnit& unit) {
  std::vector<const BenchRun*> runs;
  for (const BenchRun& run : unit.runs)
    if (has_loop(run) && run.frequency > 0.0) runs.push_back(&run);
  if (runs.empty())
    for (const BenchRun& run : unit.runs)
      if (has_loop(run)) runs.push_back(&run);
  std::ranges::stable_sort(runs, {}, &BenchRun::top_speed);
  return runs;
}

/// Which of n are drawn at first: evenly spread, the slowest and the fastest always.
std::set<std::size_t> drawn_first(std::size_t n) {
  std::set<std::size_t> chosen;
  const std::size_t lines = std::min(n, kMostLoops);
  for (std::size_t k = 0; k < lines; ++k) chosen.insert(lines == 1 ? 0 : k * (n - 1) / (lines - 1));
  return chosen;
}

std::string speed_name(const BenchRun& run, System system) {
  return run.frequency > 0.0 ? units::format_round(run.top_speed, Kind::Speed, system) : word(run.kind);
}

/// Each run by its speed, or by its whole name where two would read the same.
std::vector<std::string> short_names(const std::vector<const BenchRun*>& runs, System system) {
  std::vector<std::string> names;
  for (const BenchRun* run : runs) names.push_back(speed_name(*run, system));
  const std::vector<std::string> by_speed = names;
  for (std::size_t i = 0; i < runs.size(); ++i)
    if (std::ranges::count(by_speed, by_speed[i]) > 1) names[i] = runs[i]->name;
  return names;
}

std::vector<double> damper_force(const BenchLoop& loop) {
  std::vector<double> force = loop.force;
  for (std::size_t i = 0; i < force.size(); ++i) force[i] -= loop.springs[i];
  return force;
}

/// What a plot of loops shows of each run.
struct LoopView {
  std::vector<double> BenchLoop::* against;
  bool damper_alone;
};

/// A loop for each run.
void add_loops(const BenchUnit& unit, const LoopView& view, System system, PlotSpec& plot) {
  const auto runs = looping_runs(unit);
  const auto names = short_names(runs, system);
  const auto first = drawn_first(runs.size());
  for (std::size_t k = 0; k < runs.size(); ++k) {
    const BenchRun& run = *runs[k];
    PlotLine line;
    line.key = fmt::format("{} {}", run.name, k);
    line.name = names[k];
    line.column = run.name;
    line.x = run.loop.*view.against;
    line.y = view.damper_alone ? damper_force(run.loop) : run.loop.force;
    line.dash = kDashes[(runs.size() - 1 - k) % kDashes.size()];  // the fastest is solid
    line.weight = k + 1 == runs.size() ? PlotWeight::Heavy : PlotWeight::Plain;
    line.loop = true;
    line.spare = !first.contains(k);
    plot.lines.push_back(std::move(line));
  }
}

/// What the springs alone do, once over the whole stroke of the fastest run.
void add_spring_line(const BenchUnit& unit, PlotSpec& plot) {
  const BenchLoop& loop = looping_runs(unit).back()->loop;
  const auto [out, in] = std::ranges::minmax_element(loop.travel);
  auto begin = out - loop.travel.begin();
  auto end = in - loop.travel.begin();
  if (begin > end) std::swap(begin, end);
  std::vector<std::pair<double, double>> points;
  for (auto i = begin; i <= end; ++i) points.emplace_back(loop.travel[i], loop.springs[i]);
  std::ranges::sort(points);
  PlotLine line;
  line.key = "springs";
  line.name = "springs";
  for (const auto& [travel, force] : points) {
    line.x.push_back(travel);
    line.y.push_back(force);
  }
  line.ink = PlotInk::Steel;
  line.dash = PlotDash::Short;
  line.weight = PlotWeight::Thin;
  plot.lines.push_back(std::move(line));
}

PlotSpec travel_loops(const BenchUnit& unit, bool damper_alone, System system) {
  PlotSpec plot;
  plot.id = damper_alone ? PlotId::DamperLoopsOverTravel : PlotId::LoopsOverTravel;
  plot.name = damper_alone ? "damper alone, over travel" : "over travel";
  plot.title = !unit.springs.in ? "Force over travel"
               : damper_alone   ? "Force of the damper alone over travel"
                                : "Force of damper and springs over travel";
  plot.x = {.title = "travel", .kind = Kind::Length};
  plot.y = force_axis("force on the rod, outwards positive");
  add_loops(unit, {&BenchLoop::travel, damper_alone}, system, plot);
  plot.caption = "Last cycle of each run, by its top speed. What a loop encloses becomes heat";
  if (unit.springs.in && !damper_alone) {
    add_spring_line(unit, plot);
    plot.caption += "; the springs enclose nothing";
  }
  plot.caption += ". A flat top or a hook is air or slack.";
  return plot;
}

PlotSpec speed_loops(const BenchUnit& unit, System system) {
  PlotSpec plot;
  plot.id = PlotId::LoopsOverSpeed;
  plot.name = unit.springs.in ? "damper alone, over speed" : "over speed";
  plot.title = unit.springs.in ? "Force of the damper alone over speed" : "Force over speed";
  plot.x = {.title = "speed, compression positive", .kind = Kind::Speed};
  plot.y = force_axis("force on the rod, outwards positive");
  add_loops(unit, {&BenchLoop::speed, true}, system, plot);
  plot.caption =
      "Last cycle of each run, by its top speed. Where the way up and the way down of a stroke part, "
      "something springs: oil, air, walls.";
  return plot;
}

/// The largest force of each run over its speed; nothing with fewer than two runs that swing.
std::optional<PlotSpec> peak_plot(const BenchUnit& unit) {
  std::vector<const BenchRun*> runs;
  for (const BenchRun& run : unit.runs)
    if (run.frequency > 0.0 && !run.cycles.empty()) runs.push_back(&run);
  if (runs.size() < 2) return std::nullopt;
  std::ranges::stable_sort(runs, {}, &BenchRun::top_speed);

  PlotLine in{.key = "compression", .name = "compression", .ink = PlotInk::Compression, .markers = true};
  PlotLine out{
      .key = "rebound", .name = "rebound", .ink = PlotInk::Rebound, .dash = PlotDash::Long, .markers = true};
  for (const BenchRun* run : runs) {
    in.x.push_back(run->top_speed);
    out.x.push_back(run->top_speed);
    in.y.push_back(run->cycles.back().damper_compression_force);
    out.y.push_back(run->cycles.back().damper_rebound_force);
  }
  PlotSpec plot;
  plot.id = PlotId::PeakForceOverSpeed;
  plot.name = "peak force";
  plot.title =
      unit.springs.in ? "Peak force of the damper alone over peak speed" : "Peak force over peak speed";
  plot.x = {.title = "top speed of the run", .kind = Kind::Speed, .zero = true};
  plot.y = force_axis("largest force of the last cycle");
  plot.lines = {std::move(in), std::move(out)};
  plot.caption = "One point for each run and stroke, static force and friction included.";
  return plot;
}

// ---- inside, over one cycle

/// The run whose inside is shown: the fastest that is finished; null when none is.
const BenchRun* run_to_show(const BenchUnit& unit) {
  const BenchRun* best = nullptr;
  for (const BenchRun& run : unit.runs)
    if (has_loop(run) && run.finished && (best == nullptr || run.top_speed > best->top_speed)) best = &run;
  return best;
}

PlotLine over_time(const BenchRun& run, std::string name, std::vector<double> values) {
  PlotLine line;
  line.key = name;
  line.name = std::move(name);
  for (const double time : run.loop.time) line.x.push_back(time - run.loop.time.front());
  line.y = std::move(values);
  return line;
}

/// A limit: level, from end to end of another line.
PlotLine level(const PlotLine& along, std::string name, double value) {
  PlotLine line;
  line.key = name;
  line.name = std::move(name);
  line.x = {along.x.front(), along.x.back()};
  line.y = {value, value};
  line.ink = PlotInk::Stop;
  line.dash = PlotDash::Short;
  return line;
}

PlotLine drawn(PlotLine line, PlotInk ink, PlotDash dash, PlotWeight weight = PlotWeight::Plain) {
  line.ink = ink;
  line.dash = dash;
  line.weight = weight;
  return line;
}

PlotSpec cycle_pressures(const BenchUnit& unit, const BenchRun& run) {
  PlotSpec plot;
  plot.id = PlotId::PressuresOverCycle;
  plot.name = "pressures";
  plot.title = "Pressures over one cycle: " + run.name;
  plot.x = time_axis();
  plot.y = {.title = "absolute pressure",
            .kind = Kind::Pressure,
            .reference = units::Reference::Absolute,
            .zero = true};
  plot.lines = {
      drawn(over_time(run, "reservoir", run.loop.reservoir_pressure), PlotInk::Steel, PlotDash::Short),
      drawn(over_time(run, "compression chamber", run.loop.compression_pressure), PlotInk::Ink,
            PlotDash::Solid),
      drawn(over_time(run, "rod chamber", run.loop.rod_pressure), PlotInk::Ink, PlotDash::Long)};
  plot.lines.push_back(level(plot.lines.front(), "air comes out", unit.release_pressure));
  plot.caption = "No line may meet \"air comes out\": there the oil gives off air.";
  return plot;
}

PlotSpec free_piston(const BenchUnit& unit, const BenchRun& run) {
  PlotSpec plot;
  plot.id = PlotId::FreePistonOverCycle;
  plot.name = "free piston";
  plot.title = "Free piston over one cycle: " + run.name;
  plot.x = time_axis();
  plot.y = {.title = "travel of the free piston", .kind = Kind::Length, .zero = true};
  plot.lines = {drawn(over_time(run, "free piston", run.loop.piston_travel), PlotInk::Ink, PlotDash::Solid,
                      PlotWeight::Heavy)};
  plot.lines.push_back(level(plot.lines.front(), "outer stop", unit.piston_travel_out));
  plot.lines.push_back(level(plot.lines.front(), "inner stop", -unit.piston_travel_in));
  plot.caption = "It must not meet a stop.";
  return plot;
}

/// Oil temperature, cycle by cycle; nothing where a few cycles warm nothing that a plot could show.
std::optional<PlotSpec> temperature_plot(const BenchUnit& unit, System system) {
  constexpr double kWorthDrawing = 2.0;  // [K]
  PlotSpec plot;
  plot.id = PlotId::OilTemperature;
  plot.name = "oil temperature";
  plot.title = "Oil temperature, cycle by cycle";
  plot.x = {.title = "cycles done", .zero = true};
  plot.y = {.title = "oil", .kind = Kind::Temperature};
  const auto runs = looping_runs(unit);
  const auto names = short_names(runs, system);
  const auto first = drawn_first(runs.size());
  double least = unit.oil_temperature;
  double most = unit.oil_temperature;
  for (std::size_t k = 0; k < runs.size(); ++k) {
    if (runs[k]->cycles.size() < 2 || !first.contains(k)) continue;
    PlotLine line;
    line.key = fmt::format("{} {}", runs[k]->name, k);
    line.name = names[k];
    line.column = runs[k]->name;
    line.x = {0.0};
    line.y = {unit.oil_temperature};
    for (const BenchCycle& cycle : runs[k]->cycles) {
      line.x.push_back(cycle.number);
      line.y.push_back(cycle.temperature_end);
      least = std::min(least, cycle.temperature_end);
      most = std::max(most, cycle.temperature_end);
    }
    plot.lines.push_back(std::move(line));
  }
  if (most - least < kWorthDrawing) return std::nullopt;
  plot.caption = "All heat goes into oil and metal; both lose it to the air.";
  return plot;
}

PlotSpec measured_plot(const BenchRun& run) {
  PlotSpec plot;
  plot.id = PlotId::MeasuredOverTravel;
  plot.name = "measured, " + run.name;
  plot.title = "Measured and computed: " + run.name;
  plot.x = {.title = "travel", .kind = Kind::Length};
  plot.y = force_axis("force on the rod, outwards positive");
  PlotLine measured{.key = "measured",
                    .name = "measured",
                    .x = run.measured->travel,
                    .y = run.measured->force,
                    .ink = PlotInk::Steel,
                    .loop = true};
  PlotLine computed{.key = "computed",
                    .name = "computed",
                    .x = run.measured->travel,
                    .y = run.measured->computed,
                    .dash = PlotDash::Long,
                    .weight = PlotWeight::Heavy,
                    .loop = true};
  plot.lines = {std::move(measured), std::move(computed)};
  plot.caption = "The record as the bench wrote it, and the same stroke computed.";
  return plot;
}

// ---- over time

/// Events by their numbers, where they happened.
void add_event_marks(const std::vector<BenchEvent>& events, double begin, double end, PlotSpec& plot) {
  for (std::size_t i = 0; i < std::min(events.size(), kMostMarks); ++i)
    if (events[i].time - begin <= end)
      plot.marks.push_back({events[i].time - begin, events[i].force, std::to_string(i + 1), PlotInk::Copper});
}

PlotSpec step_plot(const BenchUnit& unit, const BenchRun& run) {
  constexpr double kWorthDrawing = 0.01;  // of the whole force
  PlotSpec plot;
  plot.id = PlotId::StepForceOverTime;
  plot.name = run.name;
  plot.title = "Force over time: " + run.name;
  plot.x = time_axis();
  plot.y = force_axis("force on the rod, outwards positive");
  plot.lines = {drawn(over_time(run, unit.springs.in ? "all" : "force", run.loop.force), PlotInk::Ink,
                      PlotDash::Solid, PlotWeight::Heavy)};
  if (unit.springs.in) {
    plot.lines.push_back(
        drawn(over_time(run, "damper alone", damper_force(run.loop)), PlotInk::Ink, PlotDash::Long));
    plot.lines.push_back(drawn(over_time(run, "springs", run.loop.springs), PlotInk::Steel, PlotDash::Short));
  }
  if (largest(run.loop.lock) > kWorthDrawing * largest(run.loop.force))
    plot.lines.push_back(drawn(over_time(run, "oil lock", run.loop.lock), PlotInk::Look, PlotDash::Chain));
  add_event_marks(run.events, run.loop.time.front(), kInfinity, plot);
  plot.events_of = run.name;
  plot.caption = "The rod goes its way once and is held. Numbers: what happened, listed below.";
  return plot;
}

/// Until when the force of the rod let go is worth a look: a little after it has fallen for good to a
/// fiftieth of the largest of all states [s]. What follows is a rod that creeps out, and a line at zero.
double dead_after(const BenchUnit& unit) {
  double most = 0.0;
  for (const ReleaseTrace& trace : unit.release_traces) most = std::max(most, largest(trace.force));
  double last = 0.0;
  for (const ReleaseTrace& trace : unit.release_traces)
    for (std::size_t i = 0; i < trace.time.size(); ++i)
      if (std::abs(trace.force[i]) > 0.02 * most)
        last = std::max(last, trace.time[std::min(i + 1, trace.time.size() - 1)]);
  return 1.25 * last;
}

/// One figure of the rod let go up to `end`, for each state; the well bled one heavy.
void add_traces(const BenchUnit& unit, std::vector<double> ReleaseTrace::* figure, double end,
                PlotSpec& plot) {
  for (std::size_t k = 0; k < unit.release_traces.size(); ++k) {
    const ReleaseTrace& trace = unit.release_traces[k];
    const auto n = std::ranges::upper_bound(trace.time, end) - trace.time.begin();
    const bool drags = k > 0 && k + 1 == unit.release_traces.size();
    PlotLine line;
    line.key = trace.name;
    line.name = trace.name;
    line.x = {trace.time.begin(), trace.time.begin() + n};
    line.y = {(trace.*figure).begin(), (trace.*figure).begin() + n};
    line.ink = drags ? PlotInk::Look : PlotInk::Ink;
    line.dash = kDashes[k % kDashes.size()];
    line.weight = k == 0 ? PlotWeight::Heavy : PlotWeight::Plain;
    plot.lines.push_back(std::move(line));
  }
}

PlotSpec release_travel(const BenchUnit& unit) {
  PlotSpec plot;
  plot.id = PlotId::LetGoTravelOverTime;
  plot.name = "let go, travel";
  plot.title = "Let go: travel over time";
  plot.x = time_axis("time since it was let go");
  plot.y = {.title = "travel from fully out", .kind = Kind::Length, .zero = true};
  add_traces(unit, &ReleaseTrace::travel, kInfinity, plot);
  plot.caption = "How the rod comes out by itself, in each state of the unit.";
  return plot;
}

PlotSpec release_force(const BenchUnit& unit) {
  const double end = dead_after(unit);
  const ReleaseTrace& bled = unit.release_traces.front();
  PlotSpec plot;
  plot.id = PlotId::LetGoForceOverTime;
  plot.name = "let go, force";
  plot.title = "Let go: force that speeds the rod up";
  plot.x = time_axis("time since it was let go");
  plot.y = force_axis("all forces on the rod together, outwards positive");
  add_traces(unit, &ReleaseTrace::force, end, plot);
  add_event_marks(bled.events, 0.0, end, plot);
  plot.events_of = bled.name;
  plot.caption =
      "The push of springs and reservoir less what valves and seals hold against it, until it has died "
      "away. Numbers: what happened in the well bled unit, listed below.";
  return plot;
}

}  // namespace

std::vector<PlotSpec> bench_plots(const BenchUnit& unit, System system) {
  std::vector<PlotSpec> plots;
  const auto add = [&](std::optional<PlotSpec> plot) {
    if (plot) plots.push_back(std::move(*plot));
  };
  if (!looping_runs(unit).empty()) {
    add(travel_loops(unit, false, system));
    if (unit.springs.in) add(travel_loops(unit, true, system));
    add(speed_loops(unit, system));
    add(peak_plot(unit));
    if (const BenchRun* run = run_to_show(unit)) {
      add(cycle_pressures(unit, *run));
      if (unit.piston_travel_out > 0.0) add(free_piston(unit, *run));
    }
    if (unit.heat_capacity > 0.0) add(temperature_plot(unit, system));
  }
  for (const BenchRun& run : unit.runs)
    if (run.measured) add(measured_plot(run));
  for (const BenchRun& run : unit.runs)
    if (run.kind == RunKind::Step && run.loop.time.size() > 2) add(step_plot(unit, run));
  if (!unit.release_traces.empty()) {
    add(release_travel(unit));
    add(release_force(unit));
  }
  return plots;
}

}  // namespace shimwright::document
