#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "base/check.h"
#include "plate/workspace.h"

namespace shimwright::plate {
namespace {

constexpr double kPathTolerance = 1e-6;  // of the largest lift: what the path may be off
constexpr double kNarrow = 1e-7;         // of the last pressure: changes this near are one
constexpr double kAfter = 1e-9;          // of the last pressure: where the first piece is entered
constexpr double kNothing = 1e-8;        // of the load, of the lift: rounding
constexpr int kMaxDepth = 40;

Contact contact_at(const StackSolver& solver, int n_discs, int p) {
  const Layout& layout = solver.layout();
  const ContactPoint& at = layout.points[p];
  Contact contact;
  contact.lower = -1;
  if (at.lower != kBelow)
    contact.lower = layout.layers[at.lower].first_disc + layout.layers[at.lower].n_equal - 1;
  contact.upper = at.upper < layout.n_layers() ? layout.layers[at.upper].first_disc
                                               : n_discs + at.upper - layout.n_layers();
  contact.radius = layout.radius[at.station];
  return contact;
}

/// What a change at a point is, from the points of the same two bodies that press besides.
BreakpointKind kind_of(const Layout& layout, const std::vector<char>& active, int point) {
  const ContactPoint& at = layout.points[point];
  bool others = false;
  bool inside = false;
  bool outside = false;
  for (const ContactRun& run : layout.runs) {
    if (run.lower != at.lower || run.upper != at.upper) continue;
    for (int p = run.first_point; p < run.first_point + run.n; ++p) {
      if (p == point || !active[p]) continue;
      others = true;
      inside = inside || layout.points[p].station == at.station - 1;
      outside = outside || layout.points[p].station == at.station + 1;
    }
  }
  if (!others) return BreakpointKind::Pair;
  for (int layer : {at.lower, at.upper}) {
    if (layer == kBelow || layer >= layout.n_layers()) continue;
    const Layer& body = layout.layers[layer];
    if (at.station == body.end || (body.ring && at.station == body.begin)) return BreakpointKind::Edge;
  }
  return inside != outside ? BreakpointKind::Front : BreakpointKind::Zone;
}

/// A solved pressure, and what the stack does on either side of it while its contacts stay.
struct PathState {
  StackSolver::Snapshot at;  // pressure, forces, active points
  std::vector<double> gap, force_rate, gap_rate;
  double lift = 0.0, lift_rate = 0.0;
  double rim = 0.0, rim_rate = 0.0;
  double lift_at(double pressure) const { return lift + lift_rate * (pressure - at.pressure); }
  double rim_at(double pressure) const { return rim + rim_rate * (pressure - at.pressure); }
};

/// Finds the pieces between two pressures. Where the same points press at both, nothing changes in between:
/// the pressures at which an active set solves the problem are an interval. Otherwise the lines of both ends
/// meet where the lift bends, if that is the only place; a solution there tells.
class PathBuilder {
 public:
  PathBuilder(const Stack& stack, double p_max, StackSolver& solver, LinearPath& path)
      : stack_(stack), p_max_(p_max), solver_(solver), path_(path) {}

  bool build();

 private:
  bool solve(double pressure, const PathState& from, PathState& to);
  void keep(PathState& station);
  bool refine(const PathState& a, const PathState& b, int depth);
  void add_point(double pressure, double lift, double rim);
  void add_breakpoints(const PathState& a, const PathState& b, double bend);
  double change_of(const PathState& a, const PathState& b, int point, double bend) const;
  void tell_carrying(const PathState& b, std::size_t first);
  void find_carrying(const PathState& station, std::vector<char>& carries) const;

