#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "valve/valve.h"

namespace shimwright::valve {
namespace {

constexpr double kFirstPressure = 1e6;  // where the search for the needed pocket pressure starts [Pa]
constexpr double kSpare = 1.25;         // solved this much further than needed
constexpr double kTooFar = 4.0;  // a curve solved further than this beyond need is solved again, closer

/// The pocket pressure a way's stack needs to pass q_max [Pa]; 0 without a stack; infinite when it lies
/// beyond the curve.
double needed_pocket(const ValveLaw& law, Way way, double q_max) {
  const DirectionLaw& one = way == Way::Compression ? law.compression : law.rebound;
  if (!one.has_stack) return 0.0;
  if (q_max > largest_flow(one)) return std::numeric_limits<double>::infinity();
  return std::abs(state_at(law, drop_at(law, way == Way::Compression ? q_max : -q_max)).pocket);
}

/// Brings one way's stack, solved to kFirstPressure, to the range in which it passes q_max.
void fit_range(const ValveModel& model, Way way, const oil::Liquid& liquid, double q_max,
               const plate::Options& plate_options, plate::Workspace& workspace, const LawOptions& options,
               ValveStacks& stacks) {
  const auto& stack = way == Way::Compression ? model.compression.stack : model.rebound.stack;
  auto& curve = way == Way::Compression ? stacks.compression : stacks.rebound;
  if (!stack) return;

  // the range search only needs the size of the flow
  LawOptions rough = options;
  rough.tolerance = std::max(options.tolerance, 1e-3);
  double solved_to = kFirstPressure;
  for (;;) {
    const double needed = needed_pocket(valve_law(model, stacks, liquid, rough), way, q_max);
    if (std::isinf(needed)) {
      if (solved_to >= options.drop_max) return;
      solved_to = std::min(4.0 * solved_to, options.drop_max);
      curve = plate::lift_curve(*stack, solved_to, plate_options, workspace);
      continue;
    }
    const double fit = std::max(kSpare * needed, 1.05 * curve->opening_pressure);
    if (fit > 0.0 && fit * kTooFar < solved_to)
      curve = plate::lift_curve(*stack, fit, plate_options, workspace);
    return;
  }
}

}  // namespace

ValveStacks solve_stacks(const ValveModel& model, double pressure_max, const plate::Options& options,
                         plate::Workspace& workspace) {
  ValveStacks stacks;
  if (model.compression.stack)
    stacks.compression = plate::lift_curve(*model.compression.stack, pressure_max, options, workspace);
  if (model.rebound.stack)
    stacks.rebound = plate::lift_curve(*model.rebound.stack, pressure_max, options, workspace);
  return stacks;
}

SolvedValve solve_valve(const ValveModel& model, const oil::Liquid& liquid, double q_max,
                        const plate::Options& plate_options, plate::Workspace& workspace,
                        const LawOptions& options) {
  SW_CHECK(q_max > 0.0, q_max);
  SolvedValve solved;
  // both curves must be there before a law is asked for
  solved.stacks = solve_stacks(model, kFirstPressure, plate_options, workspace);
  for (const Way way : {Way::Compression, Way::Rebound})
    fit_range(model, way, liquid, q_max, plate_options, workspace, options, solved.stacks);
  solved.law = valve_law(model, solved.stacks, liquid, options);
  return solved;
}

}  // namespace shimwright::valve
