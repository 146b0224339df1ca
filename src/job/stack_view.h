#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "document/document.h"
#include "file/spec.h"
#include "units/format.h"

namespace shimwright::job {

// What each member of a DiscView and of a StackView means: src/server/describe_answers.cc

struct DiscView {
  int number = 0;
  std::string label;
  double thickness = 0;
  std::vector<double> radius;
  std::vector<double> height;
  double rest_height = 0;
  std::vector<double> stress;
  double highest_stress = 0;
  std::optional<double> yield_margin;
  std::optional<double> fatigue_margin;
  bool carries = false;
};

struct StackView {
  std::string path;
  double pressure = 0;
  std::optional<double> speed;
  std::optional<double> flow;
  std::optional<double> bleed_flow;
  std::optional<double> stack_flow;
  double lift_at_seat = 0;
  double lift_at_rim = 0;
  double float_used = 0;
  double opening_area = 0;
  std::vector<DiscView> discs;
  std::vector<document::ContactForce> contacts;
  Outcome outcome;
};

struct StackViewRequest {
  std::string path;                              // "unit[0].piston_valve.rebound", "stack"
  std::optional<double> pressure;                // drop over the face disc [Pa]; or:
  std::optional<double> speed;                   // of the shaft [m/s]
  units::System system = units::System::Metric;  // of the labels
};

/// Why there is no view, in one sentence.
struct StackViewFault {
  std::string what;
  Diagnostics diagnostics;
};

/// Bends stacks of a job, one after the other. Keeps the solver's memory between two calls, so that the next
/// step of a slider is quick; what it returns does not depend on that.
///
/// Model:  pressure and speed belong together by the law of the valve in `document`, which is the result of
///         the same spec; between two of its rows straight in the speed.
/// Threads: one at a time.
/// Tested: stack_view_test.cc
class StackViewer {
 public:
  StackViewer();
  ~StackViewer();

  Result<StackView, StackViewFault> view(const file::JobSpec& spec, const document::ResultDocument& document,
                                         const StackViewRequest& request);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace shimwright::job
