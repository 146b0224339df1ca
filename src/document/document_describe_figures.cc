#include "document/document_describe_list.h"
#include "document/document_figures.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<KeyFigure>() {
  static constexpr FieldInfo fields[] = {
      field<&KeyFigure::key>("key", "Name that stays the same from edit to edit: \"cavitation rebound\"."),
      field<&KeyFigure::label>("label", "What it is: \"Margin to cavitation, rebound\"."),
      field<&KeyFigure::short_label>("short_label", "The same where there is little room: \"cav. out\"."),
      field<&KeyFigure::value>("value", "The number."),
      field<&KeyFigure::where>("where", "Where it comes from: \"piston valve, rebound, shim 3\"."),
      field<&KeyFigure::pressure>("pressure", Kind::PressureDifference,
                                  "Of a stack by itself: the pressure that it is at."),
      field<&KeyFigure::verdict>("verdict", "What the findings say of it at their gravest."),
      field<&KeyFigure::reason>("reason",
                                "Why it is not fine, as a sentence: the title of the finding that decides, "
                                "if there is one. Empty when it is fine."),
      field<&KeyFigure::pointer>("pointer", "JSON pointer to the number in this document."),
  };
  static constexpr auto info = structure<KeyFigure>(
      "KeyFigure", "One of the few numbers that stay in view while a build changes.", fields);
  return info;
}

template <>
const StructInfo& describe<KeyForceFigures>() {
  static constexpr FieldInfo fields[] = {
      field<&KeyForceFigures::speed>("speed", Kind::Speed, "Speed of the shaft."),
      field<&KeyForceFigures::compression>("compression", "Damping force in compression."),
      field<&KeyForceFigures::rebound>("rebound", "Damping force in rebound."),
  };
  static constexpr auto info =
      structure<KeyForceFigures>("KeyForceFigures", "Force at one of the four speeds, both ways.", fields);
  return info;
}

template <>
const StructInfo& describe<KeyFigures>() {
  static constexpr FieldInfo fields[] = {
      field<&KeyFigures::forces>("forces", "Force at the four speeds."),
      field<&KeyFigures::margins>(
          "margins",
          "Margin to cavitation, the worst shim, the least engaged thread; of a lone stack its lifts."),
  };
  static constexpr auto info =
      structure<KeyFigures>("KeyFigures", "The key figures of one unit or of the lone stack.", fields);
  return info;
}

}  // namespace shimwright::document
