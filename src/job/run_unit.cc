#include "job/run_unit.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "job/run_force.h"
#include "job/run_header.h"
#include "job/run_memo.h"
#include "job/run_post.h"
#include "job/run_release.h"
#include "job/run_spring.h"
#include "job/run_valve.h"
#include "job/safe_reliefs.h"
#include "job/unit_stacks.h"
#include "job/value_key.h"
#include "resolve/resolve_motion.h"

namespace shimwright::job {
namespace {

constexpr double kLeastSpeed = 0.01;  // [m/s]

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

const file::HandTestSpec* hand_test_spec(const UnitRun& run) {
  const auto& bench = run.job->bench;
  return bench && bench->hand_test ? &*bench->hand_test : nullptr;
}

/// The damper of the filled unit, as warm as it is filled; nothing where it is not known well enough to be
/// moved.
std::optional<damper::MotionModel> filled_damper(const UnitModels& models, const UnitRun& run, bool at_rest,
                                                 plate::Workspace& workspace) {
  if (!models.damper || !models.solved) return std::nullopt;
  resolve::MotionRequest request;
  request.at_rest = at_rest;
  request.oil_temperature = run.conditions.fill_temperature;
  request.air_temperature = run.conditions.fill_temperature;
  request.ambient_pressure = run.conditions.ambient_pressure;
  request.theory = run.theory;
  request.solved = &*models.solved;
  resolve::ResolveReport ignored;  // the command bench reports what it needs
  const auto motion =
      resolve::resolve_motion(*run.job, *models.spec, *models.damper, request, ignored, workspace);
  if (!motion) return std::nullopt;
  return motion->model;
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
  if (spec.oil) result.oil = spec.oil->name.empty() ? "oil" : spec.oil->name;
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

/// The stacks that did not settle leave a damper without numbers: their directions say so, and nothing else
/// goes on from them. False when there is none.
bool tell_stalled(const damper::SolvedDamper& solved, document::UnitResult& result) {
  bool any = false;
  const auto tell = [&](ValvePlace place, const valve::ValveStacks& stacks) {
    document::ValveResult valve{.place = place};
    for (const auto& [stroke, curve] :
         {std::pair(Stroke::Compression, &stacks.compression), std::pair(Stroke::Rebound, &stacks.rebound)}) {
      if (!*curve || (*curve)->outcome.status != Status::Stalled) continue;
      valve.directions.push_back({.stroke = stroke, .outcome = (*curve)->outcome});
    }
    if (valve.directions.empty()) return;
    any = true;
    result.valves.push_back(std::move(valve));
  };
  tell(ValvePlace::Piston, solved.stacks.piston);
  tell(ValvePlace::Foot, solved.stacks.foot);
  return any;
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
  const double top = std::max({speeds.back(), models.judged.top, models.judged.key.back(),
                               models.judged.working_compression, models.judged.working_rebound});
  if (models.damper) {
    models.solved = solved_damper(*models.damper, run, top, workspace);
    if (tell_stalled(*models.solved, result)) models.solved.reset();
  }

  // how the stacks bend and what the damper gives need each other no more
  std::vector<document::StackResult> stacks;
  const auto bend = [&] {
    if (run.sections.stacks || run.sections.findings) stacks = stack_results(models, run, workspace);
  };
  const auto drive = [&] {
    if (!models.solved) return;
    if (run.sections.valves || run.sections.findings) add_valves(models, speeds, result);
    if (run.sections.force || run.sections.settings || run.sections.findings) {
      const auto harms = [&](const resolve::DamperParts& parts, const damper::DamperLaws& laws) {
        plate::Workspace own;  // the stacks may be bent beside this
        return harms_a_stack(models, run, parts, laws, own);
      };
      result.force = force_result(
          *models.damper, {&*models.solved, speeds, models.judged, run.memo, models.spec, harms}, run.phrase);
    }
  };
  if (run.run_all) {
    run.run_all(2, [&](std::size_t i) { i == 0 ? bend() : drive(); });
  } else {
    drive();
    bend();
  }
  keep_safe_reliefs(
      models, run,
      [&](const resolve::DamperParts& parts) { return solved_damper(parts, run, top, workspace); }, workspace,
      stacks);
  add_stacks(models, std::move(stacks), result);
  add_posts(models, run, result);
  if (models.springs) result.springs = springs_of(*models.springs, run);
  if (models.reservoir && models.oil)
    result.reservoir = reservoir_result(*models.reservoir, *models.oil, run.conditions);
  if (models.fill) {
    const auto filled = filled_damper(models, run, !run.sections.plan, workspace);
    result.fill = fill_result(*models.fill, filled ? &*filled : nullptr, hand_test_spec(run), run.phrase);
    if (filled && run.sections.plan)
      result.fill->release = release_test(*filled, hand_test_spec(run), run.phrase);
  }
  return result;
}

}  // namespace

document::UnitResult unit_result(UnitModels& models, const UnitRun& run, plate::Workspace& workspace) {
  // plan, settings and oils go on with the solved damper, which no memory keeps
  const bool goes_on = run.sections.plan || run.sections.settings || run.sections.oils;
  if (!run.memo || goes_on) return computed_unit(models, run, workspace);
  internal::ValueKey key;
  key.add(models.spec, models.judged, models.oil, models.damper, models.springs, models.stacks, models.posts,
          models.fill, models.reservoir);
  key.add(run.conditions, run.sections, run.theory, run.phrase, run.speeds, run.pressures);
  key.add(hand_test_spec(run));
  return *run.memo->units.get(std::move(key.bytes), [&] { return computed_unit(models, run, workspace); });
}

}  // namespace shimwright::job
