#include "document/document_cure.h"
#include "document/document_describe_list.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<KeyChange>() {
  static constexpr FieldInfo fields[] = {
      field<&KeyChange::path>("path", "Path of the key in the job file, \"unit[0].reservoir.pressure\"."),
      field<&KeyChange::adjuster>("adjuster",
                                  "Name of the adjuster whose clicks these are; empty: it is no adjuster."),
      field<&KeyChange::from>("from", "Its value now."),
      field<&KeyChange::to>("to", "Its value afterwards."),
  };
  static constexpr auto info =
      structure<KeyChange>("KeyChange", "One key of the job with another value.", fields);
  return info;
}

template <>
const StructInfo& describe<CureEffect>() {
  static constexpr FieldInfo fields[] = {
      field<&CureEffect::goal>("goal", "What moves."),
      field<&CureEffect::stroke>("stroke", "In which stroke; absent: in neither."),
      field<&CureEffect::speed>("speed", Kind::Speed, "At which speed of the damper; absent: at none."),
      field<&CureEffect::under>("under", "Of a sag what stands on the springs; absent: it is no sag."),
      field<&CureEffect::valve>("valve", "Of a margin of a stack its valve; absent: it is none."),
      field<&CureEffect::drop>("drop", Kind::PressureDifference,
                               "At which drop over the stack; absent: at none."),
      field<&CureEffect::before>("before", "Without the change."),
      field<&CureEffect::after>("after", "With the change."),
  };
  static constexpr auto info = structure<CureEffect>(
      "CureEffect", "One number that a cure moves, as a run of the changed job gives it.", fields);
  return info;
}

template <>
const StructInfo& describe<Cure>() {
  static constexpr FieldInfo fields[] = {
      field<&Cure::unit>("unit", "Name of the unit."),
      field<&Cure::changes>("changes", "What to change, all of it together."),
      field<&Cure::effects>("effects", "What it does."),
  };
  static constexpr auto info = structure<Cure>(
      "Cure", "What to turn or to change, and what that does. Each cure of a list helps alone.", fields);
  return info;
}

}  // namespace shimwright::document
