#pragma once
#include <string>

#include "job/build_plan.h"

namespace shimwright::job::internal {

/// The plan while it grows: what each group of steps reads, and the one place where steps get their number.
struct PlanDraft {
  const file::UnitSpec& spec;
  const document::UnitResult& unit;
  const document::ConditionSummary& conditions;
  document::Phrase phrase;
  document::BuildPlan& plan;
  std::string section{};

  /// The next step; the caller fills in caution, hold point, torque and picture.
  document::BuildStep& add(std::string text, std::string why = {});
};

/// A hold point for a length with its tolerance either way.
document::HoldPoint length_hold(std::string what, double expected, double tolerance);
/// A hold point that is a yes or a no.
document::HoldPoint look_hold(std::string what);

void add_prepare_steps(PlanDraft& draft);
void add_valve_steps(PlanDraft& draft, const document::ValveResult& valve);
void add_closing_steps(PlanDraft& draft);
void add_fill_steps(PlanDraft& draft);
void add_bleed_steps(PlanDraft& draft);
void add_acceptance_steps(PlanDraft& draft);
void add_setting_steps(PlanDraft& draft);

}  // namespace shimwright::job::internal
