#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "valve/valve.h"

namespace shimwright::valve {
namespace {

constexpr double kFirstPressure = 1e6;  // where the search for the needed pocket pressure starts [Pa]
constexpr double kSpare = 1.25;         // solved this much further than needed
constexpr double kStiffening =
    2.0;  // and this much again where the search was linear: a dished disc lifts less
constexpr double kTooFar =
    4.0;  // a linear curve that reaches this much further than needed is computed again

/// The pocket pressure a way's stack needs to pass q_max [Pa]; 0 without a stack; infinite when its curve
/// must go further. Ports that hold back q_max even at drop_max need no more than they get there.
double needed_pocket(const ValveLaw& law, Way way, double q_max, double drop_max) {
  const DirectionLaw& one = way == Way::Compression ? law.compression : law.rebound;
  if (!one.has_stack) return 0.0;
  if (q_max <= largest_flow(one))
    return std::abs(state_at(law, drop_at(law, way == Way::Compression ? q_max : -q_max)).pocket);
  return largest_drop(one) >= drop_max ? one.nodes.back().pocket : std::numeric_limits<double>::infinity();
}

/// The valve with its needles closed: what its stacks must be ready for when a click is turned in.
ValveModel closed(ValveModel model) {
  for (Bleed& bleed : model.bleeds)
    if (auto* needle = std::get_if<flow::Needle>(&bleed.passage)) needle->clicks = 0.0;
  return model;
}

bool has_needle(const ValveModel& model, Way way) {
  return std::ranges::any_of(model.bleeds, [&](const Bleed& bleed) {
    return (way == Way::Compression ? bleed.compression : bleed.rebound) &&
           std::holds_alternative<flow::Needle>(bleed.passage);
  });
}

/// Everything a search over one way needs.
struct Search {
  const ValveModel& model;
  const oil::Liquid& liquid;
  double q_max;
  plate::Workspace& workspace;
  LawOptions rough;  // only the size of the flow counts
  ValveStacks& stacks;
};

/// Solves one way's stack further and further until q_max passes; the pocket pressure that takes, or
/// infinite.
double solve_until_enough(Search& search, const ValveModel& model, Way way, double solve_to, double step,
                          const plate::Options& options) {
  const plate::Stack& stack = way == Way::Compression ? *model.compression.stack : *model.rebound.stack;
  auto& curve = way == Way::Compression ? search.stacks.compression : search.stacks.rebound;
  for (;;) {
    if (!curve || curve->pressure.back() != solve_to)
      curve = plate::lift_curve(stack, solve_to, options, search.workspace);
    // the other way has no part in what this one needs
    ValveLaw law;
    (way == Way::Compression ? law.compression : law.rebound) =
        way_law_from_sweep(model, way, sweep_way(model, search.stacks, way, search.liquid, search.rough),
                           search.liquid, search.rough);
    const double needed = needed_pocket(law, way, search.q_max, search.rough.drop_max);
    // so far that what is needed does not change with a larger range
    const double spare = options.theory == Theory::Large ? plate::kCurveGrowth : 1.0;
    if ((std::isfinite(needed) && spare * needed <= solve_to) || solve_to >= search.rough.drop_max)
      return needed;
    solve_to = std::min(step * solve_to, search.rough.drop_max);
  }
}

/// Brings one way's stack, there in the linear theory to kFirstPressure, to the range in which it passes
/// q_max.
void fit_range(Search& search, Way way, const plate::Options& options) {
  const bool compression = way == Way::Compression;
  const auto& stack = compression ? search.model.compression.stack : search.model.rebound.stack;
  auto& curve = compression ? search.stacks.compression : search.stacks.rebound;
  if (!stack || !curve) return;

  // the linear theory is quick and shows where to look
  plate::Options linear = options;
  linear.theory = Theory::Linear;
  const double needed = solve_until_enough(search, search.model, way, kFirstPressure, 4.0, linear);
  double fit = std::max(kSpare * needed, 1.05 * curve->opening_pressure);
  if (!(fit > 0.0)) fit = kFirstPressure;  // a way that needs no pressure at all
  fit = std::min(fit, search.rough.drop_max);
  if (options.theory == Theory::Linear) {
    if (fit * kTooFar >= curve->pressure.back()) return;
    solve_until_enough(search, search.model, way, fit, 2.0, options);
    return;
  }
  if (has_needle(search.model, way)) {
    const double shut =
        solve_until_enough(search, closed(search.model), way, curve->pressure.back(), 4.0, linear);
    fit = std::clamp(kSpare * shut, fit, std::min(kTooFar * fit, search.rough.drop_max));
  }
  const double first = std::max(kStiffening * fit, curve->opening_pressure + plate::kCurveStart);
  curve.reset();
  solve_until_enough(search, search.model, way, std::min(first, search.rough.drop_max), 2.0, options);
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
  plate::Options linear = plate_options;
  linear.theory = Theory::Linear;
  solved.stacks = solve_stacks(model, kFirstPressure, linear, workspace);
  LawOptions rough = options;
  rough.tolerance = std::max(options.tolerance, 1e-3);
  Search search{model, liquid, q_max, workspace, rough, solved.stacks};
  for (const Way way : {Way::Compression, Way::Rebound}) fit_range(search, way, plate_options);
  solved.sweep = sweep_valve(model, solved.stacks, liquid, options);
  solved.law = valve_law_from_sweep(model, solved.sweep, liquid, options);
  return solved;
}

}  // namespace shimwright::valve
