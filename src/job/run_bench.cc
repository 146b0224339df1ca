#include "job/run_bench.h"

#include "job/asked_values.h"

#include <fmt/core.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <mutex>

#include "damper/air_reading.h"
#include "damper/bench_reading.h"
#include "document/document_json.h"
#include "document/document_plots_bench.h"
#include "job/bench_springs.h"
#include "job/plan_bench.h"
#include "job/run_header.h"
#include "job/run_motion.h"
#include "job/run_release.h"
#include "judge/findings.h"
#include "num/curve.h"
#include "resolve/resolve_motion.h"

namespace shimwright::job {
namespace {

constexpr double kTolerance = 1e-6;     // of each step in time
constexpr double kMarginWanted = 20e3;  // above the release pressure (common practice, no source) [Pa]
constexpr double kRaiseMost = 3e6;      // that a reservoir could ever be raised by [Pa]
constexpr double kAirMost = 10e-6;      // that a loop is read for [m^3]
constexpr int kReadingSamples = 100;    // of a loop that is read for air
constexpr double kReleasedSpeed = 8.0;  // that a rod let go on its main spring does not pass [m/s]
constexpr double kRecordRoom = 1.3;     // a record's speed between samples over that of its samples

/// One unit with all it is to do.
struct UnitOnBench {
  const file::UnitSpec* spec = nullptr;
  resolve::DamperParts damper;
  resolve::MotionParts motion;
  damper::MotionModel clean;  // the same without air left and without springs
  SpringsOnBench springs;
  damper::MotionModel by_hand;  // of the try by hand, with or without springs
  bool has_air = false;
  std::vector<PlannedRun> plan;
};

struct Task {
  std::size_t unit = 0;
  std::size_t run = 0;
};

struct Bench {
  file::JobSpec job;  // with the clicks and the air of the options
  BenchOptions options;
  document::Phrase phrase;
  resolve::Conditions conditions;
  resolve::ResolveReport report;
  std::vector<UnitOnBench> units;
  document::BenchDocument document;
  plate::Workspace workspace;
};

// ---- from the spec to models

bool on_bench(const file::JobSpec& job, const file::UnitSpec& unit) {
  if (!unit.piston_valve && !unit.foot_valve) return false;
  return !job.bench || !job.bench->unit || job.bench->unit.value == unit.name.value;
}

void set_air(Bench& bench) {
  if (!bench.options.air_in_rod_chamber) return;
  if (!bench.job.bench) bench.job.bench.emplace();
  if (!bench.job.bench->air_left) bench.job.bench->air_left.emplace();
  file::Quantity& air = bench.job.bench->air_left->rod;
  air.si = *bench.options.air_in_rod_chamber;
  air.given = true;
  air.kind = units::Kind::Volume;
  air.origin = {};
  air.origin.asked = "the air left in the rod chamber";
}

void set_springs(Bench& bench) {
  if (!bench.options.with_springs) return;
  if (!bench.job.bench) bench.job.bench.emplace();
  bench.job.bench->with_springs = {*bench.options.with_springs, true, bench.job.bench->origin};
}

double start_temperature(const Bench& bench) {
  if (bench.options.oil_temperature) return *bench.options.oil_temperature;
  return bench.job.bench ? bench.job.bench->oil_temperature.value_or(bench.conditions.oil_temperature)
                         : bench.conditions.oil_temperature;
}

void resolve_unit_on_bench(Bench& bench, const file::UnitSpec& spec) {
  auto damper = resolve::resolve_damper(bench.job, spec, bench.conditions, bench.report);
  if (!damper) return;
  if (!spec.travel) {
    bench.report.missing.push_back(
        {"the bench run of \"" + spec.name.value + "\"", "the travel of the unit", "travel", spec.origin});
    return;
  }
  std::vector<PlannedRun> plan = planned_runs(bench.job, spec, bench.phrase, bench.report.diagnostics);

  resolve::MotionRequest request;
  request.oil_temperature = start_temperature(bench);
  request.air_temperature = bench.conditions.fill_temperature;
  request.ambient_pressure = bench.conditions.ambient_pressure;
  request.theory = bench.options.theory;
  request.air_left = bench.job.bench && bench.job.bench->air_left ? &*bench.job.bench->air_left : nullptr;
  for (const PlannedRun& run : plan)
    request.top_speed = std::max(
        request.top_speed, run.top_speed * (run.kind == document::RunKind::Recorded ? kRecordRoom : 1.02));
  auto motion = resolve::resolve_motion(bench.job, spec, *damper, request, bench.report, bench.workspace);
  if (!motion) return;
  SpringsOnBench springs =
      springs_on_bench(bench.job, spec, bench.conditions, motion->model, bench.phrase, bench.report);
  if (!bench.job.bench || bench.job.bench->drives.empty())
    motion->assumptions.push_back(
        "The job has no drive. The program uses a sine over one sixth of the travel, at the four usual "
        "speeds for this kind of unit.");

  damper::MotionModel clean = motion->model;
  bool has_air = false;
  for (damper::MotionChamber* chamber : {&clean.compression, &clean.rod, &clean.reservoir.oil}) {
    has_air = has_air || chamber->trapped_air > 0.0;
    chamber->trapped_air = 0.0;
  }
  std::optional<resolve::MotionParts> quick;
  const bool springs_by_hand = springs_in_hand_test(bench.job) && springs.springs;
  if (springs_by_hand) {
    // its valves see more than those of the drives, whose tables stay what they are
    request.top_speed = std::max(request.top_speed, kReleasedSpeed);
    quick = resolve::resolve_motion(bench.job, spec, *damper, request, bench.report, bench.workspace);
  }
  damper::MotionModel by_hand = quick ? std::move(quick->model) : motion->model;
  if (springs_by_hand) by_hand.springs = springs.springs;
  if (springs.told.in) motion->model.springs = springs.springs;
  bench.units.push_back({&spec, std::move(*damper), std::move(*motion), std::move(clean), std::move(springs),
                         std::move(by_hand), has_air, std::move(plan)});
}

document::BenchUnit describe(const UnitOnBench& unit) {
  const damper::MotionModel& model = unit.motion.model;
  document::BenchUnit result;
  result.name = unit.spec->name.value;
  if (unit.spec->kind) result.kind = word(unit.spec->kind.value);
  if (unit.spec->layout) result.layout = word(unit.spec->layout.value);
  if (unit.spec->oil) result.oil = unit.spec->oil->name;
  result.travel = model.travel;
  result.piston_area = model.piston_area;
  result.rod_area = model.rod_area;
  result.oil_temperature = model.temperature;
  result.reservoir_pressure = damper::rest_at(model, 0.0).pressure;
  result.release_pressure = model.oil.release_pressure;
  result.compression_volume = model.compression.volume;
  result.rod_volume = model.rod.volume;
  result.air_compression = model.compression.trapped_air;
  result.air_rod = model.rod.trapped_air;
  result.air_reservoir = model.reservoir.oil.trapped_air;
  if (model.heat) result.heat_capacity = model.heat->capacity;
  if (model.reservoir.piston) {
    result.piston_travel_in = model.reservoir.piston->travel_in;
    result.piston_travel_out = model.reservoir.piston->travel_out;
  }
  result.assumptions = unit.motion.assumptions;
  result.springs = unit.springs.told;
  result.runs.resize(unit.plan.size());
  return result;
}

// ---- one run

damper::MotionOptions motion_options(const document::BenchDocument& document, const PlannedRun& plan) {
  damper::MotionOptions options;
  options.tolerance = document.tolerance;
  options.samples_per_cycle = plan.samples;
  options.last_cycle_only = true;
  return options;
}

document::BenchRun begin_run(const PlannedRun& plan) {
  document::BenchRun run;
  run.name = plan.name;
  run.kind = plan.kind;
  run.stroke = plan.stroke;
  run.middle = plan.middle;
  run.frequency = plan.frequency;
  run.top_speed = plan.top_speed;
  run.n_cycles = plan.n_cycles;
  return run;
}

/// The measured force of a record beside the computed one, evenly spaced.
document::MeasuredLoop measured_loop(const file::RecordedStroke& record, const damper::MotionResult& result) {
  document::MeasuredLoop measured;
  const num::Curve force = num::monotone_curve(record.time, record.force);
  for (const damper::MotionSample& sample : result.samples) {
    measured.time.push_back(sample.time);
    measured.travel.push_back(sample.travel);
    measured.force.push_back(num::value_at(force, sample.time));
    measured.computed.push_back(sample.force);
  }
  return measured;
}

document::AirReading air_reading(const damper::AirEstimate& estimate, bool give_fitted) {
  document::AirReading reading;
  reading.chamber = oil_chamber(estimate.chamber);
  reading.air = estimate.air;
  reading.uncertainty = estimate.uncertainty;
  reading.significant = estimate.significant;
  if (estimate.give > 0.0) reading.stiffness = 1.0 / estimate.give;
  reading.stiffness_fitted = give_fitted;
  reading.misfit = estimate.misfit;
  reading.misfit_clean = estimate.misfit_clean;
  reading.outcome = estimate.outcome;
  return reading;
}

/// A force over time, and what gives between the rod and where its travel was measured [m/N].
struct LoopToRead {
  const std::vector<double>& time;
  const std::vector<double>& force;         // all that the bench holds against
  const std::vector<double>& damper_force;  // springs taken off
  std::optional<double> give;               // empty: to be found
};

/// What a bench would read from the damper's force in this loop; the model knows nothing of the air.
std::optional<document::AirReading> read_air(const LoopToRead& loop, const damper::MotionModel& clean,
                                             const damper::Drive& drive, const damper::MotionOptions& like) {
  const std::vector<double>& time = loop.time;
  const num::Curve curve = num::monotone_curve(time, loop.damper_force);
  std::vector<double> even;
  const double span = time.back() - time.front();
  for (int i = 0; i < kReadingSamples; ++i)
    even.push_back(num::value_at(curve, time.front() + span * i / kReadingSamples));
  damper::MotionOptions options;
  options.tolerance = std::max(like.tolerance, 1e-6);
  options.proceed = like.proceed;
  const damper::MeasuredLoop measured{even, loop.give, num::monotone_curve(time, loop.force)};
  const damper::AirEstimate estimate = damper::air_from_loop(measured, clean, drive, kAirMost, options);
  if (estimate.stopped) return std::nullopt;
  return air_reading(estimate, !loop.give);
}

/// Force less the springs' at the same travel: what the damper does of it.
std::vector<double> without_springs(const std::vector<double>& force, const std::vector<double>& travel,
                                    const damper::MotionModel& model) {
  std::vector<double> alone = force;
  if (model.springs)
    for (std::size_t i = 0; i < alone.size(); ++i)
      alone[i] -= spring::force_at(model.springs->unit, model.springs->conditions, travel[i]).force;
  return alone;
}

struct RunContext {
  const UnitOnBench& unit;
  const PlannedRun& plan;
  const document::BenchDocument& document;
  bool read_air = false;  // fit the air to the computed loop: dear, so one run of a unit
};

/// What the turns of the loop show, beside a unit without air.
void add_turns(const RunContext& context, const damper::MotionOptions& options, document::BenchRun& run) {
  run.turns = turns_of(run.loop);
  if (!context.unit.has_air || run.turns.empty()) return;
  const damper::MotionResult clean = damper::run_motion(context.unit.clean, context.plan.drive, options);
  if (clean.stopped) return;
  const std::vector<document::TurnLag> turns = turns_of(loop_of(clean));
  for (std::size_t i = 0; i < std::min(turns.size(), run.turns.size()); ++i)
    run.turns[i].clean = turns[i].travel;
}

/// What the loop, or the record, says of air.
void add_reading(const RunContext& context, const damper::MotionResult& result,
                 const damper::MotionOptions& options, document::BenchRun& run) {
  const PlannedRun& plan = context.plan;
  const damper::MotionModel& model = context.unit.motion.model;
  if (plan.spec != nullptr && !plan.spec->record.force.empty()) {
    run.measured = measured_loop(plan.spec->record, result);
    const document::MeasuredLoop& measured = *run.measured;
    std::optional<double> give;
    if (plan.spec->stiffness) give = 1.0 / plan.spec->stiffness.si;
    run.air = read_air(
        {measured.time, measured.force, without_springs(measured.force, measured.travel, model), give},
        context.unit.clean, plan.drive, options);
  } else if (context.read_air) {
    // the loop is the model's own: nothing gives
    run.air = read_air(
        {run.loop.time, run.loop.force, without_springs(run.loop.force, run.loop.travel, model), 0.0},
        context.unit.clean, plan.drive, options);
  }
}

document::BenchRun computed_run(const RunContext& context, const std::function<bool(double)>& proceed) {
  const PlannedRun& plan = context.plan;
  damper::MotionOptions options = motion_options(context.document, plan);
  options.proceed = proceed;
  const damper::MotionResult result = damper::run_motion(context.unit.motion.model, plan.drive, options);

  document::BenchRun run = begin_run(plan);
  run.finished = !result.stopped;
  run.loop = loop_of(result);
  for (std::size_t i = 0; i < result.cycles.size(); ++i)
    run.cycles.push_back(cycle_of(result.cycles[i], static_cast<int>(i) + 1));
  run.events = events_of(result.events, run.kind == document::RunKind::Step);
  run.n_steps = result.n_steps;
  run.outcome = result.outcome;
  if (std::isfinite(result.settled)) run.settled = result.settled;
  if (result.cycles.size() > 2) run.fade = damper::fade(result.cycles[1], result.cycles.back());
  if (!run.finished || run.outcome.status == Status::Stalled) return run;

  if (plan.frequency > 0.0) add_turns(context, options, run);
  add_reading(context, result, options, run);
  return run;
}

/// Of the runs with an even stroke, the fastest: there air shows most.
std::size_t run_to_read(const UnitOnBench& unit) {
  std::size_t best = unit.plan.size();
  for (std::size_t i = 0; i < unit.plan.size(); ++i) {
    if (unit.plan[i].frequency <= 0.0) continue;
    if (best == unit.plan.size() || unit.plan[i].top_speed > unit.plan[best].top_speed) best = i;
  }
  return best;
}

// ---- all runs

/// Counts what is done over all threads and asks whether to go on.
class Counter {
 public:
  /// `share`: of each task in the whole, in any unit.
  Counter(const BenchOptions& options, std::vector<double> share)
      : options_(options), share_(std::move(share)), done_(share_.size(), 0.0) {}

