#include "job/run_unit.h"
#include "file/judged_speeds.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "job/run_force.h"
#include "job/run_header.h"
#include "job/run_memo.h"
#include "job/run_post.h"
#include "job/run_release.h"
#include "job/run_spring.h"
#include "job/run_stack.h"
#include "job/run_valve.h"
#include "job/value_key.h"
#include "resolve/resolve_motion.h"
#include "resolve/resolve_oil.h"

namespace shimwright::job {
namespace {

/// Pressures of a stack in a file that says nothing of speeds or pressures [Pa]. A range that stacks see.
constexpr double kUsualPressures[] = {0.1e6, 0.2e6, 0.5e6, 1.0e6, 2.0e6};

constexpr double kLeastSpeed = 0.01;  // [m/s]

void resolve_stacks(const file::JobSpec& job, const file::ValveSpec& valve, ValvePlace place,
                    UnitModels& models, resolve::ResolveReport& report) {
  const double post = valve.post && valve.post->thread ? valve.post->thread.size.diameter : 0.0;
  const auto add = [&](const std::optional<file::DirectionSpec>& direction, Stroke stroke) {
    if (!direction || direction->stack.empty()) return;
    const std::string name = models.spec->name.value + ", " + word(place) + ", " + word(stroke);
    auto stack = resolve::resolve_stack(job, *direction, {name, post}, report);
    if (stack) models.stacks.push_back({place, stroke, std::move(*stack)});
  };
  add(valve.compression, Stroke::Compression);
  add(valve.rebound, Stroke::Rebound);
}

void take_stacks(const resolve::ValveParts& valve, UnitModels& models) {
  if (valve.compression_stack) {
    models.stacks.push_back({valve.place, Stroke::Compression, *valve.compression_stack});
  }
  if (valve.rebound_stack) models.stacks.push_back({valve.place, Stroke::Rebound, *valve.rebound_stack});
}

void resolve_post_of(const file::JobSpec& job, const std::optional<file::ValveSpec>& valve, ValvePlace place,
                     UnitModels& models, resolve::ResolveReport& report) {
  if (!valve) return;
  // a valve that says nothing of its post is not assembled here
  if (!valve->post && !valve->nut && valve->pieces.empty()) return;
  const std::string name = models.spec->name.value + ", " + word(place);
  auto post = resolve::resolve_post(job, *valve, name, report);
  if (post) models.posts.push_back({place, std::move(*post)});
}

// what to compute a stack at

struct StackStates {
  std::vector<double> pressures;
  bool assumed = false;
  double working = 0.0;
  double greatest = 0.0;
};

StackStates states_of(const UnitModels& models, const PlacedStack& stack, const UnitRun& run) {
  StackStates states;
  std::vector<double> at_key;
  if (models.solved) {
    const damper::Chambers chambers = resolve::chambers_in(*models.damper, stack.stroke);
    const bool compression = stack.stroke == Stroke::Compression;
    const double sign = compression ? 1.0 : -1.0;
    const double working = compression ? models.judged.working_compression : models.judged.working_rebound;
    for (const double key : models.judged.key) {
      const double speed = std::min(key, working);
      const damper::SteadyPoint point = damper::steady_point(chambers, models.solved->laws, sign * speed);
      const valve::ValveState& state = stack.place == ValvePlace::Piston ? point.piston : point.foot;
      if (std::abs(state.pocket) > 1.0) at_key.push_back(std::abs(state.pocket));
    }
  }
  states.assumed = at_key.empty() && run.pressures.empty();
  if (at_key.empty()) at_key.assign(std::begin(kUsualPressures), std::end(kUsualPressures));
  states.pressures = run.pressures.empty() ? at_key : run.pressures;
  std::ranges::sort(states.pressures);
  const auto twins =
      std::ranges::unique(states.pressures, [](double a, double b) { return b - a < 1e-6 * b; });
  states.pressures.erase(twins.begin(), twins.end());
  states.greatest = std::max(states.pressures.back(), 1.0);
  states.working =
      run.pressures.empty() ? at_key[at_key.size() / 2] : states.pressures[states.pressures.size() / 2];
  return states;
}

/// As models.stacks.
std::vector<document::StackResult> stack_results(const UnitModels& models, const UnitRun& run,
                                                 plate::Workspace& workspace) {
  std::vector<document::StackResult> results;
  for (const PlacedStack& stack : models.stacks) {
    const StackStates states = states_of(models, stack, run);
    const StackRun asked{run.theory,
                         run.phrase,
                         states.assumed,
                         states.pressures,
                         states.working,
                         states.greatest,
                         run.sections.stack_details,
                         run.sections.curves};
    const auto compute = [&] { return stack_result(stack.model, asked, workspace); };
    if (!run.memo) {
      results.push_back(compute());
      continue;
    }
    internal::ValueKey key;
    key.add(stack.model, asked);
    results.push_back(*run.memo->stacks.get(std::move(key.bytes), compute));
  }
  return results;
}

void add_stacks(const UnitModels& models, std::vector<document::StackResult> stacks,
                document::UnitResult& result) {
  for (std::size_t i = 0; i < stacks.size(); ++i) {
    const PlacedStack& stack = models.stacks[i];
    auto valve = std::ranges::find(result.valves, stack.place, &document::ValveResult::place);
    if (valve == result.valves.end()) {
      result.valves.push_back({});
      valve = std::prev(result.valves.end());
      valve->place = stack.place;
    }
    auto direction = std::ranges::find(valve->directions, stack.stroke, &document::DirectionResult::stroke);
    if (direction == valve->directions.end()) {
      valve->directions.push_back({});
      direction = std::prev(valve->directions.end());
      direction->stroke = stack.stroke;
    }
    direction->stack = std::move(stacks[i]);
  }
}

void add_valves(const UnitModels& models, const std::vector<double>& speeds, document::UnitResult& result) {
  const damper::Chambers& chambers = models.damper->model.chambers;
  const valve::SolvedValve piston{models.solved->stacks.piston, models.solved->laws.piston};
  result.valves.push_back(
      valve_result(models.damper->piston, {&piston, chambers.piston_area - chambers.rod_area, speeds}));
  if (models.damper->foot && models.solved->laws.foot) {
    const valve::SolvedValve foot{models.solved->stacks.foot, *models.solved->laws.foot};
    result.valves.push_back(valve_result(*models.damper->foot, {&foot, chambers.rod_area, speeds}));
  }
}

void add_posts(const UnitModels& models, const UnitRun& run, document::UnitResult& result) {
  for (const PlacedPost& post : models.posts) {
    auto valve = std::ranges::find(result.valves, post.place, &document::ValveResult::place);
    if (valve == result.valves.end()) {
      result.valves.push_back({});
      valve = std::prev(result.valves.end());
      valve->place = post.place;
    }
    valve->post = post_result(post.model, run.phrase);
    const auto& spec = post.place == ValvePlace::Piston ? models.spec->piston_valve : models.spec->foot_valve;
    add_directions(*spec, post.model, *valve->post);
  }
}

/// The try by hand of the filled unit; nothing where its damper is not known well enough to be moved.
std::optional<document::ReleaseTest> hand_test(const UnitModels& models, const UnitRun& run,
                                               plate::Workspace& workspace) {
  if (!models.damper || !models.solved) return std::nullopt;
  resolve::MotionRequest request;
  request.oil_temperature = run.conditions.fill_temperature;
  request.air_temperature = run.conditions.fill_temperature;
  request.ambient_pressure = run.conditions.ambient_pressure;
  request.theory = run.theory;
  request.solved = &*models.solved;
  resolve::ResolveReport ignored;  // the command bench reports what it needs
  const auto motion =
      resolve::resolve_motion(*run.job, *models.spec, *models.damper, request, ignored, workspace);
  if (!motion) return std::nullopt;
  const auto& bench = run.job->bench;
  return release_test(motion->model, bench && bench->hand_test ? &*bench->hand_test : nullptr, run.phrase);
}

document::UnitResult describe(const file::UnitSpec& spec) {
  document::UnitResult result;
  result.name = spec.name.value;
  if (spec.kind) result.kind = word(spec.kind.value);
  if (spec.layout) result.layout = word(spec.layout.value);
  result.count = spec.count.value_or(1);
  result.travel = spec.travel.value_or(0.0);
  result.piston_radius = 0.5 * spec.piston.value_or(0.0);
  result.rod_radius = 0.5 * spec.rod.value_or(0.0);
  if (spec.oil) result.oil = spec.oil->name;
  return result;
}

}  // namespace

std::vector<double> curve_speeds(double top, int n) {
  std::vector<double> speeds;
  for (int i = 0; i < n; ++i) {
    speeds.push_back(kLeastSpeed * std::pow(top / kLeastSpeed, static_cast<double>(i) / (n - 1)));
  }
  speeds.back() = top;
  return speeds;
}

Needs needs_of(const Sections& sections) {
  Needs needs;
  const bool all = sections.findings;
  needs.damper_if_any = sections.stacks || sections.oils;
  needs.damper = all || sections.valves || sections.force || sections.settings;
  needs.stacks = all || sections.stacks;
  needs.springs = all || sections.springs || sections.settings;
  needs.posts = all || sections.assembly || sections.plan || sections.pick_list;
  needs.fill = all || sections.fill || sections.plan || sections.pick_list;
  needs.oils = all || sections.oils;
  return needs;
}

UnitModels resolve_unit(const file::JobSpec& job, const file::UnitSpec& unit,
                        const resolve::Conditions& conditions, const Needs& needs,
                        resolve::ResolveReport& report) {
  UnitModels models;
  models.spec = &unit;
  models.judged = file::judged_speeds(unit.kind.value_or(file::UnitKind::ForkLeg));
  if (needs.damper) {
    models.damper = resolve::resolve_damper(job, unit, conditions, report);
    if (models.damper) {
      take_stacks(models.damper->piston, models);
      if (models.damper->foot) take_stacks(*models.damper->foot, models);
    }
  }
  if (needs.damper_if_any && !needs.damper) {
    // only to know at which drops the stacks work: missing values are not reported here
    resolve::ResolveReport ignored;
    models.damper = resolve::resolve_damper(job, unit, conditions, ignored);
    if (models.damper) {
      take_stacks(models.damper->piston, models);
      if (models.damper->foot) take_stacks(*models.damper->foot, models);
    }
  }
  if (needs.stacks && !models.damper) {
    // the force is not possible or not requested: only the stacks; the damper has reported its faults already
    resolve::ResolveReport alone;
    if (unit.piston_valve) resolve_stacks(job, *unit.piston_valve, ValvePlace::Piston, models, alone);
    if (unit.foot_valve) resolve_stacks(job, *unit.foot_valve, ValvePlace::Foot, models, alone);
    if (!needs.damper) report.add(alone);
  }
  if (models.damper) {
    models.oil = models.damper->oil;
  } else if (unit.oil && (needs.oils || needs.fill)) {
    resolve::ResolveReport alone;
    models.oil = resolve::resolve_oil(job, *unit.oil, conditions.ambient_pressure, alone);
    if (!needs.damper) report.add(alone);
  }
  if (needs.springs) {
    models.springs = resolve::resolve_springs(job, unit, conditions, report);
  }
  if (needs.posts) {
    resolve_post_of(job, unit.piston_valve, ValvePlace::Piston, models, report);
    resolve_post_of(job, unit.foot_valve, ValvePlace::Foot, models, report);
  }
  if (needs.fill) {
    models.fill = resolve::resolve_fill(job, unit, conditions, models.oil ? &*models.oil : nullptr, report);
  }
  return models;
}

namespace {

damper::SolvedDamper solved_damper(const resolve::DamperParts& parts, const UnitRun& run, double top,
                                   plate::Workspace& workspace) {
  plate::Options options;
  options.theory = run.theory;
  return damper::solve_damper(parts.model, top, [&](const valve::ValveModel& valve, double q_max) {
    const auto solve = [&] { return valve::solve_valve(valve, parts.liquid, q_max, options, workspace); };
    if (!run.memo) return solve();
    internal::ValueKey key;
    key.add(valve, parts.liquid, q_max, options);
    return *run.memo->valves.get(std::move(key.bytes), solve);
  });
}

document::SpringResult springs_of(const resolve::SpringModel& model, const UnitRun& run) {
  // effects are read at a third of the travel, about where the rider sits
  const auto compute = [&] { return spring_result(model, model.unit.travel / 3.0, run.phrase); };
  if (!run.memo) return compute();
  internal::ValueKey key;
  key.add(model, run.phrase);
  return *run.memo->springs.get(std::move(key.bytes), compute);
}

document::UnitResult computed_unit(UnitModels& models, const UnitRun& run, plate::Workspace& workspace) {
  document::UnitResult result = describe(*models.spec);
  std::vector<double> speeds = run.speeds.empty() ? curve_speeds(models.judged.top) : run.speeds;
  if (models.damper) {
    const double top = std::max({speeds.back(), models.judged.key.back(), models.judged.working_compression,
                                 models.judged.working_rebound});
    models.solved = solved_damper(*models.damper, run, top, workspace);
  }

  // how the stacks bend and what the damper gives need each other no more
  std::vector<document::StackResult> stacks;
  const auto bend = [&] {
    if (run.sections.stacks || run.sections.findings) stacks = stack_results(models, run, workspace);
  };
  const auto drive = [&] {
    if (!models.damper) return;
    if (run.sections.valves || run.sections.findings) add_valves(models, speeds, result);
    if (run.sections.force || run.sections.settings || run.sections.findings) {
      result.force =
          force_result(*models.damper, {&*models.solved, speeds, models.judged, run.memo}, run.phrase);
    }
  };
  if (run.run_all) {
    run.run_all(2, [&](std::size_t i) { i == 0 ? bend() : drive(); });
  } else {
    drive();
    bend();
  }
  add_stacks(models, std::move(stacks), result);
  add_posts(models, run, result);
  if (models.springs) result.springs = springs_of(*models.springs, run);
  if (models.fill) result.fill = fill_result(*models.fill, run.phrase);
  if (result.fill && run.sections.plan) result.fill->release = hand_test(models, run, workspace);
  return result;
}

}  // namespace

document::UnitResult unit_result(UnitModels& models, const UnitRun& run, plate::Workspace& workspace) {
  // plan, settings and oils go on with the solved damper, which no memory keeps
  const bool goes_on = run.sections.plan || run.sections.settings || run.sections.oils;
  if (!run.memo || goes_on) return computed_unit(models, run, workspace);
  internal::ValueKey key;
  key.add(models.spec, models.judged, models.oil, models.damper, models.springs, models.stacks, models.posts,
          models.fill);
  key.add(run.conditions, run.sections, run.theory, run.phrase, run.speeds, run.pressures);
  return *run.memo->units.get(std::move(key.bytes), [&] { return computed_unit(models, run, workspace); });
}

}  // namespace shimwright::job
