// The linear response from breakpoint to breakpoint. Of 4000 random stacks none stalled; the lifts were at
// worst 8e-8 off pressures solved alone.
#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "base/check.h"
#include "plate/kernels.h"
#include "plate/workspace.h"

namespace shimwright::plate {
namespace {

constexpr double kAfter = 1e-9;    // of the last pressure: where the first piece is entered
constexpr double kSame = 1e-9;     // of the last pressure: changes this near are at one breakpoint
constexpr double kNothing = 1e-9;  // of the load, of the lift: what comes to no more is rounding
constexpr double kJump = 1e-7;     // of the last pressure: as far as a knot of contacts is jumped
constexpr double kArrives =
    1e-6;  // of the largest lift: the path against the end solved on its own, each to 1e-9 of the load
constexpr int kRefresh = 32;          // changes after which forces and gaps are solved again
constexpr double kNoOpening = 1e-12;  // a gap that opens no further before it closes again never opened [m]
constexpr int kPathPatience = 6;      // changes of the worst of every row at once without getting fewer

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

/// Goes from breakpoint to breakpoint: while the same points press, everything is straight in the pressure,
/// so the next breakpoint is where the first force or gap comes to nothing. There the points that would pull
/// or overlap beyond change, until none would: the worst of every row of them at once, or, where that goes
/// around, the first.
///
/// Source: parametric linear complementarity, [cottle1992] 4.5;
/// that to
///         change the first always ends, Murty, Linear Complementarity, ch. 3 (both from memory).
class PathFollower {
 public:
  PathFollower(const Stack& stack, double p_max, StackSolver& solver, LinearPath& path)
      : stack_(stack), p_max_(p_max), solver_(solver), layout_(solver.layout()), path_(path) {}

  bool follow();

 private:
  bool enter();
  double next_breakpoint() const;
  void go_to(double pressure);
  bool turn();
  void find_wrong();
  void flip_wrong(bool all_rows);
  bool solve_anew(double pressure);
  void take_solved();
  void add_point();
  void tell_changes();
  void tell_seat();
  void find_excursions();
  bool is_back(int point) const;
  void drop_noise();
  void tell_carrying(Breakpoint& at);
  void find_carrying(std::vector<char>& carries) const;
  bool arrives();

  double value(int point) const { return active_[point] ? force_[point] : gap_[point]; }
  double slope(int point) const {
    return active_[point] ? solver_.rate().force[point] : solver_.rate().gap[point];
  }
  double nothing(int point) const { return kNothing * (active_[point] ? load_ : largest_lift_); }
  /// Of a point: whether its force or gap would come to less than nothing by the end, and not by rounding.
  bool ends(int point) const {
    return slope(point) < 0.0 && value(point) + slope(point) * (p_max_ - pressure_) < -nothing(point);
  }

  const Stack& stack_;
  double p_max_;
  StackSolver& solver_;
  const Layout& layout_;
  LinearPath& path_;

  // at a pressure of the path; how they go on is the solver's rate
  double pressure_ = 0.0;
  std::vector<char> active_;
  std::vector<double> force_, gap_;
  double lift_ = 0.0;
  double rim_ = 0.0;

  double load_ = 0.0;
  double largest_lift_ = 0.0;
  std::vector<char> before_;  // that pressed before the present breakpoint
  std::vector<int> wrong_;
  std::vector<char> carried_, carries_;