  const Stack& stack_;
  double p_max_;
  StackSolver& solver_;
  LinearPath& path_;
  double largest_lift_ = 0.0;
  double load_ = 0.0;
  std::vector<char> carried_, carries_, active_;
  std::vector<std::pair<double, int>> changes_;
};

void PathBuilder::keep(PathState& station) {
  solver_.find_rate();
  solver_.save(station.at);
  station.gap = solver_.contact().gap;
  station.force_rate = solver_.rate().force;
  station.gap_rate = solver_.rate().gap;
  station.lift = solver_.seat_lift() - stack_.seat.height;
  station.lift_rate = solver_.seat_rate();
  station.rim = solver_.rim_lift() - stack_.seat.height;
  station.rim_rate = solver_.rate().lift[0].back();
}

bool PathBuilder::solve(double pressure, const PathState& from, PathState& to) {
  ++path_.outcome.iterations;
  solver_.restore(from.at);
  if (!solver_.solve(pressure)) return false;
  keep(to);
  return true;
}

void PathBuilder::add_point(double pressure, double lift, double rim) {
  path_.pressure.push_back(pressure);
  path_.lift_seat.push_back(lift);
  path_.lift_rim.push_back(rim);
}

/// Where a point that changes between two stations does: its force or gap comes to nothing.
double PathBuilder::change_of(const PathState& a, const PathState& b, int point, double bend) const {
  const double value = a.at.active[point] ? a.at.force[point] : a.gap[point];
  const double rate = a.at.active[point] ? a.force_rate[point] : a.gap_rate[point];
  if (!(rate < 0.0)) return bend;
  const double change = a.at.pressure - value / rate;
  return change > a.at.pressure && change < b.at.pressure ? change : bend;
}

bool PathBuilder::refine(const PathState& a, const PathState& b, int depth) {
  if (a.at.active == b.at.active) return true;
  const double pa = a.at.pressure;
  const double pb = b.at.pressure;
  const double allowed = kPathTolerance * largest_lift_;
  const double at_a = b.lift_at(pa) - a.lift;
  const double at_b = b.lift - a.lift_at(pb);
  const bool one_line = std::max(std::abs(at_a), std::abs(at_b)) <= allowed;
  const double beside = kNarrow * p_max_;
  double bend = pa + (pb - pa) * (at_a == at_b ? 0.5 : at_a / (at_a - at_b));
  if (one_line || pb - pa <= 2.0 * beside || depth == 0) {
    add_breakpoints(a, b, std::clamp(bend, pa, pb));
    return true;
  }
  // a solution where the lines meet, or just beside where that has been solved
  bend = bend < pa || bend > pb ? 0.5 * (pa + pb) : std::clamp(bend, pa + beside, pb - beside);
  PathState m;
  if (!solve(bend, bend - pa < pb - bend ? a : b, m)) return false;
  return refine(a, m, depth - 1) && refine(m, b, depth - 1);
}

/// Which layers something presses on in the piece that a station is on; the pressure always presses on the
/// first.
void PathBuilder::find_carrying(const PathState& station, std::vector<char>& carries) const {
  const Layout& layout = solver_.layout();
  carries.assign(layout.n_layers(), 0);
  carries[0] = 1;
  for (std::size_t p = 0; p < station.gap.size(); ++p) {
    const double at_end = station.at.force[p] + station.force_rate[p] * (p_max_ - station.at.pressure);
    if (std::max(at_end, station.at.force[p]) <= kNothing * load_) continue;
    const ContactPoint& at = layout.points[p];
    if (at.lower != kBelow) carries[at.lower] = 1;
    if (at.upper < layout.n_layers()) carries[at.upper] = 1;
  }
}

/// Everything that changed between two stations whose lines meet at the bend.
void PathBuilder::add_breakpoints(const PathState& a, const PathState& b, double bend) {
  const Layout& layout = solver_.layout();
  add_point(bend, a.lift_at(bend), a.rim_at(bend));
  changes_.clear();
  for (int p = 0; p < static_cast<int>(a.gap.size()); ++p) {
    if (a.at.active[p] == b.at.active[p]) continue;
    // a place that neither presses nor gapes on either side is of no account
    const double force = std::max(a.at.force[p], b.at.force[p]);
    const double gap = std::max(a.gap[p], b.gap[p]);
    if (force <= kNothing * load_ && gap <= kNothing * largest_lift_) continue;
    changes_.emplace_back(change_of(a, b, p, bend), p);
  }
  std::sort(changes_.begin(), changes_.end());
  const std::size_t first = path_.breakpoints.size();
  active_ = a.at.active;
  for (const auto& [pressure, p] : changes_) {
    const ContactPoint& at = layout.points[p];
    Breakpoint breakpoint;
    breakpoint.pressure = pressure;
    breakpoint.lift_seat = pressure <= bend ? a.lift_at(pressure) : b.lift_at(pressure);
    breakpoint.change = active_[p] ? ContactChange::Opened : ContactChange::Closed;
    breakpoint.kind = kind_of(layout, active_, p);
    breakpoint.contact = contact_at(solver_, static_cast<int>(stack_.discs.size()), p);
    path_.breakpoints.push_back(breakpoint);
    if (at.lower == kBelow && at.station == layout.seat_station && active_[p])
      path_.opening_pressure = pressure;
    active_[p] = !active_[p];
  }
  tell_carrying(b, first);
}

/// Discs that carry in the new piece and did not before, or the other way, go with its first breakpoint.
void PathBuilder::tell_carrying(const PathState& b, std::size_t first) {
  if (first == path_.breakpoints.size()) return;
  find_carrying(b, carries_);
  Breakpoint& at = path_.breakpoints[first];
  for (int l = 0; l < solver_.layout().n_layers(); ++l) {
    if (carries_[l] == carried_[l]) continue;
    const Layer& layer = solver_.layout().layers[l];
    std::vector<int>& list = carries_[l] ? at.starts : at.ceases;
    for (int i = 0; i < layer.n_equal; ++i) list.push_back(layer.first_disc + i);
  }
  carried_.swap(carries_);
}

bool PathBuilder::build() {
  load_ = p_max_ * solver_.layout().load_force;
  PathState a, b;
  // at rest, just loaded, and at the end
  if (!solver_.solve(0.0)) return false;
  add_point(0.0, solver_.seat_lift() - stack_.seat.height, solver_.rim_lift() - stack_.seat.height);
  if (!solver_.solve(kAfter * p_max_)) return false;
  keep(a);
  if (!solve(p_max_, a, b)) return false;
  largest_lift_ = std::max(std::abs(b.lift), std::abs(b.rim));
  find_carrying(a, carried_);
  const bool ended = refine(a, b, kMaxDepth);
  add_point(p_max_, b.lift, b.rim);
  return ended;
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

bool is_physical(const Breakpoint& breakpoint) {
  return breakpoint.kind == BreakpointKind::Pair || breakpoint.kind == BreakpointKind::Edge ||
         !breakpoint.starts.empty() || !breakpoint.ceases.empty();
}

LinearPath linear_path(const Stack& stack, double p_max, const Options& options, Workspace& workspace) {
  SW_CHECK(validate(stack).empty());
  SW_CHECK(std::isfinite(p_max) && p_max > 0.0, p_max);
  Options linear = options;
  linear.theory = Theory::Linear;
  StackSolver& solver = workspace.impl().solver;
  const Stack bending = bending_stack(stack);
  solver.set_up(bending, linear);
  LinearPath path;
  if (!PathBuilder(bending, p_max, solver, path).build()) {
    path.outcome.status = Status::Stalled;
    path.outcome.note = "the contact did not settle on the way";
  }
  if (stack.slide.travel > 0.0 && path.outcome.ok())
    put_slide_first(stack, solver.layout().load_force, p_max, path);
  return path;
}

}  // namespace shimwright::plate
