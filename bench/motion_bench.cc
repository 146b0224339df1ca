// The fork example on a bench: from its job file to loops. Aim: a cycle at a tolerance of 1e-6 at least 200
// times quicker than it lasts, on one core; a sweep of 20 frequencies within a second.
#include <benchmark/benchmark.h>

#include <cmath>
#include <numbers>
#include <string>

#include "damper/air_reading.h"
#include "damper/bench_reading.h"
#include "damper/motion.h"
#include "file/load.h"
#include "resolve/resolve_damper.h"
#include "resolve/resolve_motion.h"

namespace {

using namespace shimwright;
using namespace shimwright::damper;

double disc(double diameter) {
  return 0.25 * std::numbers::pi * diameter * diameter;
}

/// The example's damper; what the job file does not state (volumes, masses, heat) is written here.
MotionModel fork(bool floating) {
  file::DiskFiles files;
  const auto loaded =
      file::load_job(files, std::string(SW_SOURCE_DIR) + "/examples/enduro-fork/enduro-fork.job.toml");
  resolve::ResolveReport report;
  const auto parts = resolve::resolve_damper(loaded.job, loaded.job.units.at(0),
                                             resolve::resolve_conditions(loaded.job), report);
  plate::Workspace workspace;
  const SolvedDamper solved = solve_damper(parts->model, parts->liquid, 4.0, {}, workspace);
  const Chambers& chambers = parts->model.chambers;

  MotionModel model;
  model.piston_area = chambers.piston_area;
  model.rod_area = chambers.rod_area;
  model.atmospheric_pressure = chambers.atmospheric_pressure;
  model.travel = 0.3;
  model.seal_friction = chambers.seal_friction;
  model.oil.bulk_modulus = parts->oil.bulk_modulus;
  model.oil.entrained_air = 0.002;
  model.oil.release_pressure = chambers.release_pressure;
  model.compression.volume = model.piston_area * 0.33;
  model.rod.volume = 20e-6;
  model.reservoir.oil.volume = 45e-6;
  model.reservoir.dry_pressure = chambers.atmospheric_pressure;
  model.reservoir.piston = FreePiston{.area = disc(26e-3),
                                      .mass = 0.03,
                                      .friction = 4.0,
                                      .spring_force = 90.0,
                                      .spring_rate = 3000.0,
                                      .travel_in = 5e-3,
                                      .travel_out = 80e-3};
  const double temperatures[] = {parts->temperature};
  model.laws = laws_over_temperature(parts->model, solved.stacks, parts->oil, temperatures);
  model.temperature = parts->temperature;
  model.heat = HeatModel{.capacity = 700.0, .loss = 2.0, .air_temperature = 303.15};
  if (floating)
    model.float_valve = FloatingValve{.swept_area = disc(20.5e-3) - disc(12e-3),
                                      .gap = 0.3e-3,
                                      .opening_drop = 4.0 / 220e-6,
                                      .full_drop = 4.6 / 220e-6,
                                      .settle_time = 1e-3};
  return model;
}

/// Peak speeds at a stroke of 100 mm: 0.5, 1 and 2 m/s.
SineDrive stroke(double peak_speed, int n_cycles) {
  return {.middle = 0.15,
          .amplitude = 0.05,
          .frequency = peak_speed / (2 * std::numbers::pi * 0.05),
          .n_cycles = n_cycles};
}

void report(benchmark::State& state, double seconds_moved, int steps) {
  state.counters["times_real"] =
      benchmark::Counter(seconds_moved, benchmark::Counter::kIsIterationInvariantRate);
  state.counters["steps"] = steps;
}

/// One settled cycle, the third of three; figures and 200 samples.
void one_cycle(benchmark::State& state) {
  const MotionModel model = fork(state.range(1) != 0);
  const SineDrive drive = stroke(static_cast<double>(state.range(0)) / 10.0, 3);
  int steps = 0;
  for (auto _ : state) {
    const MotionResult result = run_motion(model, drive);
    steps = result.n_steps / 3;
    benchmark::DoNotOptimize(result);
    if (!result.outcome.ok()) state.SkipWithError(result.outcome.note.c_str());
  }
  report(state, 3.0 / drive.frequency, steps);
}
BENCHMARK(one_cycle)
    ->ArgNames({"dm_per_s", "float"})
    ->ArgsProduct({{5, 10, 20}, {0, 1}})
    ->Unit(benchmark::kMillisecond);

/// An example as `shimwright bench` moves it: everything that its job file says.
MotionModel as_on_the_bench(const char* job_file, double top_speed) {
  file::DiskFiles files;
  const auto loaded = file::load_job(files, std::string(SW_SOURCE_DIR) + "/examples/" + job_file);
  const file::UnitSpec& unit = loaded.job.units.at(0);
  const resolve::Conditions conditions = resolve::resolve_conditions(loaded.job);
  resolve::ResolveReport report;
  plate::Workspace workspace;
  const auto parts = resolve::resolve_damper(loaded.job, unit, conditions, report);
  resolve::MotionRequest request;
  request.oil_temperature = conditions.oil_temperature;
  request.air_temperature = conditions.fill_temperature;
  request.ambient_pressure = conditions.ambient_pressure;
  request.top_speed = 1.02 * top_speed;
  return resolve::resolve_motion(loaded.job, unit, *parts, request, report, workspace)->model;
}

struct Example {
  const char* name;
  const char* job_file;
  double stroke, peak_speed;
};
constexpr Example kExamples[] = {{"fork, 1 m/s", "enduro-fork/enduro-fork.job.toml", 0.1, 1.0},
                                 {"fork, 2 m/s", "enduro-fork/enduro-fork.job.toml", 0.1, 2.0},
                                 {"shock, 0.5 m/s", "enduro-shock/enduro-shock.job.toml", 0.018, 0.5},
                                 {"shock, 1.5 m/s", "enduro-shock/enduro-shock.job.toml", 0.018, 1.5},
                                 {"trail fork, 2 m/s", "trail-fork/trail-fork.job.toml", 0.1, 2.0}};

/// A settled cycle of an example over its usual stroke.
void example(benchmark::State& state) {
  const Example& of = kExamples[state.range(0)];
  const MotionModel model = as_on_the_bench(of.job_file, of.peak_speed);
  const SineDrive drive{.middle = 0.5 * model.travel,
                        .amplitude = 0.5 * of.stroke,
                        .frequency = of.peak_speed / (std::numbers::pi * of.stroke),
                        .n_cycles = 3};
  int steps = 0;
  for (auto _ : state) {
    const MotionResult result = run_motion(model, drive);
    steps = result.n_steps / 3;
    benchmark::DoNotOptimize(result);
    if (!result.outcome.ok()) state.SkipWithError(result.outcome.note.c_str());
  }
  report(state, 3.0 / drive.frequency, steps);
  state.SetLabel(of.name);
}
BENCHMARK(example)->DenseRange(0, 4)->Unit(benchmark::kMillisecond);

/// Twenty frequencies from 0.5 to 10 Hz at a stroke of 60 mm, three cycles each.
void sweep(benchmark::State& state) {
  const MotionModel model = fork(true);
  double moved = 0.0;
  int steps = 0;
  for (auto _ : state) {
    moved = 0.0;
    steps = 0;
    for (int i = 0; i < 20; ++i) {
      const double frequency = 0.5 * std::pow(20.0, i / 19.0);
      const MotionResult result = run_motion(
          model, SineDrive{.middle = 0.15, .amplitude = 0.03, .frequency = frequency, .n_cycles = 3});
      steps += result.n_steps;
      moved += 3.0 / frequency;
    }
  }
  report(state, moved, steps);
}
BENCHMARK(sweep)->Unit(benchmark::kMillisecond);

void release(benchmark::State& state) {
  MotionModel model = fork(true);
  model.compression.trapped_air = 2e-6;
  double time = 0.0;
  for (auto _ : state) time = rod_release(model, {.pushed_to = 0.25, .moving_mass = 0.4}).time;
  report(state, time, 0);
}
BENCHMARK(release)->Unit(benchmark::kMillisecond);

/// The air that a measured loop points at.
void air(benchmark::State& state) {
  const MotionModel clean = fork(true);
  MotionModel bad = clean;
  bad.rod.trapped_air = 2e-6;
  const SineDrive drive = stroke(1.0, 2);
  std::vector<double> force;
  const MotionResult loop = run_motion(bad, drive);
  for (std::size_t i = loop.samples.size() - 201; i + 1 < loop.samples.size(); ++i)
    force.push_back(loop.samples[i].force);
  for (auto _ : state) benchmark::DoNotOptimize(air_from_loop({force, 0.0, {}}, clean, drive, 10e-6));
}
BENCHMARK(air)->Unit(benchmark::kMillisecond);

}  // namespace