  bool go_on(std::size_t task, double done, std::string_view what) {
    const std::lock_guard<std::mutex> lock(mutex_);
    done_[task] = std::max(done_[task], done);
    if (stopped_ || !options_.progress) return !stopped_;
    double sum = 0.0;
    double whole = 0.0;
    for (std::size_t i = 0; i < share_.size(); ++i) {
      sum += share_[i] * done_[i];
      whole += share_[i];
    }
    stopped_ = !options_.progress(sum / whole, what);
    return !stopped_;
  }
  bool stopped() {
    const std::lock_guard<std::mutex> lock(mutex_);
    return stopped_;
  }

 private:
  const BenchOptions& options_;
  std::mutex mutex_;
  std::vector<double> share_;
  std::vector<double> done_;
  bool stopped_ = false;
};

std::vector<Task> tasks_of(const Bench& bench) {
  std::vector<Task> tasks;
  for (std::size_t u = 0; u < bench.units.size(); ++u)
    for (std::size_t r = 0; r < bench.units[u].plan.size(); ++r) tasks.push_back({u, r});
  return tasks;
}

/// The tasks' shares, then for each unit what follows from its runs: about a tenth of a run.
std::vector<double> shares_of(std::size_t n_tasks, std::size_t n_units) {
  std::vector<double> shares(n_tasks, 1.0);
  shares.resize(n_tasks + n_units, 0.1);
  return shares;
}

void run_all(Bench& bench, const std::vector<Task>& tasks, Counter& counter) {
  bench.document.n_runs = static_cast<int>(tasks.size());
  const auto one = [&](std::size_t i) {
    const UnitOnBench& unit = bench.units[tasks[i].unit];
    const PlannedRun& plan = unit.plan[tasks[i].run];
    document::BenchRun& result = bench.document.units[tasks[i].unit].runs[tasks[i].run];
    result = begin_run(plan);
    if (!counter.go_on(i, 0.0, plan.name)) return;
    const bool read = unit.has_air && tasks[i].run == run_to_read(unit);
    result = computed_run({unit, plan, bench.document, read},
                          [&](double done) { return counter.go_on(i, 0.99 * done, plan.name); });
    counter.go_on(i, 1.0, plan.name);
  };
  if (bench.options.run_all) {
    bench.options.run_all(tasks.size(), one);
  } else {
    for (std::size_t i = 0; i < tasks.size(); ++i) one(i);
  }
  for (const document::BenchUnit& unit : bench.document.units)
    for (const document::BenchRun& run : unit.runs) bench.document.n_finished += run.finished ? 1 : 0;
}

// ---- what follows from them

/// A drive of no more cycles than the pressures need to settle.
damper::Drive in_brief(damper::Drive drive) {
  constexpr int kSettled = 2;
  if (auto* sine = std::get_if<damper::SineDrive>(&drive))
    sine->n_cycles = std::min(sine->n_cycles, kSettled);
  if (auto* triangle = std::get_if<damper::TriangleDrive>(&drive))
    triangle->n_cycles = std::min(triangle->n_cycles, kSettled);
  return drive;
}

/// The run whose chamber falls lowest, when it falls too low.
void add_reservoir_advice(const UnitOnBench& unit, const document::BenchDocument& document,
                          const std::function<bool(double)>& proceed, document::BenchUnit& result) {
  const PlannedRun* worst = nullptr;
  damper::MotionModel model = unit.motion.model;
  double lowest = result.release_pressure + kMarginWanted;
  for (std::size_t i = 0; i < result.runs.size(); ++i) {
    if (!result.runs[i].finished || result.runs[i].outcome.status == Status::Stalled) continue;
    const document::BenchCycle& last = result.runs[i].cycles.back();
    if (last.lowest_pressure >= lowest) continue;
    lowest = last.lowest_pressure;
    worst = &unit.plan[i];
    model.temperature = last.temperature_end;  // as warm as the run ends
  }
  if (worst == nullptr) return;
  damper::MotionOptions options;
  options.tolerance = document.tolerance;
  options.samples_per_cycle = 0;
  options.keep_events = false;
  options.proceed = proceed;
  const damper::ReservoirNeed need =
      damper::reservoir_need(model, in_brief(worst->drive), kMarginWanted, kRaiseMost, options);
  if (need.stopped) return;
  result.reservoir = document::ReservoirAdvice{worst->name,   lowest,        kMarginWanted,
                                               need.raise_by, need.pressure, need.outcome};
}

/// Air came out somewhere, and the job leaves open how soon it goes back.
void assume_return_time(const UnitOnBench& unit, const document::Phrase& phrase,
                        document::BenchUnit& result) {
  const auto& oil = unit.spec->oil;
  if (oil && oil->air_return_time) return;
  const auto lets_air_out = [](const document::BenchRun& run) {
    return std::ranges::any_of(run.cycles, [](const auto& cycle) { return cycle.released_air > 0.0; });
  };
  if (std::ranges::none_of(result.runs, lets_air_out)) return;
  result.assumptions.push_back(
      fmt::format("Air comes out of the oil, and the job does not say in what time it goes back. The program "
                  "assumes {}. Another time can change the energy of a run by a quarter.",
                  phrase(unit.motion.model.oil.return_time, units::Kind::Time)));
}

/// What follows from the runs of a unit, and the try by hand.
void follow_up(Bench& bench, std::size_t i, const std::function<bool(double)>& proceed) {
  const UnitOnBench& unit = bench.units[i];
  document::BenchUnit& result = bench.document.units[i];
  assume_return_time(unit, bench.phrase, result);
  add_reservoir_advice(unit, bench.document, proceed, result);
  const file::HandTestSpec* hand =
      bench.job.bench && bench.job.bench->hand_test ? &*bench.job.bench->hand_test : nullptr;
  HandTestRun released = hand_test_run(unit.by_hand, hand, bench.phrase, proceed);
  if (released.stopped) return;
  result.release = std::move(released.test);
  result.release_traces = std::move(released.traces);
}

void close(Bench& bench) {
  Outcome outcome;
  for (const document::BenchUnit& unit : bench.document.units) {
    for (const document::BenchRun& run : unit.runs)
      if (run.finished) outcome = worse(outcome, run.outcome);
    for (const std::string& sentence : unit.assumptions) {
      auto& warnings = bench.document.header.warnings;
      if (std::ranges::find(warnings, sentence) == warnings.end()) warnings.push_back(sentence);
    }
  }
  for (const std::string& path : document::non_finite_paths(bench.document)) {
    outcome = {Status::Stalled, 0, 0.0, "The number " + path + " could not be calculated."};
    bench.document.header.warnings.push_back(outcome.note);
  }
  bench.document.header.outcome = outcome;
}

}  // namespace

Result<document::BenchDocument, RunFault> run_bench_job(const file::JobSpec& spec,
                                                        const BenchOptions& options) {
  Bench bench{.job = spec, .options = options, .phrase = {options.system}};
  bench.conditions = resolve::resolve_conditions(bench.job);
  set_clicks(bench.job, options.clicks, bench.report.diagnostics);
  judge_asked(options, bench.report.diagnostics);
  // no physics is asked about what was refused
  if (!bench.report.diagnostics.empty()) return failure(RunFault{std::move(bench.report.diagnostics), false});
  set_air(bench);
  set_springs(bench);

  // from the spec to models, with all faults at once
  for (const file::UnitSpec& unit : bench.job.units)
    if (on_bench(bench.job, unit)) resolve_unit_on_bench(bench, unit);
  if (bench.units.empty() && bench.report.diagnostics.empty() && bench.report.missing.empty())
    bench.report.missing.push_back({"the bench run", "a unit with its valves", "unit", file::Origin{}});
  for (const file::Missing& missing : bench.report.missing)
    bench.report.diagnostics.push_back(resolve::missing_fault(bench.job, missing));
  if (!bench.report.diagnostics.empty()) {
    sort_by_place(bench.report.diagnostics);
    return failure(RunFault{std::move(bench.report.diagnostics), false});
  }

  // the runs, then what follows from them
  RunOptions header_options;
  header_options.theory = options.theory;
  bench.document.header = header_of(bench.job, header_options);
  bench.document.conditions = condition_summary(bench.job, bench.conditions);
  bench.document.tolerance =
      bench.job.bench && bench.job.bench->tolerance ? bench.job.bench->tolerance.value : kTolerance;
  for (const UnitOnBench& unit : bench.units) bench.document.units.push_back(describe(unit));
  const std::vector<Task> tasks = tasks_of(bench);
  Counter counter(bench.options, shares_of(tasks.size(), bench.units.size()));
  run_all(bench, tasks, counter);
  for (std::size_t i = 0; i < bench.units.size() && !counter.stopped(); ++i)
    follow_up(bench, i, [&](double done) {
      return counter.go_on(tasks.size() + i, done, "the try by hand of the " + bench.document.units[i].name);
    });
  bench.document.stopped = counter.stopped();
  close(bench);
  bench.document.findings = judge::judge_bench(bench.job, bench.document, bench.phrase);
  for (document::BenchUnit& unit : bench.document.units)
    unit.plots = document::bench_plots(unit, bench.phrase.system);
  return std::move(bench.document);
}

}  // namespace shimwright::job
