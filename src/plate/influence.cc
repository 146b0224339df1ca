#include <algorithm>
#include <cmath>
#include <tuple>

#include "base/check.h"
#include "plate/workspace.h"

namespace shimwright::plate {
namespace {

constexpr double kThicknessStep = 2e-3;  // of the thickness, both ways
constexpr double kSameLift = 1e-3;       // a disc whose loss changes the lift by less could be left out

/// Lift at the seat, float included.
double lift_of(const Stack& stack, double pressure, const Options& options, StackSolver& solver,
               Outcome& outcome) {
  const Stack bending = bending_stack(stack);
  solver.set_up(bending, options);
  bool ended = true;
  double at_stop = 0.0;
  double travel = 0.0;
  if (stack.slide.travel > 0.0) {
    const double load_force = solver.layout().load_force;
    travel = slide_travel(stack, load_force, pressure);
    const double stop = slide_of(stack, load_force).ends;
    if (pressure <= stop) return travel;
    ended = solver.solve(stop);
    at_stop = solver.seat_lift() - stack.seat.height;
  }
  ended = solver.solve(pressure) && ended;
  outcome.iterations += solver.n_newton();
  outcome.residual = std::max(outcome.residual, solver.newton_change());
  if (!ended) {
    outcome.status = Status::Stalled;
    outcome.note = "the contact and the deflection did not settle with one disc changed";
  }
  return travel + solver.seat_lift() - stack.seat.height - at_stop;
}

/// Groups between gap shims: a disc whose rim lies inside both its neighbours' parts them.
std::vector<GroupShare> groups_of(const Stack& stack) {
  std::vector<GroupShare> groups;
  const int n = static_cast<int>(stack.discs.size());
  GroupShare group;
  for (int i = 0; i < n; ++i) {
    const double rim = stack.discs[i].outer_radius;
    const bool gap_shim =
        i > 0 && i + 1 < n && rim < stack.discs[i - 1].outer_radius && rim < stack.discs[i + 1].outer_radius;
    if (!gap_shim) continue;
    group.last_disc = i;  // it goes with the group it ends
    groups.push_back(group);
    group.first_disc = i + 1;
  }
  group.last_disc = n - 1;
  groups.push_back(group);
  return groups;
}

/// Equal neighbours from a disc on, spacers under the clamp among them.
struct Run {
  int first_disc = 0;
  int n_equal = 1;
};

std::vector<Run> runs_of(const Stack& stack) {
  const auto measures = [](const Disc& disc) {
    return std::tie(disc.outer_radius, disc.bore_radius, disc.thickness, disc.youngs_modulus,
                    disc.poisson_ratio, disc.notches.count, disc.notches.width, disc.notches.depth);
  };
  std::vector<Run> runs;
  for (int i = 0; i < static_cast<int>(stack.discs.size()); ++i) {
    if (i > 0 && measures(stack.discs[i]) == measures(stack.discs[i - 1])) {
      ++runs.back().n_equal;
    } else {
      runs.push_back({i, 1});
    }
  }
  return runs;
}

struct Probe {
  double pressure = 0.0;
  const Options& options;
  double lift_seat = 0.0;  // of the stack as it is
};

/// How each disc of a run of equal neighbours matters. They bend as one of the sum of their stiffnesses, so
/// each has the same share of what all of them do together.
DiscInfluence influence_of_one(const Stack& stack, const Run& run, const Probe& probe, StackSolver& solver,
                               Outcome& outcome) {
  DiscInfluence disc;
  const double rest = stack.discs[run.first_disc].thickness;
  const double step = kThicknessStep * rest;
  const auto lift_with = [&](double thickness) {
    Stack changed = stack;
    for (int i = 0; i < run.n_equal; ++i) changed.discs[run.first_disc + i].thickness = thickness;
    return lift_of(changed, probe.pressure, probe.options, solver, outcome);
  };
  const double rise = lift_with(rest + step) - lift_with(rest - step);
  disc.lift_per_thickness = rise / (2.0 * step * run.n_equal);

  // without one; a face disc that is not the only one leaves its load to the next when that can take it
  Stack changed = stack;
  changed.discs.erase(changed.discs.begin() + run.first_disc);
  if (!validate(changed).empty()) return disc;
  disc.lift_without = lift_of(changed, probe.pressure, probe.options, solver, outcome);
  disc.could_be_left_out =
      std::abs(disc.lift_without - probe.lift_seat) <= kSameLift * std::abs(probe.lift_seat);
  return disc;
}

}  // namespace

StackInfluence stack_influence(const Stack& stack, double pressure, const Options& options,
                               Workspace& workspace) {
  SW_CHECK(validate(stack).empty());
  SW_CHECK(std::isfinite(pressure) && pressure >= 0.0, pressure);
  StackInfluence influence;
  Options tight = options;
  tight.tolerance = std::min(options.tolerance, 1e-9);  // differences of lifts are taken below
  tight.tell_mesh_error = false;
  StackSolver& solver = workspace.impl().other;

  const double pressures[] = {pressure};
  const StackPoint point = stack_response(stack, pressures, tight, workspace).points[0];
  influence.outcome = point.outcome;
  influence.lift_seat = point.lift_seat;
  influence.groups = groups_of(stack);
  for (GroupShare& group : influence.groups)
    for (int i = group.first_disc; i <= group.last_disc; ++i)
      group.stiffness_share += point.discs[i].force_share;

  influence.discs.resize(stack.discs.size());
  for (const Run& run : runs_of(stack)) {
    const DiscInfluence one =
        influence_of_one(stack, run, {pressure, tight, influence.lift_seat}, solver, influence.outcome);
    std::fill_n(influence.discs.begin() + run.first_disc, run.n_equal, one);
  }
  return influence;
}

}  // namespace shimwright::plate
