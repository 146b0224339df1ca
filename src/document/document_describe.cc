#include "document/document_describe.h"

namespace shimwright::document {

std::string unit_text(const Unit& unit) {
  if (!unit.kind) return std::string(unit.text);
  std::string text(units::si_unit(*unit.kind));
  if (unit.reference == units::Reference::Absolute) text += ", absolute";
  if (unit.reference == units::Reference::Gauge) text += ", gauge";
  return text;
}

}  // namespace shimwright::document
