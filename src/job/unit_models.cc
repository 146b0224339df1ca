#include <optional>

#include "job/run_unit.h"
#include "resolve/resolve_motion.h"
#include "resolve/resolve_oil.h"

namespace shimwright::job {
namespace {

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

}  // namespace

Needs needs_of(const Sections& sections) {
  Needs needs;
  const bool all = sections.findings;
  needs.damper_if_any = sections.stacks || sections.oils || sections.fill || sections.plan;
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
  if (models.oil) models.reservoir = resolve::resolve_reservoir(unit, conditions);
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

}  // namespace shimwright::job
