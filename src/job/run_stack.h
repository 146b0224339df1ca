#pragma once
#include <vector>

#include "document/document_phrase.h"
#include "document/document_stack.h"
#include "plate/stack.h"
#include "resolve/resolve_stack.h"

namespace shimwright::job {

struct StackRun {
  Theory theory = Theory::Large;
  document::Phrase phrase;  // of the numbers inside sentences
  bool pressures_assumed = false;
  std::vector<double> pressures;   // of the points [Pa]; at least one
  double working_pressure = 0.0;   // of the middle drawn state [Pa]
  double greatest_pressure = 0.0;  // end of the line, of the path and the last drawn state [Pa]; > 0
  bool details = true;             // shapes of three states, and what every disc does
  bool curves = true;              // the line of lift beside its plot
};

/// A stack as the faces show it: geometry, points, shapes of three states, line, path, margins, influence.
document::StackResult stack_result(const resolve::StackModel& model, const StackRun& run,
                                   plate::Workspace& workspace);

/// One stack at one pressure, with the bent shape of every disc.
struct StackState {
  document::StackGeometry geometry;  // `carries` as at this pressure
  document::StackPoint point;
  document::StackShape shape;
};
StackState stack_state(const resolve::StackModel& model, double pressure, Theory theory, units::System system,
                       plate::Workspace& workspace);

/// How the fatigue margin is reckoned, in words with its source.
std::string fatigue_rule();

}  // namespace shimwright::job
