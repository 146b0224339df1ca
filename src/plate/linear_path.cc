#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "plate/workspace.h"

namespace shimwright::plate {
namespace {

constexpr int kMaxBreakpoints = 2000;
constexpr double kAfter =
    1e-9;  // a new piece is entered this share of the last pressure behind its breakpoint

Contact contact_at(const StackSolver& solver, int n_discs, std::size_t p, double force) {
  const Layout& layout = solver.layout();
  const ContactPoint& at = layout.points[p];
  Contact contact;
  contact.lower = -1;
  if (at.lower != kBelow)
    contact.lower = layout.layers[at.lower].first_disc + layout.layers[at.lower].n_equal - 1;
  contact.upper = at.upper < layout.n_layers() ? layout.layers[at.upper].first_disc
                                               : n_discs + at.upper - layout.n_layers();
  contact.radius = layout.radius[at.station];
  contact.force = force;
  return contact;
}

/// Which layers something presses on, in the present piece; the pressure always presses on the first.
void find_carrying(const StackSolver& solver, double p_max, std::vector<char>& carries) {
  const Layout& layout = solver.layout();
  carries.assign(layout.n_layers(), 0);
  carries[0] = 1;
  for (std::size_t p = 0; p < layout.points.size(); ++p) {
    const double at_end = solver.contact().force[p] + solver.rate().force[p] * p_max;
    if (at_end <= 1e-9 * p_max * layout.load_force) continue;
    const ContactPoint& at = layout.points[p];
    if (at.lower != kBelow) carries[at.lower] = 1;
    if (at.upper < layout.n_layers()) carries[at.upper] = 1;
  }
}

/// The pressure at which the present piece ends, which point ends it (-1 when it goes on to the end), and the
/// pressure from which the contact solver sees it, too.
struct PieceEnd {
  double pressure = 0.0;
  int point = -1;
  double seen_from = 0.0;
};
PieceEnd piece_end(const StackSolver& solver, double p_max) {
  const ContactState& at = solver.contact();
  const ContactState& rate = solver.rate();
  const double force_seen = 2.0 * solver.force_tolerance();
  const double gap_seen = 2.0 * solver.gap_tolerance();
  PieceEnd end{p_max, -1, p_max};
  for (std::size_t p = 0; p < at.active.size(); ++p) {
    const double value = std::max(at.active[p] ? at.force[p] : at.gap[p], 0.0);
    const double slope = at.active[p] ? rate.force[p] : rate.gap[p];
    const double seen = at.active[p] ? force_seen : gap_seen;
    if (slope >= 0.0 || value + slope * (p_max - solver.pressure()) > -seen)
      continue;  // rounding has slopes, too
    const double pressure = solver.pressure() + value / -slope;
    if (pressure < end.pressure) end = {pressure, static_cast<int>(p), pressure + seen / -slope};
  }
  return end;
}

void add_breakpoints(const StackSolver& solver, const Stack& stack, const std::vector<char>& before,
                     double pressure, double lift, double p_max, std::vector<char>& carried,
                     LinearPath& path) {
  const Layout& layout = solver.layout();
  const std::vector<char>& after = solver.contact().active;
  std::vector<char> carries;
  find_carrying(solver, p_max, carries);
  const std::size_t first = path.breakpoints.size();
  for (std::size_t p = 0; p < after.size(); ++p) {
    if (after[p] == before[p]) continue;
    Breakpoint breakpoint;
    breakpoint.pressure = pressure;
    breakpoint.lift_seat = lift;
    breakpoint.change = after[p] ? ContactChange::Closed : ContactChange::Opened;
    breakpoint.contact = contact_at(solver, static_cast<int>(stack.discs.size()), p, 0.0);
    path.breakpoints.push_back(breakpoint);
    const ContactPoint& at = layout.points[p];
    if (at.lower == kBelow && at.station == layout.seat_station && !after[p])
      path.opening_pressure = pressure;
  }
  if (path.breakpoints.size() == first) return;
  for (int l = 0; l < layout.n_layers(); ++l) {
    if (carries[l] == carried[l]) continue;
    std::vector<int>& list = carries[l] ? path.breakpoints[first].starts : path.breakpoints[first].ceases;
    for (int i = 0; i < layout.layers[l].n_equal; ++i) list.push_back(layout.layers[l].first_disc + i);
  }
  carried = carries;
}

/// A floating stack slides first; the path of its bending goes on from where it meets the stop.
void put_slide_first(const Stack& stack, double load_force, double p_max, LinearPath& path) {
  const Slide slide = slide_of(stack, load_force);
  LinearPath moved;
  const auto lift_at_pressure = [&](const std::vector<double>& lift, double p) {
    std::size_t k = 1;
    while (k + 1 < path.pressure.size() && path.pressure[k] < p) ++k;
    const double share = (p - path.pressure[k - 1]) / (path.pressure[k] - path.pressure[k - 1]);
    return lift[k - 1] + share * (lift[k] - lift[k - 1]);
  };
  const auto add = [&](double p, double seat, double rim) {
    moved.pressure.push_back(p);
    moved.lift_seat.push_back(seat);
    moved.lift_rim.push_back(rim);
  };
  const auto travel = [&](double p) { return slide_travel(stack, load_force, p); };
  add(0.0, travel(0.0), travel(0.0));
  for (double p : {slide.begins, slide.ends})
    if (p > 0.0 && p < p_max) add(p, travel(p), travel(p));
  if (slide.ends >= p_max) {
    add(p_max, travel(p_max), travel(p_max));
  } else {
    const double seat = lift_at_pressure(path.lift_seat, slide.ends);
    const double rim = lift_at_pressure(path.lift_rim, slide.ends);
    for (std::size_t k = 0; k < path.pressure.size(); ++k)
      if (path.pressure[k] > slide.ends)
        add(path.pressure[k], path.lift_seat[k] - seat + stack.slide.travel,
            path.lift_rim[k] - rim + stack.slide.travel);
    for (Breakpoint& breakpoint : path.breakpoints) {
      if (breakpoint.pressure <= slide.ends) continue;
      breakpoint.lift_seat += stack.slide.travel - seat;
      moved.breakpoints.push_back(breakpoint);
    }
  }
  moved.opening_pressure = std::min(slide.begins, p_max);
  moved.outcome = path.outcome;
  path = moved;
}

}  // namespace

LinearPath linear_path(const Stack& stack, double p_max, const Options& options, Workspace& workspace) {
  SW_CHECK(validate(stack).empty());
  SW_CHECK(std::isfinite(p_max) && p_max > 0.0, p_max);
  Options linear = options;
  linear.theory = Theory::Linear;
  StackSolver& solver = workspace.impl().solver;
  const Stack bending = bending_stack(stack);
  solver.set_up(bending, linear);
  const double height = stack.seat.height;
  LinearPath path;

  // at rest, and just loaded
  bool ended = solver.solve(0.0);
  path.pressure.push_back(0.0);
  path.lift_seat.push_back(solver.seat_lift() - height);
  path.lift_rim.push_back(solver.rim_lift() - height);
  ended = solver.solve(kAfter * p_max) && ended;
  solver.find_rate();
  std::vector<char> carried;
  find_carrying(solver, p_max, carried);

  // piece by piece
  std::vector<char> before;
  double reached = 0.0;
  double after = kAfter * p_max;
  int pieces = 0;
  for (; pieces < kMaxBreakpoints && ended; ++pieces) {
    const PieceEnd end = piece_end(solver, p_max);
    const double lift = solver.seat_lift() + (end.pressure - solver.pressure()) * solver.seat_rate() - height;
    const double rim =
        solver.rim_lift() + (end.pressure - solver.pressure()) * solver.rate().lift[0].back() - height;
    if (end.point < 0 || end.seen_from + after >= p_max) {
      path.pressure.push_back(p_max);
      path.lift_seat.push_back(solver.seat_lift() + (p_max - solver.pressure()) * solver.seat_rate() -
                               height);
      path.lift_rim.push_back(solver.rim_lift() + (p_max - solver.pressure()) * solver.rate().lift[0].back() -
                              height);
      break;
    }
    before = solver.contact().active;
    ended = solver.solve(end.seen_from + after);
    solver.find_rate();
    if (solver.contact().active == before) {  // within the tolerance of the forces still the same piece
      after *= 10.0;
      continue;
    }
    after = kAfter * p_max;
    const double pressure = std::max(end.pressure, reached);
    reached = pressure;
    path.pressure.push_back(pressure);
    path.lift_seat.push_back(lift);
    path.lift_rim.push_back(rim);
    add_breakpoints(solver, stack, before, pressure, lift, p_max, carried, path);
  }
  path.outcome.iterations = pieces;
  if (!ended || pieces == kMaxBreakpoints) {
    path.outcome.status = Status::Stalled;
    path.outcome.note = "the contact did not settle on the way";
  }
  if (stack.slide.travel > 0.0 && path.outcome.ok())
    put_slide_first(stack, solver.layout().load_force, p_max, path);
  return path;
}

}  // namespace shimwright::plate
