#include "document/document.h"

#include "document/document_words.h"

namespace shimwright::document {
namespace {

template <typename Enum>
std::string listed(Enum value) {
  return EnumWords<Enum>::list.at(static_cast<std::size_t>(value));
}

}  // namespace

std::string word(Carrier carrier) {
  return listed(carrier);
}

std::string word(PieceShape shape) {
  return listed(shape);
}

std::string status_words(const Outcome& outcome) {
  if (outcome.ok()) return "";
  const std::string what =
      outcome.status == Status::OutOfRange ? "Outside the range of the model" : "Not converged";
  return outcome.note.empty() ? what + "." : what + ": " + outcome.note;
}

std::string word(ThreadCoat coat) {
  return listed(coat);
}

std::string word(SagLoad load) {
  return listed(load);
}

std::string word(RodAt rod_at) {
  return EnumWords<RodAt>::list[static_cast<std::size_t>(rod_at)];
}

std::string word(FillRoom room) {
  return listed(room);
}

std::string word(RunKind kind) {
  return listed(kind);
}

std::string word(OilChamber chamber) {
  return listed(chamber);
}

bool is_threadlocker(ThreadCoat coat) {
  return coat == ThreadCoat::Threadlocker || coat == ThreadCoat::HighStrengthThreadlocker;
}

int n_findings(const ResultDocument& document, Severity severity) {
  int count = 0;
  for (const Finding& finding : document.findings) count += finding.severity == severity ? 1 : 0;
  return count;
}

bool fit_to_build(const ResultDocument& document) {
  return n_findings(document, Severity::Stop) == 0;
}

}  // namespace shimwright::document
