#include "document/document_describe_list.h"
#include "document/document_spring.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<SpringPoint>() {
  static constexpr FieldInfo fields[] = {
      field<&SpringPoint::travel>("travel", Kind::Length, "Travel of the unit from fully out."),
      field<&SpringPoint::force>("force", Kind::Force, "Force of all springs."),
      field<&SpringPoint::rate>("rate", Kind::SpringRate, "Rate of all springs there."),
      field<&SpringPoint::shares>("shares", Kind::Force, "Force of each spring, in the order of `names`."),
  };
  static constexpr auto info =
      structure<SpringPoint>("SpringPoint", "One point of the spring curve of a unit.", fields);
  return info;
}

template <>
const StructInfo& describe<SpringEffect>() {
  static constexpr FieldInfo fields[] = {
      field<&SpringEffect::what>("what", "For example \"0.1 bar more in the positive chamber\"."),
      field<&SpringEffect::change>("change", "The change itself."),
      field<&SpringEffect::at_sag>("at_sag", Kind::Force,
                                   "Change of force at rider sag, or at a third of the travel."),
      field<&SpringEffect::at_middle>("at_middle", Kind::Force, "Change of force at half travel."),
      field<&SpringEffect::at_end>("at_end", Kind::Force, "Change of force at full travel."),
  };
  static constexpr auto info = structure<SpringEffect>(
      "SpringEffect", "What a small change of one thing does to the spring force.", fields);
  return info;
}

template <>
const StructInfo& describe<SagResult>() {
  static constexpr FieldInfo fields[] = {
      field<&SagResult::under>("name", "What stands on the springs: the machine alone, or with its rider."),
      field<&SagResult::load>("load", Kind::Force, "Load that the springs of this end carry."),
      field<&SagResult::travel>("travel", Kind::Length, "Sag at the unit."),
      field<&SagResult::wheel_travel>("wheel_travel", Kind::Length, "Sag at the wheel."),
      field<&SagResult::share>("share", Kind::Fraction, "Sag as a part of the full travel."),
      field<&SagResult::low>("low", "Least sag wanted, at the wheel, as the job says."),
      field<&SagResult::high>("high", "Most sag wanted, at the wheel."),
      field<&SagResult::usual_target>("usual_target",
                                      "The job states no target: this is what is usually aimed for off the "
                                      "road (common practice, no source)."),
      field<&SagResult::topped_out>("topped_out", "The springs push harder than the load even fully out."),
      field<&SagResult::bottomed>("bottomed", "The load is more than the springs carry at full travel."),
      field<&SagResult::knob>("knob", "What is turned for it: \"positive pressure\", \"preload\"."),
      field<&SagResult::change>(
          "change",
          "Change of that knob that brings all sags of this end into their targets; absent: "
          "within the target already, or no change in reach does it."),
      field<&SagResult::need>("need", "What the spring must be instead where the knob alone does not do it."),
      field<&SagResult::cure>("cure", "That change as keys of the job; absent: there is none."),
      field<&SagResult::outcome>("outcome", "How the sag was solved."),
  };
  static constexpr auto info = structure<SagResult>("SagResult", "Sag of one end of the machine.", fields);
  return info;
}

template <>
const StructInfo& describe<SpringResult>() {
  static constexpr FieldInfo fields[] = {
      field<&SpringResult::names>("names",
                                  "For example \"air, positive\", \"air, negative\", \"coil\", \"top-out\"."),
      field<&SpringResult::travel>("travel", Kind::Length, "Full travel."),
      field<&SpringResult::points>("points", "Ascending in travel."),
      field<&SpringResult::effects>("effects", "What small changes do."),
      field<&SpringResult::sag>("sag", "Static and rider sag."),
      field<&SpringResult::air_end_travel>("air_end_travel", Kind::Length,
                                           "Travel at which the air is used up: the leg is full of oil."),
      field<&SpringResult::coil_bind_travel>("coil_bind_travel", Kind::Length,
                                             "Travel at which a coil is solid."),
      field<&SpringResult::positive_pressure>(
          "positive_pressure", kAbsolute,
          "Pressure now set in the positive chamber, at working temperature and altitude."),
      field<&SpringResult::preload_force>("preload_force", Kind::Force, "Force at zero travel."),
      field<&SpringResult::end_force>("end_force", Kind::Force, "Force at full travel."),
      field<&SpringResult::outcome>("outcome", "How the curve was solved."),
  };
  static constexpr auto info = structure<SpringResult>("SpringResult", "The springs of one unit.", fields);
  return info;
}

}  // namespace shimwright::document
