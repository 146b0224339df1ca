#include "job/document.h"

namespace shimwright::job {

std::string word(Carrier carrier) {
  switch (carrier) {
    case Carrier::Bleed:
      return "bleed";
    case Carrier::Stack:
      return "stack";
    case Carrier::Port:
      break;
  }
  return "port";
}

std::string word(PieceShape shape) {
  switch (shape) {
    case PieceShape::Washer:
      return "washer";
    case PieceShape::Disc:
      return "disc";
    case PieceShape::Piston:
      return "piston";
    case PieceShape::Spacer:
      return "spacer";
    case PieceShape::Nut:
      return "nut";
    case PieceShape::Other:
      break;
  }
  return "other";
}

int n_findings(const ResultDocument& document, Severity severity) {
  int count = 0;
  for (const Finding& finding : document.findings) count += finding.severity == severity ? 1 : 0;
  return count;
}

bool fit_to_build(const ResultDocument& document) {
  return n_findings(document, Severity::Stop) == 0;
}

}  // namespace shimwright::job
