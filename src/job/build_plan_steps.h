#pragma once
#include <initializer_list>
#include <string>

#include "job/build_plan.h"

namespace shimwright::job::internal {

using document::PartKind;
using document::PartRef;
using document::UnitState;

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

  /// True when a step so far makes this. A step asks for what this unit really has: an open leg has no gas.
  bool has_made(UnitState state) const;
  /// Of these states those that a step so far makes.
  std::vector<UnitState> made_of(std::initializer_list<UnitState> states) const;
};

/// What decides the order of the work.
struct UnitTraits {
  bool has_damper = false;   // a valve is stated
  bool open_bath = false;    // the leg's own oil is the damper's
  bool filled_open = false;  // oil first, then the rod: a shock's body; else the rod first, then the oil
  bool charged = false;      // gas under pressure holds the oil
  bool sprung = false;       // a piston on a spring holds it
  bool is_leg = false;       // of a fork
  bool outer_oil = false;    // oil stands in the leg around the damper
};
UnitTraits traits_of(const file::UnitSpec& spec);

/// A hold point for a length with its tolerance either way.
document::HoldPoint length_hold(std::string what, double expected, double tolerance);
/// A hold point for a set pressure, as well as a hand gauge tells it.
document::HoldPoint pressure_hold(std::string what, const file::Quantity& pressure);
/// A hold point that is a yes or a no.
document::HoldPoint look_hold(std::string what);

void add_prepare_steps(PlanDraft& draft);
void add_rod_steps(PlanDraft& draft);
void add_valve_steps(PlanDraft& draft, const document::ValveResult& valve);
void add_damper_steps(PlanDraft& draft);
void add_acceptance_steps(PlanDraft& draft);
void add_leg_steps(PlanDraft& draft);
void add_setting_steps(PlanDraft& draft);

/// Pours what one room of the fill takes; nothing when the fill does not say. True when a step was added.
bool add_pour_step(PlanDraft& draft, document::FillRoom room, std::initializer_list<UnitState> needs,
                   std::initializer_list<UnitState> makes);
/// Fits what holds the gas, before any pressure.
void add_gas_side_step(PlanDraft& draft);

}  // namespace shimwright::job::internal
