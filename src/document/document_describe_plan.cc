#include "document/document_describe_list.h"
#include "document/document_plan.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<HoldPoint>() {
  static constexpr FieldInfo fields[] = {
      field<&HoldPoint::what>("what", "For example \"height from shoulder to nut seat\"."),
      field<&HoldPoint::yes_or_no>("yes_or_no",
                                   "Look or feel, as `what` says; the numbers below then mean nothing."),
      field<&HoldPoint::expected>("expected", "The expected number."),
      field<&HoldPoint::low>("low", "Accepted from."),
      field<&HoldPoint::high>("high", "Accepted up to."),
  };
  static constexpr auto info =
      structure<HoldPoint>("HoldPoint", "A point of the work where you stop and measure.", fields);
  return info;
}

template <>
const StructInfo& describe<StepPicture>() {
  static constexpr FieldInfo fields[] = {
      field<&StepPicture::valve>("valve", "Whose post or stack it is."),
      field<&StepPicture::stack>("stack",
                                 "The stack that is drawn; absent: the post with all that is on it."),
  };
  static constexpr auto info =
      structure<StepPicture>("StepPicture", "What is shown beside a step of the work.", fields);
  return info;
}

template <>
const StructInfo& describe<PartRef>() {
  static constexpr FieldInfo fields[] = {
      field<&PartRef::kind>("kind", "What it is."),
      field<&PartRef::valve>("valve", "Its valve; absent: it belongs to no valve."),
      field<&PartRef::stroke>("stroke", "The stack it belongs to; absent: none."),
      field<&PartRef::index>("index",
                             "Which of its kind: the line of the ledger, the entry of the stack, the spring "
                             "or the chamber, from 0."),
  };
  static constexpr auto info =
      structure<PartRef>("PartRef", "One part of a unit, the same in step and pick list.", fields);
  return info;
}

template <>
const StructInfo& describe<BuildStep>() {
  static constexpr FieldInfo fields[] = {
      field<&BuildStep::number>("number", "Number of the step."),
      field<&BuildStep::section>(
          "section", "For example \"Prepare\", \"Piston valve\", \"Fill\", \"Bleed\", \"Accept\"."),
      field<&BuildStep::text>("text", "What to do."),
      field<&BuildStep::why>("why", "Why; empty when plain."),
      field<&BuildStep::caution>("caution", "Stands before the step; empty: none."),
      field<&BuildStep::hold>("hold", "Where to stop and measure."),
      field<&BuildStep::torque>("torque", "Torque for the large print, in both units."),
      field<&BuildStep::picture>("picture", "What is shown beside it; absent: nothing."),
      field<&BuildStep::parts>("parts", "The parts that it fits, pours or puts on."),
      field<&BuildStep::needs_parts>("needs_parts", "The parts that must be in their place before."),
      field<&BuildStep::needs>("needs", "What the unit must have come to before."),
      field<&BuildStep::makes>("makes", "What it brings the unit to."),
  };
  static constexpr auto info = structure<BuildStep>(
      "BuildStep", "One step at the vice. The numbers run on over all sections.", fields);
  return info;
}

template <>
const StructInfo& describe<BuildPlan>() {
  static constexpr FieldInfo fields[] = {
      field<&BuildPlan::unit>("unit", "Name of the unit."),
      field<&BuildPlan::before>(
          "before", "What to know first: the manual goes before this sheet, and what the sheet is not."),
      field<&BuildPlan::steps>("steps", "The steps, in order."),
  };
  static constexpr auto info = structure<BuildPlan>("BuildPlan", "The work on one unit, in order.", fields);
  return info;
}

template <>
const StructInfo& describe<PickLine>() {
  static constexpr FieldInfo fields[] = {
      field<&PickLine::part>("part", "For example \"shim 20 x 0.15 mm\"."),
      field<&PickLine::unit>("unit", "Name of its unit; empty: of the lone stack."),
      field<&PickLine::parts>("parts", "The parts of each unit that the line stands for."),
      field<&PickLine::where>("where", "For example \"fork leg, piston valve, compression\"."),
      field<&PickLine::count>("count", Kind::Number, "Pieces for all equal units; 0 for a fluid."),
      field<&PickLine::volume>("volume", Kind::Volume, "Volume of a fluid for all equal units."),
      field<&PickLine::in_hand>("in_hand", Kind::Number, "How many there are; absent: not stated."),
      field<&PickLine::short_by>("short_by", Kind::Number,
                                 "Pieces missing, all lines of this part together."),
      field<&PickLine::price>("price", Kind::Number,
                              "Price of one piece or of one litre, in the shop's own currency."),
      field<&PickLine::cost>("cost", Kind::Number, "Price of the line."),
  };
  static constexpr auto info = structure<PickLine>("PickLine", "One line of the pick list.", fields);
  return info;
}

