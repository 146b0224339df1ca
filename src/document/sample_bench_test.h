#pragma once
#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "document/document_bench.h"

/// A bench document made by hand, for tests of what shows it: nothing here is computed by a damper.
namespace shimwright::document::sample {

inline document::BenchRun swing(double speed) {
  document::BenchRun run;
  run.kind = RunKind::Sine;
  run.name = "sine 50 mm";
  run.stroke = 0.05;
  run.frequency = speed / (std::numbers::pi * run.stroke);
  run.top_speed = speed;
  run.n_cycles = 2;
  run.finished = true;
  constexpr int kPoints = 80;
  for (int i = 0; i <= kPoints; ++i) {
    const double phase = 2.0 * std::numbers::pi * i / kPoints;
    run.loop.time.push_back(phase / (2.0 * std::numbers::pi * run.frequency));
    run.loop.travel.push_back(0.15 - 0.025 * std::cos(phase));
    run.loop.speed.push_back(speed * std::sin(phase));
    run.loop.force.push_back(60.0 + 300.0 * speed * std::sin(phase));
    run.loop.friction.push_back(0.0);
    run.loop.lock.push_back(0.0);
    run.loop.springs.push_back(0.0);
    run.loop.compression_pressure.push_back(4e5 + 5e5 * speed * std::max(0.0, std::sin(phase)));
    run.loop.rod_pressure.push_back(4e5 - 5e5 * speed * std::min(0.0, std::sin(phase)));
    run.loop.reservoir_pressure.push_back(4e5);
    run.loop.released_air.push_back(0.0);
    run.loop.piston_travel.push_back(0.03 - 0.005 * std::cos(phase));
    run.loop.temperature.push_back(320.0);
  }
  for (int n = 1; n <= 2; ++n) {
    document::BenchCycle cycle;
    cycle.number = n;
    cycle.energy_in = 12.0;
    cycle.compression_force = 60.0 + 300.0 * speed;
    cycle.rebound_force = 60.0 - 300.0 * speed;
    cycle.damper_compression_force = cycle.compression_force;
    cycle.damper_rebound_force = cycle.rebound_force;
    cycle.lowest_pressure = 3e5;
    cycle.lowest_chamber = OilChamber::Rod;
    cycle.temperature_end = 313.0 + 4.0 * n;
    run.cycles.push_back(cycle);
  }
  return run;
}

/// A fork leg that swings at eight speeds and warms, with its try by hand.
inline document::BenchDocument bench() {
  document::BenchDocument document;
  document.header.title = "A bench of the tests";
  document.header.program_version = "0";
  document.header.job_hash = "0";
  document.tolerance = 1e-6;
  document::BenchUnit& unit = document.units.emplace_back();
  unit.name = "fork leg";
  unit.oil_temperature = 313.0;
  unit.release_pressure = 20e3;
  unit.heat_capacity = 500.0;
  unit.piston_travel_in = 5e-3;
  unit.piston_travel_out = 80e-3;
  unit.air_rod = 2e-6;
  for (const double speed : {0.1, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0}) unit.runs.push_back(swing(speed));
  unit.release.emplace();
  unit.release->words = "Let go, it comes out.";
  document::Finding finding;
  finding.code = "F701";
  finding.severity = Severity::Stop;
  finding.title = "A chamber runs dry.";
  finding.remedy = "Raise the pressure.";
  document.findings.push_back(finding);
  return document;
}

/// The sample with a spring of 5 N/mm in, a step and the rod let go.
inline document::BenchUnit bench_with_springs_and_step() {
  document::BenchUnit unit = bench().units[0];
  unit.springs = {true, {"coil"}, 50.0, 1500.0, "The springs are in (coil)."};
  for (document::BenchRun& run : unit.runs) {
    for (std::size_t i = 0; i < run.loop.time.size(); ++i) {
      run.loop.springs[i] = 5000.0 * run.loop.travel[i];
      run.loop.force[i] += run.loop.springs[i];
    }
    run.cycles.back().compression_force += 750.0;
  }
  document::BenchRun step;
  step.name = "step 100 mm to 200 mm in 0.1 s";
  step.kind = RunKind::Step;
  step.top_speed = 1.9;
  step.finished = true;
  document::ReleaseTrace trace;
  for (int i = 0; i <= 60; ++i) {
    const double t = 0.2 * i / 60.0;
    const double s = std::min(1.0, t / 0.1);
    const double travel = 0.1 + 0.1 * s * s * (3.0 - 2.0 * s);
    step.loop.time.push_back(t);
    step.loop.travel.push_back(travel);
    step.loop.speed.push_back(0.0);
    step.loop.springs.push_back(5000.0 * travel);
    step.loop.force.push_back(60.0 + 5000.0 * travel + 1500.0 * s * (1.0 - s));
    step.loop.lock.push_back(s > 0.9 && s < 1.0 ? 400.0 : 0.0);
    trace.time.push_back(t * t);
    trace.travel.push_back(0.2 * (1.0 - t / 0.2));
    trace.force.push_back(80.0 * (1.0 - t / 0.2));
    trace.springs.push_back(0.0);
  }
  for (int i = 0; i < 14; ++i)
    step.events.push_back({0.005 * i, 0.1, 600.0 + 20.0 * i, "event number " + std::to_string(i + 1)});
  step.cycles.push_back(unit.runs[0].cycles[0]);
  unit.runs.push_back(step);
  for (const char* name : {"well bled", "1 mL of air", "dragging seal"}) {
    trace.name = name;
    unit.release_traces.push_back(trace);
  }
  unit.release_traces[0].events = {{0.001, 0.19, 78.0, "the piston valve opens in rebound"}};
  return unit;
}

}  // namespace shimwright::document::sample
