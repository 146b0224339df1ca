#include "job/document_describe.h"

namespace shimwright::job {

std::string unit_text(const Unit& unit) {
  if (!unit.kind) return std::string(unit.text);
  std::string text(units::si_unit(*unit.kind));
  if (unit.reference == units::Reference::Absolute) text += ", absolute";
  if (unit.reference == units::Reference::Gauge) text += ", gauge";
  return text;
}

}  // namespace shimwright::job