template <>
const StructInfo& describe<PickList>() {
  static constexpr FieldInfo fields[] = {
      field<&PickList::lines>("lines", "One line for each part and place."),
      field<&PickList::total>("total", Kind::Number, "Price of the lines that have one."),
      field<&PickList::n_without_price>("n_without_price", "How many lines have no price."),
  };
  static constexpr auto info = structure<PickList>("PickList", "What to lay out before the work.", fields);
  return info;
}

template <>
const StructInfo& describe<Setting>() {
  static constexpr FieldInfo fields[] = {
      field<&Setting::name>("name", "For example \"compression needle\"."),
      field<&Setting::where>("where", "For example \"fork leg, foot valve\"."),
      field<&Setting::value>("value", "Clicks, pressure or turns."),
      field<&Setting::words>("words", "For example \"12 clicks out from seated, of 24\"."),
  };
  static constexpr auto info = structure<Setting>("Setting", "One thing that is set.", fields);
  return info;
}

template <>
const StructInfo& describe<ForceChange>() {
  static constexpr FieldInfo fields[] = {
      field<&ForceChange::stroke>("stroke", "The stroke."),
      field<&ForceChange::speed>("speed", Kind::Speed, "Damper speed."),
      field<&ForceChange::before>("before", Kind::Force, "Force as set."),
      field<&ForceChange::after>("after", Kind::Force, "Force after the turn."),
  };
  static constexpr auto info =
      structure<ForceChange>("ForceChange", "What one turn does to one stroke at one speed.", fields);
  return info;
}

template <>
const StructInfo& describe<FeelAdvice>() {
  static constexpr FieldInfo fields[] = {
      field<&FeelAdvice::feel>("feel", "For example \"dives on the brakes\"."),
      field<&FeelAdvice::turn>("turn", "For example \"compression needle 2 clicks in (to 10)\"."),
      field<&FeelAdvice::why>("why", "Why that helps."),
      field<&FeelAdvice::adjuster>("adjuster", "Name of the adjuster."),
      field<&FeelAdvice::clicks_change>("clicks_change", "How many clicks; negative: in."),
      field<&FeelAdvice::effect>(
          "effect", "What it does at three speeds, in each stroke that it acts in, of the unit."),
      field<&FeelAdvice::complaint>("complaint", "The rider complained of this."),
      field<&FeelAdvice::stroke>("stroke", "The stroke in which it is felt."),
  };
  static constexpr auto info =
      structure<FeelAdvice>("FeelAdvice", "For example \"If it feels so, turn this\".", fields);
  return info;
}

template <>
const StructInfo& describe<OtherCondition>() {
  static constexpr FieldInfo fields[] = {
      field<&OtherCondition::condition>(
          "condition", "For example \"10 K colder\", \"1000 m higher\", \"rider 5 kg heavier\"."),
      field<&OtherCondition::effect>("effect", "One sentence with the numbers."),
      field<&OtherCondition::action>("action", "What restores it."),
      field<&OtherCondition::numbers>("numbers", "The same numbers as data."),
      field<&OtherCondition::when>("when", "The condition as a change of the job; absent: it is none."),
      field<&OtherCondition::cure>("cure",
                                   "What to change then; its effects are those of the condition without and "
                                   "with it; absent: nothing."),
  };
  static constexpr auto info =
      structure<OtherCondition>("OtherCondition", "Other weather, another height, another rider.", fields);
  return info;
}

template <>
const StructInfo& describe<ClickEffect>() {
  static constexpr FieldInfo fields[] = {
      field<&ClickEffect::adjuster>("adjuster", "Name of the adjuster."),
      field<&ClickEffect::clicks_change>("clicks_change", "Clicks turned; negative: in."),
      field<&ClickEffect::effect>("effect", "What it does at three speeds, in each stroke that it acts in."),
  };
  static constexpr auto info =
      structure<ClickEffect>("ClickEffect", "What one click does, everything else as set.", fields);
  return info;
}

template <>
const StructInfo& describe<SettingsGuide>() {
  static constexpr FieldInfo fields[] = {
      field<&SettingsGuide::unit>("unit", "Name of the unit."),
      field<&SettingsGuide::settings>("settings", "What is set now."),
      field<&SettingsGuide::advice>("advice", "What to turn for a feel."),
      field<&SettingsGuide::per_click>("per_click", "What one click of each adjuster does."),
      field<&SettingsGuide::other>("other", "What to do in other conditions."),
  };
  static constexpr auto info =
      structure<SettingsGuide>("SettingsGuide", "What the rider may turn, and what it does.", fields);
  return info;
}

}  // namespace shimwright::document
