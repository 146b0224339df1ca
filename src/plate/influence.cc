#include <algorithm>
#include <cmath>
#include <tuple>

#include "base/check.h"
#include "plate/workspace.h"

namespace shimwright::plate {
namespace {

constexpr double kThicknessStep = 2e-3;  // of the thickness, both ways
// of the lift, of which differences are taken: 2e-3 of the thickness moves it by more than 1e-3. Nearer by
// two orders moved no derivative of 400 random stacks by more than 4e-5 of the stack's largest
constexpr double kTight = 1e-7;
constexpr double kSameLift = 1e-3;  // a disc whose loss changes the lift by less could be left out

/// Lift at the seat, float included. A stack that differs from `like` in its thicknesses alone begins where
/// that one was solved at the same pressure.
Lift lift_of(const Stack& stack, double pressure, const Options& options, StackSolver& solver,
             const StackSolver* like = nullptr) {
  const Stack bending = bending_stack(stack);
  solver.set_up(bending, options);
  Lift found;
  const bool near =
      like && options.theory == Theory::Large && like->layout().n_layers() == solver.layout().n_layers();
  if (near) solver.begin_like(*like);
  bool there = solver.solve(pressure);
  if (near && !there) {
    solver.set_up(bending, options);
    there = solver.solve(pressure);
  }
  found.seat = solver.seat_lift() - stack.seat.height;
  if (stack.slide.travel > 0.0)
    found.seat = floated(stack, solver.layout().load_force, pressure, found.seat).lift;
  found.outcome.iterations = solver.n_newton();
  found.outcome.residual = solver.newton_change();
  if (!there) {
    found.outcome.status = Status::Stalled;
    found.outcome.note = "the contact and the deflection did not settle";
  }
  return found;
}

/// Groups between gap shims: a disc whose rim lies inside both its neighbours' separates them.
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
  const StackSolver& solved;  // of the stack as it is, at the pressure
  double lift_seat = 0.0;     // of the same
};

/// How each disc of a run of equal neighbours matters. They bend as one of the sum of their stiffnesses, so
/// each has the same share of what all of them do together.
DiscInfluence influence_of_one(const Stack& stack, const Run& run, const Probe& probe, StackSolver& solver,
                               Outcome& outcome) {
  DiscInfluence disc;
  const double rest = stack.discs[run.first_disc].thickness;
  const double step = kThicknessStep * rest;
  const auto lift = [&](const Stack& changed, const StackSolver* like) {
    const Lift found = lift_of(changed, probe.pressure, probe.options, solver, like);
    outcome.iterations += found.outcome.iterations;
    outcome.residual = std::max(outcome.residual, found.outcome.residual);
    if (found.outcome.status == Status::Stalled) {
      outcome.status = Status::Stalled;
      outcome.note = found.outcome.note + " with one disc changed";
    }
    return found.seat;
  };
  const auto lift_with = [&](double thickness) {
    Stack changed = stack;
    for (int i = 0; i < run.n_equal; ++i) changed.discs[run.first_disc + i].thickness = thickness;
    return lift(changed, &probe.solved);
  };
  const double rise = lift_with(rest + step) - lift_with(rest - step);
  disc.lift_per_thickness = rise / (2.0 * step * run.n_equal);

  // without one; a face disc that is not the only one leaves its load to the next when that can take it
  Stack changed = stack;
  changed.discs.erase(changed.discs.begin() + run.first_disc);
  if (!validate(changed).empty()) return disc;
  disc.lift_without = lift(changed, nullptr);
  disc.could_be_left_out =
      std::abs(disc.lift_without - probe.lift_seat) <= kSameLift * std::abs(probe.lift_seat);
  return disc;
}

}  // namespace

StackInfluence stack_influence(const Stack& stack, double pressure, const std::vector<bool>& of,
                               const Options& options, Workspace& workspace) {
  SW_CHECK(validate(stack).empty() && of.size() == stack.discs.size(), of.size());
  SW_CHECK(std::isfinite(pressure) && pressure >= 0.0, pressure);
  StackInfluence influence;
  Options tight = options;
  tight.tolerance = std::min(options.tolerance, kTight);
  tight.estimate_mesh_error = false;
  Workspace::Impl& work = workspace.impl();

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
    const auto first = of.begin() + run.first_disc;
    if (std::none_of(first, first + run.n_equal, [](bool asked) { return asked; })) continue;
    const DiscInfluence one = influence_of_one(
        stack, run, {pressure, tight, work.solver, influence.lift_seat}, work.other, influence.outcome);
    std::fill_n(influence.discs.begin() + run.first_disc, run.n_equal, one);
  }
  for (std::size_t i = 0; i < influence.discs.size(); ++i)
    influence.discs[i].force_share = point.discs[i].force_share;
  return influence;
}

}  // namespace shimwright::plate