  // by point: where it last changed is told, and how far its gap or force has come since
  std::vector<int> told_;
  std::vector<double> excursion_;
  std::vector<char> noise_;  // by breakpoint told
  bool sealed_ = false;
};

void PathFollower::take_solved() {
  pressure_ = solver_.pressure();
  active_ = solver_.contact().active;
  force_ = solver_.contact().force;
  gap_ = solver_.contact().gap;
  lift_ = solver_.seat_lift() - stack_.seat.height;
  rim_ = solver_.rim_lift() - stack_.seat.height;
  for (const std::vector<double>& rates : solver_.rate().lift)
    for (double rate : rates) largest_lift_ = std::max(largest_lift_, std::abs(rate) * p_max_);
}

/// Solves at a pressure just ahead, or here, from the points that press now.
bool PathFollower::solve_anew(double pressure) {
  if (!solver_.solve(pressure)) return false;
  solver_.find_rate();
  take_solved();
  return true;
}

void PathFollower::add_point() {
  path_.pressure.push_back(pressure_);
  path_.lift_seat.push_back(lift_);
  path_.lift_rim.push_back(rim_);
}

double PathFollower::next_breakpoint() const {
  double next = p_max_;
  for (int p = 0; p < static_cast<int>(active_.size()); ++p)
    if (ends(p)) next = std::min(next, pressure_ - value(p) / slope(p));
  return std::max(next, pressure_);
}

void PathFollower::go_to(double pressure) {
  const double step = pressure - pressure_;
  const ContactState& rate = solver_.rate();
  add_scaled(static_cast<int>(force_.size()), step, rate.force.data(), force_.data());
  add_scaled(static_cast<int>(gap_.size()), step, rate.gap.data(), gap_.data());
  lift_ += step * solver_.seat_rate();
  rim_ += step * rate.lift[0].back();
  pressure_ = pressure;
}

/// Points whose force or gap is nothing here and would be less just beyond.
void PathFollower::find_wrong() {
  const double same = kSame * p_max_;
  wrong_.clear();
  for (int p = 0; p < static_cast<int>(active_.size()); ++p)
    if (ends(p) && value(p) + slope(p) * same <= 0.0) wrong_.push_back(p);
}

/// The worst of every row of wrong neighbours changes, or only the first.
void PathFollower::flip_wrong(bool all_rows) {
  const auto one_row = [&](std::size_t i) {  // with the one before
    const ContactPoint& a = layout_.points[wrong_[i - 1]];
    const ContactPoint& b = layout_.points[wrong_[i]];
    return wrong_[i] == wrong_[i - 1] + 1 && a.lower == b.lower && a.upper == b.upper &&
           active_[wrong_[i]] == active_[wrong_[i - 1]];
  };
  std::vector<int>& flips = wrong_;  // filled behind the reader
  std::size_t n_flips = 0;
  for (std::size_t i = 0; i < wrong_.size();) {
    int worst = wrong_[i];
    std::size_t next = i + 1;
    for (; next < wrong_.size() && one_row(next); ++next)
      if (slope(wrong_[next]) < slope(worst)) worst = wrong_[next];
    flips[n_flips++] = worst;
    i = next;
    if (!all_rows) break;
  }
  for (std::size_t i = 0; i < n_flips; ++i) {
    const int p = flips[i];
    active_[p] = !active_[p];
    force_[p] = gap_[p] = 0.0;
  }
  path_.outcome.iterations += static_cast<int>(n_flips);
  solver_.press_at(active_);
}

/// Finds which points press in the piece ahead. False when that goes around.
bool PathFollower::turn() {
  std::size_t fewest = active_.size() + 1;
  int patience = kPathPatience;
  int n_single = 3 * static_cast<int>(active_.size());
  for (;;) {
    find_wrong();
    if (wrong_.empty()) return true;
    if (wrong_.size() < fewest) {
      fewest = wrong_.size();
      patience = kPathPatience;
    } else if (--patience < 0 && --n_single < 0) {
      return false;
    }
    flip_wrong(patience >= 0);
  }
}

/// What presses now and did not before this breakpoint, and the other way.
void PathFollower::tell_changes() {
  const std::size_t first = path_.breakpoints.size();
  for (int p = 0; p < static_cast<int>(active_.size()); ++p) {
    if (active_[p] == before_[p]) continue;
    const ContactPoint& at = layout_.points[p];
    Breakpoint breakpoint;
    breakpoint.pressure = pressure_;
    breakpoint.lift_seat = lift_;
    breakpoint.change = before_[p] ? ContactChange::Opened : ContactChange::Closed;
    breakpoint.kind = kind_of(layout_, before_, p);
    breakpoint.contact = contact_at(solver_, static_cast<int>(stack_.discs.size()), p);
    path_.breakpoints.push_back(breakpoint);
    if (at.lower == kBelow && at.station == layout_.seat_station && before_[p])
      path_.opening_pressure = pressure_;
    // a change that is taken back before anything came of it was rounding, and so is taking it back
    const int told = static_cast<int>(path_.breakpoints.size()) - 1;
    noise_.push_back(is_back(p) ? 1 : 0);
    if (is_back(p)) noise_[static_cast<std::size_t>(told_[p])] = 1;
    told_[p] = is_back(p) ? -1 : told;
    excursion_[p] = 0.0;
    before_[p] = active_[p];
  }
  if (first == path_.breakpoints.size()) return;
  add_point();
  tell_carrying(path_.breakpoints[first]);
}

/// How far gaps and forces have come on the way to here.
void PathFollower::find_excursions() {
  for (std::size_t p = 0; p < excursion_.size(); ++p)
    excursion_[p] = std::max(excursion_[p], std::abs(value(static_cast<int>(p))));
}

/// Whether a point that changes again has come to nothing since it was told to have changed.
bool PathFollower::is_back(int point) const {
  return told_[point] >= 0 && excursion_[point] <= (before_[point] ? kNothing * load_ : kNoOpening);
}

/// Takes out the breakpoints that are noise; where a disc begins or ceases to carry, it does so all the same.
void PathFollower::drop_noise() {
  std::vector<Breakpoint> kept;
  for (std::size_t i = 0; i < path_.breakpoints.size(); ++i) {
    const Breakpoint& one = path_.breakpoints[i];
    if (!noise_[i] || !one.starts.empty() || !one.ceases.empty()) kept.push_back(one);
  }
  path_.breakpoints = std::move(kept);
}

/// Whether the seat presses in the piece ahead.
void PathFollower::tell_seat() {
  sealed_ = false;
  for (std::size_t p = 0; p < active_.size(); ++p) {
    const ContactPoint& at = layout_.points[p];
    if (at.lower == kBelow && at.station == layout_.seat_station && active_[p] &&
        force_[p] > kNothing * load_)
      sealed_ = true;
  }
}

/// Which layers something presses on in the piece ahead; the pressure always presses on the first.
void PathFollower::find_carrying(std::vector<char>& carries) const {
  carries.assign(layout_.n_layers(), 0);
  carries[0] = 1;
  const std::vector<double>& rate = solver_.rate().force;
  for (std::size_t p = 0; p < force_.size(); ++p) {
    const double at_end = force_[p] + rate[p] * (p_max_ - pressure_);
    if (std::max(at_end, force_[p]) <= kNothing * load_) continue;
    const ContactPoint& at = layout_.points[p];
    if (at.lower != kBelow) carries[at.lower] = 1;
    if (at.upper < layout_.n_layers()) carries[at.upper] = 1;
  }
}

/// Discs that carry in the piece ahead and did not before, or the other way, go with its first breakpoint.
void PathFollower::tell_carrying(Breakpoint& at) {
  find_carrying(carries_);
  for (int l = 0; l < layout_.n_layers(); ++l) {
    if (carries_[l] == carried_[l]) continue;
    const Layer& layer = layout_.layers[l];
    std::vector<int>& list = carries_[l] ? at.starts : at.ceases;
    for (int i = 0; i < layer.n_equal; ++i) list.push_back(layer.first_disc + i);
  }
  carried_.swap(carries_);
}

/// At rest, then into the first piece.
bool PathFollower::enter() {
  load_ = p_max_ * layout_.load_force;
  const bool preloaded =
      std::ranges::any_of(layout_.points, [](const ContactPoint& at) { return at.gap < 0.0; });
  if (preloaded && !solver_.solve(0.0)) return false;
  lift_ = solver_.seat_lift() - stack_.seat.height;
  rim_ = solver_.rim_lift() - stack_.seat.height;
  add_point();
  if (!solve_anew(kAfter * p_max_)) return false;
  before_ = active_;
  told_.assign(active_.size(), -1);
  excursion_.assign(active_.size(), 0.0);
  find_carrying(carried_);
  return true;
}

/// Solved on its own, the end is where the path comes to.
bool PathFollower::arrives() {
  if (!solver_.solve(p_max_)) return false;
  const double seat = solver_.seat_lift() - stack_.seat.height;
  const double rim = solver_.rim_lift() - stack_.seat.height;
  const double largest = std::max(std::abs(seat), std::abs(rim));
  return std::abs(seat - lift_) <= kArrives * largest && std::abs(rim - rim_) <= kArrives * largest;
}

bool PathFollower::follow() {
  if (!enter()) return false;
  int refreshed_at = 0;
  for (;;) {
    go_to(next_breakpoint());
    find_excursions();
    if (pressure_ >= p_max_) break;
    const bool turned = turn();
    if (!turned && !solve_anew(std::min(pressure_ + kJump * p_max_, p_max_))) return false;
    tell_changes();
    if (path_.outcome.iterations - refreshed_at < kRefresh) continue;
    if (!solve_anew(pressure_)) return false;
    refreshed_at = path_.outcome.iterations;
  }
  add_point();
  drop_noise();
  tell_seat();
  if (sealed_) path_.opening_pressure.reset();
  return arrives();
}

/// Adds the slide of a floating stack to the path of its bend.
void add_slide(const Stack& stack, double load_force, double p_max, LinearPath& path) {
  const auto bend_at = [&](const std::vector<double>& lift, double p) {
    std::size_t k = 1;
    while (k + 1 < path.pressure.size() && path.pressure[k] < p) ++k;
    const double share = (p - path.pressure[k - 1]) / (path.pressure[k] - path.pressure[k - 1]);
    return lift[k - 1] + share * (lift[k] - lift[k - 1]);
  };
  const auto lifted = [&](double p) { return floated(stack, load_force, p, bend_at(path.lift_seat, p)); };

  // where it leaves its seat
  double shut = 0.0;
  double open = std::min(stack.slide.spring_force / load_force, p_max);
  if (stack.slide.spring_force > 0.0 && lifted(open).lift > 0.0) {
    constexpr int kHalvings = 60;
    for (int i = 0; i < kHalvings; ++i) {
      const double middle = 0.5 * (shut + open);
      (lifted(middle).lift > 0.0 ? open : shut) = middle;
    }
  }

  LinearPath moved;
  const auto add = [&](double p) {
    const Lifted at = lifted(p);
    const bool up = at.lift > 0.0 && (p > open || open == 0.0);
    moved.pressure.push_back(p);
    moved.lift_seat.push_back(up ? at.lift : 0.0);
    moved.lift_rim.push_back(up ? at.centre + bend_at(path.lift_rim, p) : 0.0);
  };
  std::vector<double> stops = {0.0, open, slide_end(stack, load_force), p_max};
  for (const double p : path.pressure)
    if (p > open) stops.push_back(p);
  std::ranges::sort(stops);
  const auto twins = std::ranges::unique(stops);
  stops.erase(twins.begin(), twins.end());
  for (const double p : stops)
    if (p <= p_max) add(p);
  for (Breakpoint& breakpoint : path.breakpoints) {
    if (breakpoint.pressure <= open) continue;
    breakpoint.lift_seat += lifted(breakpoint.pressure).centre;
    moved.breakpoints.push_back(breakpoint);
  }
  moved.opening_pressure = open;
  if (open >= p_max) moved.opening_pressure.reset();
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
  if (!PathFollower(bending, p_max, solver, path).follow()) {
    path.outcome.status = Status::Stalled;
    path.outcome.note = "the contact did not settle on the way";
  }
  if (stack.slide.travel > 0.0 && path.outcome.ok())
    add_slide(stack, solver.layout().load_force, p_max, path);
  return path;
}

}  // namespace shimwright::plate
