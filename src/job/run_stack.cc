#include "job/run_stack.h"

#include "job/stack_relief.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "document/document_plots.h"
#include "job/run_influence.h"
#include "num/curve.h"
#include "plate/lift_curve.h"
#include "units/stack_text.h"

namespace shimwright::job {
namespace {

constexpr int kLinePoints = 25;
constexpr std::size_t kMostInfluence = 24;  // groups; each takes four solutions of the whole stack

bool is_ring(const plate::Stack& stack, const plate::Disc& disc) {
  return disc.bore_radius > std::max(stack.clamp_radius, stack.washer_radius);
}

/// The shims called in the reader's units.
resolve::StackModel labelled(resolve::StackModel model, units::System system) {
  for (std::size_t i = 0; i < model.labels.size(); ++i) {
    const plate::Disc& disc = model.stack.discs[i];
    model.labels[i] = units::shim_text_plain(1, 2.0 * disc.outer_radius, disc.thickness, system);
  }
  return model;
}

/// Equal neighbours of one entry of the file make a group.
void add_groups(const resolve::StackModel& model, document::StackGeometry& geometry) {
  for (std::size_t i = 0; i < geometry.discs.size(); ++i) {
    const bool same = i > 0 && model.entry[i] == model.entry[i - 1];
    if (!same) geometry.groups.push_back({0, static_cast<int>(i) + 1, model.labels[i]});
    ++geometry.groups.back().count;
    geometry.discs[i].group = static_cast<int>(geometry.groups.size()) - 1;
  }
  for (document::DiscGroup& group : geometry.groups) {
    if (group.count > 1) group.label = fmt::format("{} x {}", group.count, group.label);
  }
}

/// Where a ring lies: on the topmost disc below it that reaches out under it; what it lies around does not
/// count.
double height_of_rest(const std::vector<document::DiscDrawing>& discs, double ring_bore_radius) {
  for (std::size_t i = discs.size() - 1; i-- > 0;) {  // the last is the ring itself
    if (discs[i].outer_radius > ring_bore_radius) return discs[i].height + discs[i].thickness;
  }
  return 0.0;
}

document::StackGeometry geometry_of(const resolve::StackModel& model) {
  const plate::Stack& stack = model.stack;
  document::StackGeometry geometry;
  geometry.clamp_radius = std::max(stack.clamp_radius, stack.washer_radius);
  geometry.boss_radius = stack.clamp_radius;
  geometry.seat_radius = stack.seat.radius;
  geometry.seat_height = stack.seat.height;
  geometry.seat_supports = stack.seat.present;
  geometry.pocket_inner_radius = stack.load.inner_radius;
  geometry.pocket_outer_radius = stack.load.outer_radius;
  geometry.pocket_arc = stack.load.arc_fraction;
  geometry.land_outer_radius = std::max(stack.load.land_outer_radius, stack.seat.radius);
  geometry.float_travel = stack.slide.travel;

  double height = 0.0;
  for (std::size_t i = 0; i < stack.discs.size(); ++i) {
    const plate::Disc& disc = stack.discs[i];
    document::DiscDrawing& drawing = geometry.discs.emplace_back();
    drawing.number = static_cast<int>(i) + 1;
    drawing.label = model.labels[i];
    drawing.outer_radius = disc.outer_radius;
    drawing.bore_radius = disc.bore_radius;
    drawing.thickness = disc.thickness;
    drawing.ring = is_ring(stack, disc);
    drawing.height = drawing.ring ? height_of_rest(geometry.discs, disc.bore_radius) : height;
    drawing.carries = false;
    if (!drawing.ring) {
      height += disc.thickness;
      geometry.bore_radius = std::max(geometry.bore_radius, disc.bore_radius);
    }
  }
  geometry.height = height;
  add_groups(model, geometry);
  return geometry;
}

/// Zero: no strength is stated. Infinite: the disc carries nothing, and there is nothing to judge.
std::optional<double> if_known(double margin) {
  if (margin > 0.0 && std::isfinite(margin)) return margin;
  return std::nullopt;
}

/// Disc numbers for people: 0 the seat or boss, from 1 the discs, beyond them what clamps.
document::StackPoint point_of(const plate::StackPoint& from) {
  document::StackPoint point;
  point.pressure = from.pressure;
  point.float_used = from.float_travel;
  point.lift_at_seat = from.lift_seat;
  point.lift_at_rim = from.lift_rim;
  point.opening_area = from.opening_area;
  point.face_stress = from.face_stress;
  point.highest_stress = from.max_stress;
  point.worst_disc = from.worst_disc + 1;
  for (std::size_t i = 0; i < from.discs.size(); ++i) {
    const plate::DiscResult& disc = from.discs[i];
    point.discs.push_back({static_cast<int>(i) + 1, disc.max_stress, disc.max_stress_radius,
                           if_known(disc.yield_margin), if_known(disc.fatigue_margin), disc.force_share});
  }
  for (const plate::Contact& contact : from.contacts) {
    point.contacts.push_back({contact.lower + 1, contact.upper + 1, contact.radius, contact.force});
  }
  point.largest_slope = from.limits.max_slope;
  point.slope_ratio = from.limits.slope_ratio;
  point.rim_compression = from.limits.rim_compression;
  point.buckling_ratio = from.limits.buckling_ratio;
  point.buckling_disc = from.limits.buckling_disc + 1;
  point.mesh_error = from.mesh_error;
  point.iteration_error = from.outcome.residual;
  point.contact_error = from.complementarity_error;
  point.outcome = from.outcome;
  return point;
}

document::StackShape shape_of(const document::StackGeometry& geometry, const plate::StackPoint& from,
                              std::string name) {
  document::StackShape shape;
  shape.name = std::move(name);
  shape.pressure = from.pressure;
  for (std::size_t i = 0; i < from.shapes.size(); ++i) {
    document::DiscShape& disc = shape.discs.emplace_back();
    disc.number = static_cast<int>(i) + 1;
    disc.radius = from.shapes[i].radius;
    disc.stress = from.shapes[i].stress;
    for (const double deflection : from.shapes[i].deflection) {
      disc.height.push_back(geometry.discs[i].height + deflection + from.float_travel);
    }
  }
  return shape;
}

std::string body_name(int number, int n_discs) {
  if (number == 0) return "the seat";
  if (number > n_discs + 1) return "the back spring";
  if (number > n_discs) return "the clamp washer";
  return fmt::format("disc {}", number);
}

std::string list_of(const std::vector<int>& discs) {
  std::string words = discs.size() == 1 ? "disc " : "discs ";
  for (std::size_t i = 0; i < discs.size(); ++i) {
    if (i > 0) words += i + 1 == discs.size() ? " and " : ", ";
    words += std::to_string(discs[i] + 1);
  }
  return words;
}

document::PathBreak break_of(const plate::Breakpoint& from, int n_discs) {
  document::PathBreak result;
  result.pressure = from.pressure;
  result.lift_at_seat = from.lift_seat;
  result.closes = from.change == plate::ContactChange::Closed;
  result.lower = from.contact.lower + 1;
  result.upper = from.contact.upper + 1;
  result.radius = from.contact.radius;
  result.physical = plate::is_physical(from);
  result.what = fmt::format("{} and {} {}", body_name(result.lower, n_discs),
                            body_name(result.upper, n_discs), result.closes ? "touch" : "separate");
  if (!from.starts.empty()) {
    result.what += fmt::format("; {} {} to carry load", list_of(from.starts),
                               from.starts.size() == 1 ? "starts" : "start");
  }
  if (!from.ceases.empty()) {
    result.what += fmt::format("; {} {} carrying load", list_of(from.ceases),
                               from.ceases.size() == 1 ? "stops" : "stop");
  }
  return result;
}

void add_margins(document::StackResult& result) {
  result.fatigue_rule = fatigue_rule();
  if (result.points.empty()) return;
  const auto worst = std::ranges::max_element(result.points, {}, &document::StackPoint::pressure);
  result.worst_disc = worst->worst_disc;
  for (const document::StackPoint& point : result.points) {
    for (const document::DiscStress& disc : point.discs) {
      if (disc.yield_margin)
        result.yield_margin = std::min(result.yield_margin.value_or(1e300), *disc.yield_margin);
      if (disc.fatigue_margin) {
        result.fatigue_margin = std::min(result.fatigue_margin.value_or(1e300), *disc.fatigue_margin);
      }
    }
  }
}

/// The requested pressures, and what can be said about all of them.
void add_points(const resolve::StackModel& model, std::vector<double> pressures,
                const plate::Options& options, plate::Workspace& workspace, document::StackResult& result) {
  std::ranges::sort(pressures);
  const plate::StackResult solved = plate::stack_response(model.stack, pressures, options, workspace);
  result.outcome = solved.outcome;
  for (const plate::StackPoint& point : solved.points) {
    if (point.outcome.status == Status::Stalled) {
      result.unsolved.push_back(point.pressure);
      continue;
    }
    result.points.push_back(point_of(point));
    for (std::size_t i = 0; i < point.discs.size(); ++i) {
      result.geometry.discs[i].carries = result.geometry.discs[i].carries || point.discs[i].carries_load;
    }
    result.largest_slope = std::max(result.largest_slope, point.limits.max_slope);
  }
  for (const document::DiscDrawing& disc : result.geometry.discs) {
    if (!disc.carries && !result.points.empty()) result.idle_discs.push_back(disc.number);
  }
  add_margins(result);
}

void add_shapes(const resolve::StackModel& model, const StackRun& run, plate::Options options,
                plate::Workspace& workspace, document::StackResult& result) {
  options.shapes = true;
  const double states[] = {0.0, run.working_pressure, run.greatest_pressure};
  const char* names[] = {"closed", "working", "most"};
  const plate::StackResult drawn = plate::stack_response(model.stack, states, options, workspace);
  for (std::size_t i = 0; i < drawn.points.size(); ++i) {
    if (drawn.points[i].outcome.status == Status::Stalled) continue;
    result.shapes.push_back(shape_of(result.geometry, drawn.points[i], names[i]));
  }
}

document::LiftLine line_of(const resolve::StackModel& model, double greatest_pressure,
                           const plate::Options& options, plate::Workspace& workspace) {
  const std::vector<double> pressures = num::evenly_spaced(0.0, greatest_pressure, kLinePoints);
  const std::vector<plate::Lift> lifts = plate::stack_lifts(model.stack, pressures, options, workspace);
  document::LiftLine line;
  for (std::size_t i = 0; i < lifts.size(); ++i) {
    if (lifts[i].outcome.status == Status::Stalled) continue;
    line.pressure.push_back(pressures[i]);
    line.lift_at_seat.push_back(lifts[i].seat);
    line.lift_at_rim.push_back(lifts[i].rim);
  }
  return line;
}

/// The linear path with its kinks.
void add_path(const resolve::StackModel& model, double greatest_pressure, const plate::Options& options,
              plate::Workspace& workspace, document::StackResult& result) {
  const plate::LinearPath path = plate::linear_path(model.stack, greatest_pressure, options, workspace);
  if (path.outcome.status == Status::Stalled) return;
  const int n_discs = static_cast<int>(model.stack.discs.size());
  for (const plate::Breakpoint& breakpoint : path.breakpoints)
    result.path.push_back(break_of(breakpoint, n_discs));
}

}  // namespace

std::string fatigue_rule() {
  return "The pressure goes from zero to the stated pressure and back. Half of the stress is amplitude, half "
         "is mean stress. The limit is Goodman's line between the fatigue strength at zero mean stress and "
         "the tensile strength (or the yield strength, if only that is known).";
}

document::StackResult stack_result(const resolve::StackModel& as_written, const StackRun& run,
                                   plate::Workspace& workspace) {
  SW_CHECK(!run.pressures.empty() && run.greatest_pressure > 0.0, run.greatest_pressure);
  const resolve::StackModel model = labelled(as_written, run.phrase.system);
  plate::Options options;
  options.theory = run.theory;

  document::StackResult result;
  result.name = model.name;
  result.theory = run.theory;
  result.pressures_assumed = run.pressures_assumed;
  result.geometry = geometry_of(model);

  add_points(model, run.pressures, options, workspace, result);
  if (result.points.empty()) return result;  // nothing settles: all else would only stall again
  options.estimate_mesh_error = false;       // known from the requested pressures
  result.relief = stack_relief(model, result, options, workspace);
  if (run.details) add_shapes(model, run, options, workspace, result);
  result.line = line_of(model, run.greatest_pressure, options, workspace);
  result.opening_pressure = plate::opening_pressure(model.stack, run.greatest_pressure, options, workspace);
  add_path(model, run.greatest_pressure, options, workspace, result);

  // of a disc that carries nothing a finding says what it is there for
  std::vector<int> of = result.idle_discs;
  if (run.details) {
    of.clear();
    for (const document::DiscDrawing& disc : result.geometry.discs) of.push_back(disc.number);
  }
  if (result.geometry.groups.size() <= kMostInfluence) {
    result.influence = influence_of(model, result.geometry, {run.working_pressure, run.phrase, std::move(of)},
                                    options, workspace);
  }
  result.plots = {document::lift_plot(result)};
  if (!run.curves) result.line = {};
  return result;
}

StackState stack_state(const resolve::StackModel& as_written, double pressure, Theory theory,
                       units::System system, plate::Workspace& workspace) {
  const resolve::StackModel model = labelled(as_written, system);
  plate::Options options;
  options.theory = theory;
  options.shapes = true;
  const double pressures[] = {pressure};
  const plate::StackResult solved = plate::stack_response(model.stack, pressures, options, workspace);
  StackState state{geometry_of(model), point_of(solved.points[0]), {}};
  for (std::size_t i = 0; i < solved.points[0].discs.size(); ++i)
    state.geometry.discs[i].carries = solved.points[0].discs[i].carries_load;
  state.shape = shape_of(state.geometry, solved.points[0], "");
  return state;
}

}  // namespace shimwright::job
