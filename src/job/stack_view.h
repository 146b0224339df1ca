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

/// One disc of a bent stack, for drawing.
struct DiscView {
  int number = 0;  // 1 = face disc
  std::string label;
  double thickness = 0;        // [m]
  std::vector<double> radius;  // ascending [m]
  std::vector<double> height;  // of its underside over the clamp plane [m] (as radius)
  double rest_height = 0;      // the same at rest [m]
  std::vector<double> stress;  // largest over both faces [Pa] (as radius)
  double highest_stress = 0;   // [Pa]
  std::optional<double> yield_margin;
  std::optional<double> fatigue_margin;
  bool carries = false;
};

/// One stack at one pressure: what a finger on a slider bends.
struct StackView {
  std::string path;
  double pressure = 0;               // drop over the face disc [Pa]
  std::optional<double> speed;       // of the shaft; empty: a lone stack [m/s]
  std::optional<double> flow;        // through the valve [m3/s]
  std::optional<double> bleed_flow;  // [m3/s]
  std::optional<double> stack_flow;  // [m3/s]
  double lift_at_seat = 0;           // [m]
  double lift_at_rim = 0;            // [m]
  double float_used = 0;             // [m]
  double opening_area = 0;           // [m2]
  std::vector<DiscView> discs;       // face first
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
