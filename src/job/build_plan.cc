#include "job/build_plan.h"

#include <fmt/core.h>

#include "job/build_plan_steps.h"

namespace shimwright::job {
namespace internal {

document::BuildStep& PlanDraft::add(std::string text, std::string why) {
  document::BuildStep& step = plan.steps.emplace_back();
  step.number = static_cast<int>(plan.steps.size());
  step.section = section;
  step.text = std::move(text);
  step.why = std::move(why);
  return step;
}

document::HoldPoint length_hold(std::string what, double expected, double tolerance) {
  document::HoldPoint hold;
  hold.what = std::move(what);
  hold.expected = document::computed(expected, units::Kind::Length);
  hold.low = document::computed(expected - tolerance, units::Kind::Length);
  hold.high = document::computed(expected + tolerance, units::Kind::Length);
  return hold;
}

document::HoldPoint look_hold(std::string what) {
  document::HoldPoint hold;
  hold.what = std::move(what);
  hold.yes_or_no = true;
  return hold;
}

}  // namespace internal

document::BuildPlan build_plan(const file::UnitSpec& spec, const document::UnitResult& unit,
                               const document::ConditionSummary& conditions, const document::Phrase& phrase) {
  document::BuildPlan plan;
  plan.unit = unit.name;
  plan.before = {
      "If the maker's service manual says something else, follow the manual.",
      "Gas under pressure, preloaded springs and hot threads can injure you. Only qualified people may do "
      "structural work, or work on a machine for the road. Follow the local rules.",
      unit.count > 1
          ? fmt::format("This sheet is for one {}. Build all {} the same way, one after the other.",
                        unit.name, document::count_word(unit.count))
          : fmt::format("This sheet is for the {}.", unit.name),
      "Write each measured value into its box. If a value is outside its range, stop the work.",
  };
  internal::PlanDraft draft{spec, unit, conditions, phrase, plan};
  internal::add_prepare_steps(draft);
  for (const document::ValveResult& valve : unit.valves) internal::add_valve_steps(draft, valve);
  internal::add_closing_steps(draft);
  internal::add_fill_steps(draft);
  internal::add_bleed_steps(draft);
  internal::add_acceptance_steps(draft);
  internal::add_setting_steps(draft);
  return plan;
}

}  // namespace shimwright::job
