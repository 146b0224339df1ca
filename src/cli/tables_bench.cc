#include "cli/tables.h"

#include <fmt/core.h>

#include <cmath>

#include "cli/columns.h"

namespace shimwright::cli {
namespace {

using units::Kind;
using units::System;
constexpr auto kAbsolute = units::Reference::Absolute;
constexpr double kNothing = 0.05;  // a force that no load cell shows [N]

/// For a narrow column.
std::string short_word(document::OilChamber chamber) {
  switch (chamber) {
    case document::OilChamber::Compression:
      return "compression";
    case document::OilChamber::Rod:
      return "rod";
    case document::OilChamber::Reservoir:
      break;
  }
  return "reservoir";
}

std::string run_number(std::size_t index) {
  return std::to_string(index + 1);
}

/// What each run did, by its last cycle.
Table runs_table(const document::BenchUnit& unit, System system) {
  Table t;
  t.title = unit.name + ": runs, last cycle of each";
  t.columns = {{"no.", "", false},
               words("drive"),
               number("stroke", Kind::Length, system),
               {"freq.", "Hz", false},
               number("speed", Kind::Speed, system),
               number("compr.", Kind::Force, system),
               number("rebound", Kind::Force, system)};
  // with springs, the damper alone is shown next to the total
  if (unit.springs.in) {
    t.columns.push_back(number("alone", Kind::Force, system));
    t.columns.push_back(number("alone", Kind::Force, system));
  }
  for (const Column& column : {number("work", Kind::Energy, system), Column{"lag", "deg", false}, words("")})
    t.columns.push_back(column);
  for (std::size_t i = 0; i < unit.runs.size(); ++i) {
    const document::BenchRun& run = unit.runs[i];
    std::vector<Cell> row = {
        run_number(i), word(run.kind), text(run.stroke, Kind::Length, system),
        run.frequency > 0.0 ? Cell(fmt::format("{:.3g}", run.frequency), run.frequency) : "-",
        text(run.top_speed, Kind::Speed, system)};
    if (run.cycles.empty()) {
      if (unit.springs.in) row.insert(row.end(), {"-", "-"});
      row.insert(row.end(), {"-", "-", "-", "-", run.finished ? "stalled" : "stopped"});
    } else {
      const document::BenchCycle& last = run.cycles.back();
      const char* status = !run.finished                              ? "stopped"
                           : run.outcome.ok()                         ? ""
                           : run.outcome.status == Status::OutOfRange ? "range"
                                                                      : "stalled";
      row.insert(row.end(), {text(last.compression_force, Kind::Force, system),
                             text(last.rebound_force, Kind::Force, system)});
      if (unit.springs.in)
        row.insert(row.end(), {text(last.damper_compression_force, Kind::Force, system),
                               text(last.damper_rebound_force, Kind::Force, system)});
      row.insert(row.end(), {text(last.energy_in, Kind::Energy, system),
                             text(last.phase_lag, Kind::Angle, System::Metric, {.decimals = 1}), status});
    }
    t.rows.push_back(std::move(row));
  }
  t.note = unit.springs.words +
           " A positive force pushes the rod out. Static force and friction are included. Lag: how far the "
           "force of the damper is behind the speed; a damper has 0 degrees, a spring 90 degrees.";
  return t;
}

/// Pressures, gas, free piston and heat.
Table inside_table(const document::BenchUnit& unit, System system) {
  Table t;
  t.title = unit.name + ": inside";
  t.columns = {{"no.", "", false},
               number("lowest", Kind::Pressure, system, kAbsolute),
               words("in the"),
               number("gas out", Kind::Volume, system),
               number("piston from", Kind::Length, system),
               number("to", Kind::Length, system),
               number("oil", Kind::Temperature, system),
               {"fade", "%", false}};
  for (std::size_t i = 0; i < unit.runs.size(); ++i) {
    if (unit.runs[i].cycles.empty()) continue;
    const document::BenchCycle& last = unit.runs[i].cycles.back();
    const bool piston = unit.piston_travel_out > 0.0;
    t.rows.push_back({run_number(i), text(last.lowest_pressure, Kind::Pressure, system),
                      short_word(last.lowest_chamber), text(last.released_air, Kind::Volume, system),
                      piston ? text(last.piston_travel_least, Kind::Length, system) : "-",
                      piston ? text(last.piston_travel_most, Kind::Length, system) : "-",
                      text(last.temperature_end, Kind::Temperature, system),
                      text(unit.runs[i].fade, Kind::Fraction, System::Metric, {.decimals = 1})});
  }
  t.note = fmt::format(
      "Air leaves this oil below {}.",
      units::format_plain(unit.release_pressure, Kind::Pressure, system, {.reference = kAbsolute}));
  return t;
}

/// Travel lost after each turn, and the air that a loop points at.
Table turns_table(const document::BenchUnit& unit, System system) {
  Table t;
  t.title = unit.name + ": travel after a turn until half of the force is there";
  t.columns = {{"no.", "", false},
               words("turn to"),
               number("travel", Kind::Length, system),
               number("without air", Kind::Length, system),
               words("air from the loop")};
  for (std::size_t i = 0; i < unit.runs.size(); ++i) {
    const document::BenchRun& run = unit.runs[i];
    for (std::size_t k = 0; k < run.turns.size(); ++k) {
      std::string air;
      if (k == 0 && run.air)
        air = run.air->air > 0.0
                  ? fmt::format("{} in the {}", units::format_plain(run.air->air, Kind::Volume, system),
                                word(run.air->chamber))
                  : "no air";
      t.rows.push_back({run_number(i), word(run.turns[k].stroke),
                        text(run.turns[k].travel, Kind::Length, system),
                        run.turns[k].clean ? text(*run.turns[k].clean, Kind::Length, system) : "-", air});
    }
  }
  return t;
}

/// A measured force next to the computed one, in brief.
Table measured_table(const document::BenchUnit& unit, System system) {
  Table t;
  t.title = unit.name + ": measured loops";
  t.columns = {{"no.", "", false},
               words("air in"),
               number("amount", Kind::Volume, system),
               number("error", Kind::Volume, system),
               number("bench", Kind::SpringRate, system),
               {"misfit", "%", false},
               {"without air", "%", false}};
  const auto percent = [](double share) {
    return text(share, Kind::Fraction, System::Metric, {.decimals = 1});
  };
  for (std::size_t i = 0; i < unit.runs.size(); ++i) {
    const document::BenchRun& run = unit.runs[i];
    if (!run.measured || !run.air) continue;
    t.rows.push_back({run_number(i), word(run.air->chamber), text(run.air->air, Kind::Volume, system),
                      text(run.air->uncertainty, Kind::Volume, system),
                      run.air->stiffness ? text(*run.air->stiffness, Kind::SpringRate, system) : "rigid",
                      percent(run.air->misfit), percent(run.air->misfit_clean)});
  }
  t.note =
      "Air of less than two errors says nothing. \"Bench\" is the stiffness of frame, mounts and load cell.";
  return t;
}

/// A time, for a table that is only written as CSV.
Cell seconds(double time) {
  return {"", time};
}

Table loop_table(const document::BenchUnit& unit, std::size_t index, System system) {
  const document::BenchRun& run = unit.runs[index];
  const document::BenchLoop& loop = run.loop;
  Table t;
  t.title = fmt::format("{}: run {}, last cycle", unit.name, index + 1);
  t.columns = {{"run", "", false},
               {"time", "s", false},
               number("travel", Kind::Length, system),
               number("speed", Kind::Speed, system),
               number("force", Kind::Force, system),
               number("springs", Kind::Force, system),
               number("compression chamber", Kind::Pressure, system, kAbsolute),
               number("rod chamber", Kind::Pressure, system, kAbsolute),
               number("reservoir", Kind::Pressure, system, kAbsolute),
               number("gas", Kind::Volume, system),
               number("free piston", Kind::Length, system),
               number("oil", Kind::Temperature, system)};
  const auto full = [&](double si, Kind kind) { return text(si, kind, system); };
  for (std::size_t i = 0; i < loop.time.size(); ++i)
    t.rows.push_back({run_number(index), seconds(loop.time[i]), full(loop.travel[i], Kind::Length),
                      full(loop.speed[i], Kind::Speed), full(loop.force[i], Kind::Force),
                      full(loop.springs[i], Kind::Force), full(loop.compression_pressure[i], Kind::Pressure),
                      full(loop.rod_pressure[i], Kind::Pressure),
                      full(loop.reservoir_pressure[i], Kind::Pressure),
                      full(loop.released_air[i], Kind::Volume), full(loop.piston_travel[i], Kind::Length),
                      full(loop.temperature[i], Kind::Temperature)});
  return t;
}

/// What happened in the steps, and to the well bled unit when its rod was let go.
Table events_table(const document::BenchUnit& unit, System system) {
  Table t;
  t.title = unit.name + ": what happens";
  t.columns = {words("run"),
               {"time", "s", false},
               number("travel", Kind::Length, system),
               number("force", Kind::Force, system),
               words("")};
  const auto add = [&](const std::string& run, const std::vector<document::BenchEvent>& events,
                       double begin) {
    for (const document::BenchEvent& event : events)
      t.rows.push_back({run, Cell(fmt::format("{:.4f}", event.time - begin), event.time - begin),
                        text(event.travel, Kind::Length, system),
                        text(std::abs(event.force) < kNothing ? 0.0 : event.force, Kind::Force, system),
                        event.what});
  };
  for (std::size_t i = 0; i < unit.runs.size(); ++i)
    if (unit.runs[i].kind == document::RunKind::Step && !unit.runs[i].loop.time.empty())
      add(run_number(i), unit.runs[i].events, unit.runs[i].loop.time.front());
  if (!unit.release_traces.empty()) add("let go", unit.release_traces.front().events, 0.0);
  return t;
}

/// The rod let go, over time, state by state.
Table traces_table(const document::BenchUnit& unit, System system) {
  Table t;
  t.title = unit.name + ": let go over time";
  t.columns = {words("let go"),
               {"time", "s", false},
               number("travel", Kind::Length, system),
               number("speed", Kind::Speed, system),
               number("force", Kind::Force, system),
               number("springs", Kind::Force, system),
               number("compression chamber", Kind::Pressure, system, kAbsolute),
               number("rod chamber", Kind::Pressure, system, kAbsolute)};
  const auto full = [&](double si, Kind kind) { return text(si, kind, system); };
  for (const document::ReleaseTrace& trace : unit.release_traces)
    for (std::size_t i = 0; i < trace.time.size(); ++i)
      t.rows.push_back({trace.name, seconds(trace.time[i]), full(trace.travel[i], Kind::Length),
                        full(trace.speed[i], Kind::Speed), full(trace.force[i], Kind::Force),
                        full(trace.springs[i], Kind::Force),
                        full(trace.compression_pressure[i], Kind::Pressure),
                        full(trace.rod_pressure[i], Kind::Pressure)});
  return t;
}

}  // namespace

Table release_table(const std::string& unit, const document::ReleaseTest& test, System system) {
  Table t;
  t.title = fmt::format("{}: pushed in {} and let go", unit,
                        units::format_plain(test.pushed_to, Kind::Length, system));
  t.name = unit + ": hand test";
  t.columns = {words("state"),
               number("air", Kind::Volume, system),
               number("drag", Kind::Force, system),
               number("push", Kind::Force, system),
               number("short by", Kind::Length, system),
               {"after", "s", false},
               number("speed", Kind::Speed, system),
               number("reads as", Kind::Volume, system)};
  for (const document::ReleaseCase& one : test.cases)
    t.rows.push_back({one.air > 0.0 ? "air left" : one.name, text(one.air, Kind::Volume, system),
                      text(one.seal_friction, Kind::Force, system), text(one.push_force, Kind::Force, system),
                      one.fully_out ? "fully out" : text(one.rest_travel, Kind::Length, system),
                      one.arrived ? Cell(fmt::format("{:.2f}", one.time), one.time)
                                  : Cell(fmt::format("more than {:.0f}", one.time)),
                      text(one.top_speed, Kind::Speed, system),
                      one.reads_as ? text(*one.reads_as, Kind::Volume, system) : ""});
  t.note = test.words;
  return t;
}

std::vector<Table> bench_tables(const document::BenchDocument& document, System system, bool loops) {
  std::vector<Table> tables;
  for (const document::BenchUnit& unit : document.units) {
    tables.push_back(runs_table(unit, system));
    tables.push_back(inside_table(unit, system));
    if (unit.air_compression + unit.air_rod + unit.air_reservoir > 0.0)
      tables.push_back(turns_table(unit, system));
    if (Table measured = measured_table(unit, system); !measured.rows.empty())
      tables.push_back(std::move(measured));
    if (unit.release) tables.push_back(release_table(unit.name, *unit.release, system));
    if (Table events = events_table(unit, system); !events.rows.empty()) tables.push_back(std::move(events));
    if (!loops) continue;
    for (std::size_t i = 0; i < unit.runs.size(); ++i)
      if (!unit.runs[i].loop.time.empty()) tables.push_back(loop_table(unit, i, system));
    if (!unit.release_traces.empty()) tables.push_back(traces_table(unit, system));
  }
  return tables;
}

}  // namespace shimwright::cli
