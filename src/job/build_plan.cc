#include "job/build_plan.h"

#include <fmt/core.h>

#include <algorithm>

#include "job/build_plan_steps.h"
#include "job/run_header.h"

namespace shimwright::job {
namespace internal {
namespace {

constexpr double kGaugeAccuracy = 0.02;  // of a hand gauge (common practice, no source)

}  // namespace

document::BuildStep& PlanDraft::add(std::string text, std::string why) {
  document::BuildStep& step = plan.steps.emplace_back();
  step.number = static_cast<int>(plan.steps.size());
  step.section = section;
  step.text = std::move(text);
  step.why = std::move(why);
  return step;
}

bool PlanDraft::has_made(UnitState state) const {
  return std::ranges::any_of(plan.steps, [&](const document::BuildStep& step) {
    return std::ranges::find(step.makes, state) != step.makes.end();
  });
}

std::vector<UnitState> PlanDraft::made_of(std::initializer_list<UnitState> states) const {
  std::vector<UnitState> made;
  for (const UnitState state : states)
    if (has_made(state)) made.push_back(state);
  return made;
}

UnitTraits traits_of(const file::UnitSpec& spec) {
  UnitTraits traits;
  const bool has_kind = spec.reservoir && spec.reservoir->kind;
  traits.has_damper = spec.piston_valve || spec.foot_valve;
  traits.open_bath = spec.layout && spec.layout.value == file::Layout::OpenBath;
  traits.charged = has_kind && spec.reservoir->kind.value == file::ReservoirKind::Gas;
  traits.sprung = has_kind && spec.reservoir->kind.value == file::ReservoirKind::SprungPiston;
  traits.is_leg = spec.kind.value_or(file::UnitKind::ForkLeg) == file::UnitKind::ForkLeg;
  traits.filled_open = !traits.is_leg || (spec.layout && spec.layout.value == file::Layout::ReservoirShock);
  traits.outer_oil =
      traits.is_leg && (spec.trapped_air || (spec.fill && (spec.fill->outer || spec.fill->tube)));
  return traits;
}

document::HoldPoint length_hold(std::string what, double expected, double tolerance) {
  document::HoldPoint hold;
  hold.what = std::move(what);
  hold.expected = document::computed(expected, units::Kind::Length);
  hold.low = document::computed(expected - tolerance, units::Kind::Length);
  hold.high = document::computed(expected + tolerance, units::Kind::Length);
  return hold;
}

document::HoldPoint pressure_hold(std::string what, const file::Quantity& pressure) {
  document::HoldPoint hold;
  hold.what = std::move(what);
  hold.expected = typed_value(pressure);
  hold.low = hold.high = hold.expected;
  hold.low->typed.clear();
  hold.high->typed.clear();
  hold.low->si *= 1.0 - kGaugeAccuracy;
  hold.high->si *= 1.0 + kGaugeAccuracy;
  return hold;
}

document::HoldPoint look_hold(std::string what) {
  document::HoldPoint hold;
  hold.what = std::move(what);
  hold.yes_or_no = true;
  return hold;
}

}  // namespace internal

namespace {

std::string how_many(const document::UnitResult& unit) {
  if (unit.count < 2) return fmt::format("This sheet is for the {}.", unit.name);
  const std::string all = unit.count == 2 ? "both" : "all " + document::count_word(unit.count);
  return fmt::format("This sheet is for one {}. Build {} the same way, one after the other.", unit.name, all);
}

}  // namespace

std::string oil_words(const document::UnitResult& unit) {
  return unit.oil.empty() ? "oil" : document::readable(unit.oil);
}

document::BuildPlan build_plan(const file::UnitSpec& spec, const document::UnitResult& unit,
                               const document::ConditionSummary& conditions, const document::Phrase& phrase) {
  document::BuildPlan plan;
  plan.unit = unit.name;
  plan.before = {
      "If the maker's service manual says something else, follow the manual.",
      "Gas under pressure, preloaded springs and hot threads can injure you. Only qualified people may do "
      "structural work, or work on a machine for the road. Follow the local rules.",
      how_many(unit),
      "Write each measured value into its box. If a value is outside its range, stop the work.",
  };
  internal::PlanDraft draft{spec, unit, conditions, phrase, plan};
  internal::add_prepare_steps(draft);
  internal::add_rod_steps(draft);
  for (const ValvePlace place : {ValvePlace::Piston, ValvePlace::Foot}) {
    const bool stated = (place == ValvePlace::Piston ? spec.piston_valve : spec.foot_valve).has_value();
    const auto valve = std::ranges::find(unit.valves, place, &document::ValveResult::place);
    if (valve != unit.valves.end()) {
      internal::add_valve_steps(draft, *valve);
    } else if (stated) {
      // nothing could be computed of it: its parts go on all the same
      internal::add_valve_steps(draft, {.place = place});
    }
  }
  internal::add_damper_steps(draft);
  internal::add_leg_steps(draft);
  internal::add_setting_steps(draft);
  return plan;
}

}  // namespace shimwright::job
