#include "report/bench_figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

#include "report/phrases.h"

namespace shimwright::report {
namespace {

using units::Kind;
using units::System;

constexpr std::size_t kMostLoops = 6;
constexpr double kInfinity = std::numeric_limits<double>::infinity();

std::string axis_title(std::string_view quantity, Kind kind, System system) {
  return fmt::format("{} [{}]", quantity, units::unit_name(kind, system));
}

bool has_loop(const document::BenchRun& run) {
  return run.loop.time.size() > 2;
}

/// Runs with a loop, at most so many, spread from the slowest to the fastest.
std::vector<const document::BenchRun*> runs_to_draw(const document::BenchUnit& unit) {
  std::vector<const document::BenchRun*> runs;
  for (const document::BenchRun& run : unit.runs)
    if (has_loop(run) && run.frequency > 0.0) runs.push_back(&run);
  if (runs.empty())
    for (const document::BenchRun& run : unit.runs)
      if (has_loop(run)) runs.push_back(&run);
  std::stable_sort(runs.begin(), runs.end(), [](const document::BenchRun* a, const document::BenchRun* b) {
    return a->top_speed < b->top_speed;
  });
  if (runs.size() <= kMostLoops) return runs;
  std::vector<const document::BenchRun*> few;
  for (std::size_t k = 0; k < kMostLoops; ++k) few.push_back(runs[k * (runs.size() - 1) / (kMostLoops - 1)]);
  return few;
}

struct LoopAxis {
  const std::vector<double>* values = nullptr;
  Kind kind = Kind::Length;
  ForceOf what = ForceOf::All;
};

struct LoopManner {
  bool strong = false;
  bool named = false;
};

/// Force of a loop's points [N].
std::vector<double> force_of(const document::BenchLoop& loop, ForceOf what) {
  std::vector<double> force = loop.force;
  if (what == ForceOf::Damper)
    for (std::size_t i = 0; i < force.size(); ++i) force[i] -= loop.springs[i];
  return force;
}

/// One loop as lines: the way in solid, the way out dashed. A line that carries the name ends at the loop's
/// right end, where names stand.
void add_loop(Plot& plot, const document::BenchRun& run, const LoopAxis& axis, LoopManner manner,
              System system) {
  const document::BenchLoop& loop = run.loop;
  const std::size_t n = loop.time.size();
  const std::vector<double> force = force_of(loop, axis.what);
  const double width = manner.strong ? 1.6 : 0.8;
  std::vector<Series> pieces;
  bool before = false;
  const auto point = [&](Series& s, std::size_t i) {
    s.x.push_back(units::to_unit((*axis.values)[i], axis.kind, system));
    s.y.push_back(units::to_unit(force[i], Kind::Force, system));
  };
  for (std::size_t i = 0; i + 1 < n; ++i) {
    const bool in = loop.travel[i + 1] >= loop.travel[i];
    if (pieces.empty() || in != before) {
      Series s;
      s.stroke = in ? Stroke{Token::Compression, width, Dash::Solid, 1}
                    : Stroke{Token::Rebound, width, Dash::Long, 1};
      pieces.push_back(std::move(s));
      point(pieces.back(), i);
    }
    before = in;
    point(pieces.back(), i + 1);
  }
  if (pieces.empty()) return;
  // the piece that reaches furthest right is cut there, and its first part named
  const auto right = std::max_element(pieces.begin(), pieces.end(), [](const Series& a, const Series& b) {
    return *std::max_element(a.x.begin(), a.x.end()) < *std::max_element(b.x.begin(), b.x.end());
  });
  Series& cut = *right;
  const auto at = static_cast<std::size_t>(std::max_element(cut.x.begin(), cut.x.end()) - cut.x.begin());
  Series rest = cut;
  rest.x.erase(rest.x.begin(), rest.x.begin() + static_cast<std::ptrdiff_t>(at));
  rest.y.erase(rest.y.begin(), rest.y.begin() + static_cast<std::ptrdiff_t>(at));
  cut.x.resize(at + 1);
  cut.y.resize(at + 1);
  if (manner.named)
    cut.name = run.frequency > 0.0 ? shown_round(run.top_speed, Kind::Speed, system) : run.kind;
  if (rest.x.size() > 1) pieces.push_back(std::move(rest));
  for (Series& piece : pieces) plot.series.push_back(std::move(piece));
}

/// What the springs alone do, once over the whole stroke of the fastest run.
void add_spring_line(Plot& plot, const document::BenchRun& run, System system) {
  Series s{"springs", {}, {}, {}, {Token::Steel, 0.9, Dash::Short, 1}};
  const auto furthest = std::max_element(run.loop.travel.begin(), run.loop.travel.end());
  const auto n = static_cast<std::size_t>(furthest - run.loop.travel.begin()) + 1;
  for (std::size_t i = 0; i < n; ++i) {
    s.x.push_back(units::to_unit(run.loop.travel[i], Kind::Length, system));
    s.y.push_back(units::to_unit(run.loop.springs[i], Kind::Force, system));
  }
  plot.series.push_back(std::move(s));
}

/// The job's name for a force: whose it is only matters where springs are in.
std::string force_title(const document::BenchUnit& unit, ForceOf what) {
  if (!unit.springs.in) return "Force";
  return what == ForceOf::All ? "Force of damper and springs" : "Force of the damper alone";
}

Plot loops(const document::BenchUnit& unit, ForceOf what, System system, bool over_travel) {
  Plot plot;
  plot.title = force_title(unit, what) + (over_travel ? " over travel" : " over speed");
  plot.x.title = over_travel ? axis_title("travel", Kind::Length, system)
                             : axis_title("speed, compression positive", Kind::Speed, system);
  plot.y.title = axis_title("force on the rod, outwards positive", Kind::Force, system);
  const auto runs = runs_to_draw(unit);
  for (const document::BenchRun* run : runs) {
    const bool last = run == runs.back();
    const LoopAxis axis = over_travel ? LoopAxis{&run->loop.travel, Kind::Length, what}
                                      : LoopAxis{&run->loop.speed, Kind::Speed, what};
    add_loop(plot, *run, axis, {last, over_travel || last}, system);
    if (over_travel || last) continue;
    // over speed the slower loops end inside: their names stand at their tips
    const auto& speed = run->loop.speed;
    const auto at = static_cast<std::size_t>(std::max_element(speed.begin(), speed.end()) - speed.begin());
    plot.marks.push_back({units::to_unit(speed[at], Kind::Speed, system),
                          units::to_unit(force_of(run->loop, what)[at], Kind::Force, system),
                          shown_round(run->top_speed, Kind::Speed, system), Token::Steel});
  }
  const bool springs = unit.springs.in && what == ForceOf::All && !runs.empty();
  if (springs && over_travel) add_spring_line(plot, *runs.back(), system);
  plot.caption =
      !over_travel ? "Last cycle of each run, by its top speed. Where the way up and the way down of a "
                     "stroke part, something springs: oil, air, walls."
      : springs    ? "Last cycle of each run, by its top speed. What a loop encloses becomes heat; the "
                     "springs enclose nothing."
                   : "Last cycle of each run, by its top speed. What a loop encloses becomes heat.";
  return plot;
}

Series over_time(const document::BenchRun& run, std::string name, const std::vector<double>& values,
                 Kind kind, Stroke stroke, System system) {
  Series s;
  s.name = std::move(name);
  s.stroke = stroke;
  for (std::size_t i = 0; i < values.size(); ++i) {
    s.x.push_back(run.loop.time[i] - run.loop.time.front());
    s.y.push_back(units::to_unit(values[i], kind, system));
  }
  return s;
}

Series level(const Series& along, std::string name, double value, Stroke stroke) {
  return {std::move(name), {along.x.front(), along.x.back()}, {value, value}, {}, stroke};
}

/// Events of one motion by their numbers, where they happened.
void add_event_marks(Plot& plot, const std::vector<document::BenchEvent>& events, double begin,
                     System system) {
  for (std::size_t i = 0; i < std::min(events.size(), kMostMarks); ++i)
    plot.marks.push_back({events[i].time - begin, units::to_unit(events[i].force, Kind::Force, system),
                          std::to_string(i + 1), Token::Copper});
}

/// Until when the force of the rod let go is worth a look: a little after it has fallen for good to a
/// fiftieth of the largest of all states [s]. What follows is a rod that creeps out, and a line at zero.
double dead_after(const document::BenchUnit& unit) {
  double most = 0.0;
  for (const document::ReleaseTrace& trace : unit.release_traces)
    for (const double force : trace.force) most = std::max(most, std::abs(force));
  double last = 0.0;
  for (const document::ReleaseTrace& trace : unit.release_traces)
    for (std::size_t i = 0; i < trace.time.size(); ++i)
      if (std::abs(trace.force[i]) > 0.02 * most)
        last = std::max(last, trace.time[std::min(i + 1, trace.time.size() - 1)]);
  return 1.25 * last;
}

/// One figure of the rod let go, for each state; the well bled one strong.
Plot release_plot(const document::BenchUnit& unit, std::vector<double> document::ReleaseTrace::* figure,
                  double end, Kind kind, System system) {
  constexpr Dash kDashes[] = {Dash::Solid, Dash::Long, Dash::Short, Dash::Chain, Dash::Solid};
  Plot plot;
  plot.x.title = "time since it was let go [s]";
  plot.x.min = 0.0;
  for (std::size_t k = 0; k < unit.release_traces.size(); ++k) {
    const document::ReleaseTrace& trace = unit.release_traces[k];
    const bool drags = k + 1 == unit.release_traces.size();
    const auto n = std::upper_bound(trace.time.begin(), trace.time.end(), end) - trace.time.begin();
    Series s{trace.name,
             {trace.time.begin(), trace.time.begin() + n},
             {},
             {},
             {drags ? Token::Look : Token::Ink, k == 0 ? 1.6 : 0.9,
              kDashes[std::min(k, std::size(kDashes) - 1)], 1}};
    for (const double value : std::span(trace.*figure).first(s.x.size()))
      s.y.push_back(units::to_unit(value, kind, system));
    plot.series.push_back(std::move(s));
  }
  return plot;
}

}  // namespace

const document::BenchRun* run_to_show(const document::BenchUnit& unit) {
  const document::BenchRun* best = nullptr;
  for (const document::BenchRun& run : unit.runs)
    if (has_loop(run) && run.finished && (best == nullptr || run.top_speed > best->top_speed)) best = &run;
  return best;
}

Plot loop_over_travel(const document::BenchUnit& unit, ForceOf what, System system) {
  return loops(unit, what, system, true);
}

Plot loop_over_speed(const document::BenchUnit& unit, System system) {
  return loops(unit, ForceOf::Damper, system, false);
}

Plot peak_speed_plot(const document::BenchUnit& unit, System system) {
  Plot plot;
  plot.title =
      unit.springs.in ? "Peak force of the damper alone over peak speed" : "Peak force over peak speed";
  plot.x.title = axis_title("top speed of the run", Kind::Speed, system);
  plot.y.title = axis_title("largest force of the last cycle", Kind::Force, system);
  std::vector<const document::BenchRun*> runs;
  for (const document::BenchRun& run : unit.runs)
    if (run.frequency > 0.0 && !run.cycles.empty()) runs.push_back(&run);
  if (runs.size() < 2) return plot;
  std::stable_sort(runs.begin(), runs.end(), [](const document::BenchRun* a, const document::BenchRun* b) {
    return a->top_speed < b->top_speed;
  });
  Series in{"compression", {}, {}, {}, {Token::Compression, 1.5, Dash::Solid, 1}, true};
  Series out{"rebound", {}, {}, {}, {Token::Rebound, 1.5, Dash::Long, 1}, true};
  for (const document::BenchRun* run : runs) {
    const double speed = units::to_unit(run->top_speed, Kind::Speed, system);
    // two strokes at one speed stand one above the other; a line through them would say nothing
    in.x.push_back(speed);
    out.x.push_back(speed);
    in.y.push_back(units::to_unit(run->cycles.back().damper_compression_force, Kind::Force, system));
    out.y.push_back(units::to_unit(run->cycles.back().damper_rebound_force, Kind::Force, system));
  }
  plot.x.min = 0.0;
  plot.series = {in, out};
  plot.caption = "One point a run and stroke, static force and friction included.";
  return plot;
}

Plot bench_pressure_plot(const document::BenchUnit& unit, const document::BenchRun& run, System system) {
  Plot plot;
  plot.title = "Pressures over one cycle: " + run.name;
  plot.x.title = "time [s]";
  plot.y.title = fmt::format("absolute pressure [{}]",
                             units::unit_name(Kind::Pressure, system, units::Reference::Absolute));
  plot.series = {over_time(run, "compression chamber", run.loop.compression_pressure, Kind::Pressure,
                           {Token::Compression, 1.4, Dash::Solid, 1}, system),
                 over_time(run, "rod chamber", run.loop.rod_pressure, Kind::Pressure,
                           {Token::Rebound, 1.4, Dash::Long, 1}, system),
                 over_time(run, "reservoir", run.loop.reservoir_pressure, Kind::Pressure,
                           {Token::Steel, 0.9, Dash::Short, 1}, system)};
  plot.series.push_back(level(plot.series[0], "air comes out",
                              units::to_unit(unit.release_pressure, Kind::Pressure, system),
                              {Token::Stop, 0.8, Dash::Short, 1}));
  plot.caption = "No line may meet the red one: there the oil gives off air.";
  return plot;
}

Plot free_piston_plot(const document::BenchUnit& unit, const document::BenchRun& run, System system) {
  Plot plot;
  plot.title = "Free piston over one cycle: " + run.name;
  plot.x.title = "time [s]";
  plot.y.title = axis_title("travel of the free piston", Kind::Length, system);
  plot.series = {over_time(run, "free piston", run.loop.piston_travel, Kind::Length,
                           {Token::Ink, 1.4, Dash::Solid, 1}, system)};
  const Stroke stop{Token::Stop, 0.8, Dash::Short, 1};
  plot.series.push_back(level(plot.series[0], "outer stop",
                              units::to_unit(unit.piston_travel_out, Kind::Length, system), stop));
  plot.series.push_back(level(plot.series[0], "inner stop",
                              units::to_unit(-unit.piston_travel_in, Kind::Length, system), stop));
  plot.caption = "It must not meet a stop.";
  return plot;
}

Plot temperature_plot(const document::BenchUnit& unit, System system) {
  Plot plot;
  plot.title = "Oil temperature, cycle by cycle";
  plot.x.title = "cycles done";
  plot.y.title = axis_title("oil", Kind::Temperature, system);
  for (const document::BenchRun* run : runs_to_draw(unit)) {
    if (run->cycles.size() < 2) continue;
    Series s{shown_round(run->top_speed, Kind::Speed, system),
             {0.0},
             {units::to_unit(unit.oil_temperature, Kind::Temperature, system)},
             {},
             {Token::Ink, 1.0, Dash::Solid, 1}};
    for (const document::BenchCycle& cycle : run->cycles) {
      s.x.push_back(cycle.number);
      s.y.push_back(units::to_unit(cycle.temperature_end, Kind::Temperature, system));
    }
    plot.series.push_back(std::move(s));
  }
  // a few cycles warm nothing that a plot could show
  double least = 1e300, most = -1e300;
  for (const Series& s : plot.series)
    for (const double y : s.y) {
      least = std::min(least, y);
      most = std::max(most, y);
    }
  constexpr double kWorthDrawing = 2.0;  // degrees of either scale
  if (most - least < kWorthDrawing) plot.series.clear();
  plot.y.min = least - 0.05 * (most - least);
  plot.caption = "All heat goes into oil and metal; both lose it to the air.";
  return plot;
}

Plot measured_plot(const document::BenchRun& run, System system) {
  Plot plot;
  plot.title = "Measured and computed: " + run.name;
  plot.x.title = axis_title("travel", Kind::Length, system);
  plot.y.title = axis_title("force on the rod, outwards positive", Kind::Force, system);
  Series measured{"measured", {}, {}, {}, {Token::Steel, 1.0, Dash::Solid, 1}};
  Series computed{"computed", {}, {}, {}, {Token::Ink, 1.4, Dash::Long, 1}};
  for (std::size_t i = 0; i < run.measured->travel.size(); ++i) {
    const double x = units::to_unit(run.measured->travel[i], Kind::Length, system);
    measured.x.push_back(x);
    computed.x.push_back(x);
    measured.y.push_back(units::to_unit(run.measured->force[i], Kind::Force, system));
    computed.y.push_back(units::to_unit(run.measured->computed[i], Kind::Force, system));
  }
  plot.series = {measured, computed};
  plot.caption = "The record as the bench wrote it, and the same stroke computed.";
  return plot;
}

Plot step_plot(const document::BenchUnit& unit, const document::BenchRun& run, System system) {
  Plot plot;
  plot.title = "Force over time: " + run.name;
  plot.x.title = "time [s]";
  plot.y.title = axis_title("force on the rod, outwards positive", Kind::Force, system);
  plot.series = {over_time(run, unit.springs.in ? "all" : "force", run.loop.force, Kind::Force,
                           {Token::Ink, 1.6, Dash::Solid, 1}, system)};
  if (unit.springs.in) {
    plot.series.push_back(over_time(run, "damper alone", force_of(run.loop, ForceOf::Damper), Kind::Force,
                                    {Token::Compression, 1.0, Dash::Long, 1}, system));
    plot.series.push_back(over_time(run, "springs", run.loop.springs, Kind::Force,
                                    {Token::Steel, 0.9, Dash::Short, 1}, system));
  }
  const auto largest = [](const std::vector<double>& values) {
    double most = 0.0;
    for (const double value : values) most = std::max(most, std::abs(value));
    return most;
  };
  constexpr double kWorthDrawing = 0.01;  // of the whole force
  if (largest(run.loop.lock) > kWorthDrawing * largest(run.loop.force))
    plot.series.push_back(
        over_time(run, "oil lock", run.loop.lock, Kind::Force, {Token::Look, 1.0, Dash::Chain, 1}, system));
  add_event_marks(plot, run.events, run.loop.time.front(), system);
  plot.caption = "The rod goes its way once and is held. Numbers: what happened, listed below.";
  return plot;
}

Plot release_travel_plot(const document::BenchUnit& unit, System system) {
  Plot plot = release_plot(unit, &document::ReleaseTrace::travel, kInfinity, Kind::Length, system);
  plot.title = "Let go: travel over time";
  plot.y.title = axis_title("travel from fully out", Kind::Length, system);
  plot.caption = "How the rod comes out by itself, in each state of the unit.";
  return plot;
}

Plot release_force_plot(const document::BenchUnit& unit, System system) {
  const double end = dead_after(unit);
  Plot plot = release_plot(unit, &document::ReleaseTrace::force, end, Kind::Force, system);
  plot.title = "Let go: force that speeds the rod up";
  plot.y.title = axis_title("all forces on the rod together, outwards positive", Kind::Force, system);
  if (!unit.release_traces.empty()) add_event_marks(plot, unit.release_traces.front().events, 0.0, system);
  std::erase_if(plot.marks, [end](const Mark& mark) { return mark.x > end; });
  plot.caption =
      "The push of springs and reservoir less what valves and seals hold against it, until it has died "
      "away. Numbers: what happened in the well bled unit, listed below.";
  return plot;
}

std::vector<Plot> cycle_plots(const document::BenchUnit& unit, System system) {
  std::vector<Plot> plots;
  if (runs_to_draw(unit).empty()) return plots;
  plots.push_back(loop_over_travel(unit, ForceOf::All, system));
  if (unit.springs.in) plots.push_back(loop_over_travel(unit, ForceOf::Damper, system));
  plots.push_back(loop_over_speed(unit, system));
  if (Plot peaks = peak_speed_plot(unit, system); !peaks.series.empty()) plots.push_back(std::move(peaks));
  if (const document::BenchRun* run = run_to_show(unit)) {
    plots.push_back(bench_pressure_plot(unit, *run, system));
    if (unit.piston_travel_out > 0.0) plots.push_back(free_piston_plot(unit, *run, system));
  }
  if (unit.heat_capacity > 0.0)
    if (Plot heat = temperature_plot(unit, system); !heat.series.empty()) plots.push_back(std::move(heat));
  for (const document::BenchRun& run : unit.runs)
    if (run.measured) plots.push_back(measured_plot(run, system));
  return plots;
}

std::vector<Plot> bench_plots(const document::BenchUnit& unit, System system) {
  std::vector<Plot> plots = cycle_plots(unit, system);
  for (const document::BenchRun& run : unit.runs)
    if (run.kind == "step" && has_loop(run)) plots.push_back(step_plot(unit, run, system));
  if (!unit.release_traces.empty()) {
    plots.push_back(release_travel_plot(unit, system));
    plots.push_back(release_force_plot(unit, system));
  }
  return plots;
}

}  // namespace shimwright::report
