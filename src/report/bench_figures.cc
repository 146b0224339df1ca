#include "report/bench_figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/phrases.h"

namespace shimwright::report {
namespace {

using units::Kind;
using units::System;

constexpr std::size_t kMostLoops = 6;

std::string axis_title(std::string_view quantity, Kind kind, System system) {
  return fmt::format("{} [{}]", quantity, units::unit_name(kind, system));
}

bool has_loop(const job::BenchRun& run) {
  return run.loop.time.size() > 2;
}

/// Runs with a loop, at most so many, spread from the slowest to the fastest.
std::vector<const job::BenchRun*> runs_to_draw(const job::BenchUnit& unit) {
  std::vector<const job::BenchRun*> runs;
  for (const job::BenchRun& run : unit.runs)
    if (has_loop(run) && run.frequency > 0.0) runs.push_back(&run);
  if (runs.empty())
    for (const job::BenchRun& run : unit.runs)
      if (has_loop(run)) runs.push_back(&run);
  std::stable_sort(runs.begin(), runs.end(), [](const job::BenchRun* a, const job::BenchRun* b) {
    return a->top_speed < b->top_speed;
  });
  if (runs.size() <= kMostLoops) return runs;
  std::vector<const job::BenchRun*> few;
  for (std::size_t k = 0; k < kMostLoops; ++k) few.push_back(runs[k * (runs.size() - 1) / (kMostLoops - 1)]);
  return few;
}

struct LoopAxis {
  const std::vector<double>* values = nullptr;
  Kind kind = Kind::Length;
};

struct LoopManner {
  bool strong = false;
  bool named = false;
};

/// One loop as lines: the way in solid, the way out dashed. A line that carries the name ends at the loop's
/// right end, where names stand.
void add_loop(Plot& plot, const job::BenchRun& run, const LoopAxis& axis, LoopManner manner, System system) {
  const job::BenchLoop& loop = run.loop;
  const std::size_t n = loop.time.size();
  const double width = manner.strong ? 1.6 : 0.8;
  std::vector<Series> pieces;
  bool before = false;
  const auto point = [&](Series& s, std::size_t i) {
    s.x.push_back(units::to_unit((*axis.values)[i], axis.kind, system));
    s.y.push_back(units::to_unit(loop.force[i], Kind::Force, system));
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

Plot loops(const job::BenchUnit& unit, System system, bool over_travel) {
  Plot plot;
  plot.title = over_travel ? "Force over travel" : "Force over speed";
  plot.x.title = over_travel ? axis_title("travel", Kind::Length, system)
                             : axis_title("speed, compression positive", Kind::Speed, system);
  plot.y.title = axis_title("force on the rod, outwards positive", Kind::Force, system);
  const auto runs = runs_to_draw(unit);
  for (const job::BenchRun* run : runs) {
    const bool last = run == runs.back();
    const LoopAxis axis =
        over_travel ? LoopAxis{&run->loop.travel, Kind::Length} : LoopAxis{&run->loop.speed, Kind::Speed};
    add_loop(plot, *run, axis, {last, over_travel || last}, system);
    if (over_travel || last) continue;
    // over speed the slower loops end inside: their names stand at their tips
    const auto& speed = run->loop.speed;
    const auto at = static_cast<std::size_t>(std::max_element(speed.begin(), speed.end()) - speed.begin());
    plot.marks.push_back({units::to_unit(speed[at], Kind::Speed, system),
                          units::to_unit(run->loop.force[at], Kind::Force, system),
                          shown_round(run->top_speed, Kind::Speed, system), Token::Steel});
  }
  plot.caption = over_travel
                     ? "Last cycle of each run, by its top speed. What a loop encloses becomes heat."
                     : "Last cycle of each run, by its top speed. Where the way up and the way down of a "
                       "stroke part, something springs: oil, air, walls.";
  return plot;
}

Series over_time(const job::BenchRun& run, std::string name, const std::vector<double>& values, Kind kind,
                 Stroke stroke, System system) {
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

}  // namespace

const job::BenchRun* run_to_show(const job::BenchUnit& unit) {
  const job::BenchRun* best = nullptr;
  for (const job::BenchRun& run : unit.runs)
    if (has_loop(run) && run.finished && (best == nullptr || run.top_speed > best->top_speed)) best = &run;
  return best;
}

Plot loop_over_travel(const job::BenchUnit& unit, System system) {
  return loops(unit, system, true);
}

Plot loop_over_speed(const job::BenchUnit& unit, System system) {
  return loops(unit, system, false);
}

Plot peak_speed_plot(const job::BenchUnit& unit, System system) {
  Plot plot;
  plot.title = "Peak force over peak speed";
  plot.x.title = axis_title("top speed of the run", Kind::Speed, system);
  plot.y.title = axis_title("largest force of the last cycle", Kind::Force, system);
  std::vector<const job::BenchRun*> runs;
  for (const job::BenchRun& run : unit.runs)
    if (run.frequency > 0.0 && !run.cycles.empty()) runs.push_back(&run);
  if (runs.size() < 2) return plot;
  std::stable_sort(runs.begin(), runs.end(), [](const job::BenchRun* a, const job::BenchRun* b) {
    return a->top_speed < b->top_speed;
  });
  Series in{"compression", {}, {}, {}, {Token::Compression, 1.5, Dash::Solid, 1}, true};
  Series out{"rebound", {}, {}, {}, {Token::Rebound, 1.5, Dash::Long, 1}, true};
  for (const job::BenchRun* run : runs) {
    const double speed = units::to_unit(run->top_speed, Kind::Speed, system);
    // two strokes at one speed stand one above the other; a line through them would say nothing
    in.x.push_back(speed);
    out.x.push_back(speed);
    in.y.push_back(units::to_unit(run->cycles.back().compression_force, Kind::Force, system));
    out.y.push_back(units::to_unit(run->cycles.back().rebound_force, Kind::Force, system));
  }
  plot.x.min = 0.0;
  plot.series = {in, out};
  plot.caption = "One point a run and stroke, static force and friction included.";
  return plot;
}

Plot bench_pressure_plot(const job::BenchUnit& unit, const job::BenchRun& run, System system) {
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

Plot free_piston_plot(const job::BenchUnit& unit, const job::BenchRun& run, System system) {
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

Plot temperature_plot(const job::BenchUnit& unit, System system) {
  Plot plot;
  plot.title = "Oil temperature, cycle by cycle";
  plot.x.title = "cycles done";
  plot.y.title = axis_title("oil", Kind::Temperature, system);
  for (const job::BenchRun* run : runs_to_draw(unit)) {
    if (run->cycles.size() < 2) continue;
    Series s{shown_round(run->top_speed, Kind::Speed, system),
             {0.0},
             {units::to_unit(unit.oil_temperature, Kind::Temperature, system)},
             {},
             {Token::Ink, 1.0, Dash::Solid, 1}};
    for (const job::BenchCycle& cycle : run->cycles) {
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

Plot measured_plot(const job::BenchRun& run, System system) {
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

std::vector<Plot> bench_plots(const job::BenchUnit& unit, System system) {
  std::vector<Plot> plots;
  if (runs_to_draw(unit).empty()) return plots;
  plots.push_back(loop_over_travel(unit, system));
  plots.push_back(loop_over_speed(unit, system));
  if (Plot peaks = peak_speed_plot(unit, system); !peaks.series.empty()) plots.push_back(std::move(peaks));
  if (const job::BenchRun* run = run_to_show(unit)) {
    plots.push_back(bench_pressure_plot(unit, *run, system));
    if (unit.piston_travel_out > 0.0) plots.push_back(free_piston_plot(unit, *run, system));
  }
  if (unit.heat_capacity > 0.0)
    if (Plot heat = temperature_plot(unit, system); !heat.series.empty()) plots.push_back(std::move(heat));
  for (const job::BenchRun& run : unit.runs)
    if (run.measured) plots.push_back(measured_plot(run, system));
  return plots;
}

}  // namespace shimwright::report
