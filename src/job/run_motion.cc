#include "job/run_motion.h"

#include <algorithm>
#include <cmath>

namespace shimwright::job {
namespace {

using Kind = damper::MotionEventKind;

/// What both ways of an event are called.
struct EventWords {
  Kind kind;
  bool of_valve;  // comes at each stroke
  const char* rising;
  const char* falling;
};
constexpr EventWords kEventWords[] = {
    {Kind::CompressionAtRelease, false, "the compression chamber rises above the release pressure again",
     "the compression chamber drops below the release pressure"},
    {Kind::RodAtRelease, false, "the rod chamber rises above the release pressure again",
     "the rod chamber drops below the release pressure"},
    {Kind::FreePistonAtInnerStop, false, "the free piston hits its inner stop",
     "the free piston leaves its inner stop"},
    {Kind::FreePistonAtOuterStop, false, "the free piston hits its outer stop",
     "the free piston leaves its outer stop"},
    {Kind::PortUncovered, false, "the free piston uncovers its port", "the free piston covers its port"},
    {Kind::RestrictionEntered, false, "the oil lock begins", "the oil lock ends"},
    {Kind::BumpStopTouched, false, "the bump stop is reached", "the bump stop is left"},
    {Kind::RodFullyIn, false, "the rod bottoms out: all travel is used", "the rod leaves its inner end"},
    {Kind::RodFullyOut, false, "the rod is fully out", "the rod leaves its outer end"},
    {Kind::PistonOpensInCompression, true, "the piston valve opens in compression",
     "the piston valve shuts in compression"},
    {Kind::PistonOpensInRebound, true, "the piston valve opens in rebound",
     "the piston valve shuts in rebound"},
    {Kind::FootOpensInCompression, true, "the foot valve opens in compression",
     "the foot valve shuts in compression"},
    {Kind::FootOpensInRebound, true, "the foot valve opens in rebound", "the foot valve shuts in rebound"},
};

/// Sample from which the rod moves the other way, and up to the next such.
struct Span {
  std::size_t begin, end;
};

std::vector<Span> strokes_of(const document::BenchLoop& loop) {
  std::vector<Span> strokes;
  const std::size_t n = loop.travel.size();
  if (n < 3) return strokes;
  const auto going_in = [&](std::size_t i) { return loop.travel[i + 1] > loop.travel[i]; };
  std::size_t begin = 0;
  for (std::size_t i = 1; i + 1 < n; ++i) {
    if (going_in(i) == going_in(i - 1)) continue;
    strokes.push_back({begin, i});
    begin = i;
  }
  strokes.push_back({begin, n - 1});
  return strokes;
}

}  // namespace

document::OilChamber oil_chamber(damper::Chamber chamber) {
  if (chamber == damper::Chamber::Compression) return document::OilChamber::Compression;
  return chamber == damper::Chamber::Rod ? document::OilChamber::Rod : document::OilChamber::Reservoir;
}

document::BenchLoop loop_of(const damper::MotionResult& result) {
  document::BenchLoop loop;
  if (result.cycles.empty()) return loop;
  const damper::CycleFigures& last = result.cycles.back();
  const double rounding = 1e-9 * std::max(1.0, last.t_end);
  for (const damper::MotionSample& sample : result.samples) {
    if (sample.time < last.t_begin - rounding || sample.time > last.t_end + rounding) continue;
    loop.time.push_back(sample.time);
    loop.travel.push_back(sample.travel);
    loop.speed.push_back(sample.speed);
    loop.force.push_back(sample.force);
    loop.friction.push_back(sample.force_friction);
    loop.lock.push_back(sample.force_lock);
    loop.springs.push_back(sample.force_springs);
    loop.compression_pressure.push_back(sample.p_compression);
    loop.rod_pressure.push_back(sample.p_rod);
    loop.reservoir_pressure.push_back(sample.p_reservoir);
    loop.released_air.push_back(sample.released);
    loop.piston_travel.push_back(sample.piston_travel);
    loop.temperature.push_back(sample.temperature);
  }
  return loop;
}

document::BenchCycle cycle_of(const damper::CycleFigures& figures, int number) {
  document::BenchCycle cycle;
  cycle.number = number;
  cycle.energy_in = figures.energy_in;
  cycle.heat = figures.heat;
  cycle.stored_change = figures.stored_change;
  cycle.energy_error = figures.energy_error;
  cycle.compression_force = figures.peak_compression.value;
  cycle.compression_travel = figures.peak_compression.travel;
  cycle.rebound_force = figures.peak_rebound.value;
  cycle.rebound_travel = figures.peak_rebound.travel;
  cycle.damper_compression_force = figures.damper_compression.value;
  cycle.damper_rebound_force = figures.damper_rebound.value;
  cycle.compression_speed = figures.speed_compression;
  cycle.rebound_speed = figures.speed_rebound;
  cycle.phase_lag = figures.phase_lag;
  cycle.lowest_pressure = figures.lowest.value;
  cycle.lowest_chamber = oil_chamber(figures.lowest_chamber);
  cycle.lowest_travel = figures.lowest.travel;
  cycle.lowest_speed = figures.lowest.speed;
  cycle.released_air = figures.released_air;
  cycle.piston_travel_least = figures.piston_travel_min;
  cycle.piston_travel_most = figures.piston_travel_max;
  cycle.lock_pressure = figures.lock_pressure;
  cycle.oil_lost = figures.oil_lost;
  cycle.temperature_end = figures.temperature_end;
  return cycle;
}

std::vector<document::BenchEvent> events_of(const std::vector<damper::MotionEvent>& events, bool valves) {
  std::vector<document::BenchEvent> told;
  for (const damper::MotionEvent& event : events) {
    // a drop that changes its sign is left out: what opens and shuts says it
    const auto* words = std::ranges::find(kEventWords, event.kind, &EventWords::kind);
    if (words == std::end(kEventWords) || (words->of_valve && !valves)) continue;
    told.push_back({event.time, event.travel, event.force, event.rising ? words->rising : words->falling});
  }
  return told;
}

document::ReleaseTrace trace_of(const std::string& name, const damper::ReleaseResult& result) {
  document::ReleaseTrace trace;
  trace.name = name;
  for (const damper::MotionSample& sample : result.samples) {
    trace.time.push_back(sample.time);
    trace.travel.push_back(sample.travel);
    trace.speed.push_back(sample.speed);
    trace.force.push_back(sample.force);
    trace.springs.push_back(sample.force_springs);
    trace.compression_pressure.push_back(sample.p_compression);
    trace.rod_pressure.push_back(sample.p_rod);
  }
  trace.events = events_of(result.events, true);
  return trace;
}

std::vector<document::TurnLag> turns_of(const document::BenchLoop& loop) {
  std::vector<document::TurnLag> turns;
  const std::vector<Span> strokes = strokes_of(loop);
  if (strokes.size() != 2) return turns;
  for (const Span& span : strokes) {
    document::TurnLag turn;
    const bool in = loop.travel[span.end] > loop.travel[span.begin];
    turn.stroke = in ? Stroke::Compression : Stroke::Rebound;
    // force towards this stroke, from the turn on
    const auto damper = [&](std::size_t i) { return loop.force[i] - loop.springs[i]; };
    const auto rise = [&](std::size_t i) { return (in ? 1.0 : -1.0) * (damper(i) - damper(span.begin)); };
    double most = 0.0;
    for (std::size_t i = span.begin; i <= span.end; ++i) most = std::max(most, rise(i));
    for (std::size_t i = span.begin + 1; i <= span.end; ++i) {
      if (rise(i) < 0.5 * most) continue;
      const double step = rise(i) - rise(i - 1);
      const double share = step > 0.0 ? (0.5 * most - rise(i - 1)) / step : 1.0;
      const double travel = loop.travel[i - 1] + share * (loop.travel[i] - loop.travel[i - 1]);
      turn.travel = std::abs(travel - loop.travel[span.begin]);
      break;
    }
    turns.push_back(turn);
  }
  return turns;
}

}  // namespace shimwright::job
