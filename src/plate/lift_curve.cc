#include "plate/lift_curve.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "base/check.h"
#include "plate/limits.h"
#include "plate/workspace.h"

namespace shimwright::plate {
namespace {

constexpr double kSmallLift =
    0.05;  // lifts below this share of the face disc's thickness are followed as closely as that
constexpr double kHalving =
    4.0;  // a halved cubic is far closer than the one that was tested: 16 times where smooth
constexpr double kNewtonShare = 1e-2;  // Newton stops at this share of what the curve has to keep
constexpr double kSlopeArm = 0.1;      // of the interval: the lift that a wrong slope at its middle may cost
constexpr int kMaxDepth = 7;
constexpr double kOpenTolerance = 1e-5;  // of the opening pressure
constexpr double kOpenFloor = 0.5;       // nor is it found nearer than this [Pa]
constexpr double kNoSeal = 1e-9;        // of the load and of what presses at rest: a push of less is rounding
constexpr int kNewtonTries = 6;         // by the seat force's rate, before halving alone
constexpr int kMostSolves = 1000;       // of a curve; beyond, it is as good as its error says
constexpr double kJustAfter = 20.0;     // where the slope of a curve that begins is taken [Pa]
constexpr double kLeastPiece = 1024.0;  // no piece of the curve is shorter [Pa]

struct Knot {
  double pressure = 0.0;
  double lift = 0.0;
  double slope = 0.0;
  std::uint64_t touching = 0;  // which pairs of bodies press, one bit each
  int state = -1;              // of the solver, among those kept
};

double cubic_at(const Knot& a, const Knot& b, double p) {
  const double h = b.pressure - a.pressure;
  if (h <= 0.0) return b.lift;
  const double t = (p - a.pressure) / h;
  const double u = 1.0 - t;
  return u * u * (1.0 + 2.0 * t) * a.lift + t * t * (3.0 - 2.0 * t) * b.lift +
         h * t * u * (u * a.slope - t * b.slope);
}

double cubic_slope_at(const Knot& a, const Knot& b, double p) {
  const double h = b.pressure - a.pressure;
  const double t = (p - a.pressure) / h;
  return 6.0 * t * (1.0 - t) * (b.lift - a.lift) / h + (1.0 - t) * (1.0 - 3.0 * t) * a.slope +
         t * (3.0 * t - 2.0) * b.slope;
}

/// Solves knots of the large-lift curve and fills in between until the cubic holds.
class CurveBuilder {
 public:
  CurveBuilder(const Stack& stack, double p_max, Workspace::Impl& work, LiftCurve& curve)
      : stack_(stack), p_max_(p_max), solver_(work.solver), states_(work.knots), curve_(curve) {}

  void build();
  void build_pieces(Knot from);
  double opening();
  std::vector<Knot> knots;

 private:
  Knot solve(double pressure, int fall_back = -1);
  Knot lost(double pressure, int fall_back);
  int keep_state();
  double find_opening();
  bool is_preloaded() const;
  bool sealed_at_rest();
  bool seals(double pressure, double force) const;
  void refine(const Knot& a, const Knot& b, int depth);
  double kink_between(const Knot& a, const Knot& b) const;
  double seat_force(double* rate) const;

  const Stack& stack_;
  double p_max_;
  StackSolver& solver_;
  std::vector<StackSolver::Knot>& states_;
  std::size_t n_states_ = 0;
  std::vector<double> kept_lift_;  // of each state
  LiftCurve& curve_;
  bool lost_ = false;            // at some pressure nothing settled
  double force_at_rest_ = 0.0;   // that seals [N]
  double small_lift_ = 0.0;      // a lift below is followed as closely as this one [m]
  double largest_misfit_ = 0.0;  // that was let pass [m]
};

/// Solves from where the solver is; when that does not end, from a kept state.
Knot CurveBuilder::solve(double pressure, int fall_back) {
  bool ended = solver_.solve(pressure);
  ++curve_.outcome.iterations;
  if (!ended && fall_back >= 0) {
    solver_.restore(states_[fall_back].at);
    ended = solver_.solve(pressure);
    ++curve_.outcome.iterations;
  }
  if (!ended) return lost(pressure, fall_back);
  curve_.outcome.residual = std::max(curve_.outcome.residual, solver_.newton_change());
  solver_.find_rate();
  if (!std::isfinite(solver_.seat_lift()) || !std::isfinite(solver_.seat_rate()))
    return lost(pressure, fall_back);
  // a closed seat may read a rounding error below nothing; without one a preload may hold the disc below
  double lift = solver_.seat_lift() - stack_.seat.height;
  if (stack_.seat.present) lift = std::max(lift, 0.0);
  const int state = keep_state();
  kept_lift_.resize(n_states_);
  kept_lift_.back() = lift;
  return {pressure, lift, std::max(solver_.seat_rate(), 0.0), solver_.touching_pairs(), state};
}

/// The solver has lost the stack: it stands where it was last known, and the curve says so.
Knot CurveBuilder::lost(double pressure, int fall_back) {
  lost_ = true;
  curve_.outcome.status = Status::Stalled;
  curve_.outcome.note = "the contact and the deflection did not settle at a pressure of the curve";
  curve_.outcome.residual = 1.0;
  const double lift = fall_back < 0 ? 0.0 : kept_lift_[static_cast<std::size_t>(fall_back)];
  return {pressure, lift, 0.0, 0, fall_back};
}

int CurveBuilder::keep_state() {
  if (n_states_ == states_.size()) states_.emplace_back();
  solver_.save_knot(states_[n_states_]);
  return static_cast<int>(n_states_++);
}

double CurveBuilder::seat_force(double* rate) const {
  const Layout& layout = solver_.layout();
  double force = 0.0;
  for (std::size_t p = 0; p < layout.points.size(); ++p) {
    const ContactPoint& at = layout.points[p];
    if (at.lower != kBelow || at.station != layout.seat_station) continue;
    force += solver_.contact().force[p];
    if (rate != nullptr) *rate += solver_.rate().force[p];
  }
  return force;
}

bool CurveBuilder::seals(double pressure, double force) const {
  return force > kNoSeal * std::max(pressure * solver_.layout().load_force, force_at_rest_);
}

/// Whether the seat presses at rest; the solver is there.
bool CurveBuilder::sealed_at_rest() {
  force_at_rest_ = 0.0;
  for (const double force : solver_.contact().force) force_at_rest_ = std::max(force_at_rest_, force);
  return stack_.seat.present && seals(0.0, seat_force(nullptr));
}

/// Where the seat force ends, found from the state at rest between a sealed and an open pressure: by Newton's
/// rule on that force as long as it comes nearer, then by halves. The last pressure when it still seals
/// there.
double CurveBuilder::find_opening() {
  double sealed = 0.0;
  double open = p_max_;
  bool opened = false;
  int n_tries = 0;
  double rate = 0.0;
  double force = seat_force(&rate);
  double next = rate < 0.0 ? -force / rate : p_max_;
  const auto tolerance = [&] { return std::max(kOpenTolerance * open, kOpenFloor); };
  while (open - sealed > tolerance() && !lost_) {
    // once it opens, what the force foretells is tried a few times; before, it may not creep either
    const bool between = next > sealed && (!opened || next < open);
    if (!between || ++n_tries > kNewtonTries)
      next = opened ? 0.5 * (sealed + open) : std::max(2.0 * sealed, p_max_ / 1024.0);
    if (!opened) next = std::min(next, p_max_);
    solve(next);
    rate = 0.0;
    force = seat_force(&rate);
    if (seals(next, force)) {
      if (next == p_max_) return p_max_;
      sealed = next;
      const double ends = rate < 0.0 ? next - force / rate : p_max_;
      next = ends + 0.3 * tolerance();
    } else {
      opened = true;
      open = next;
      next = open - 0.7 * tolerance();
    }
  }
  return open;
}

/// What a cubic between two knots may be off by where bodies came together or parted in between: a kink in
/// the middle.
double CurveBuilder::kink_between(const Knot& a, const Knot& b) const {
  return a.touching == b.touching ? 0.0 : (b.pressure - a.pressure) * std::abs(b.slope - a.slope) / 16.0;
}

void CurveBuilder::refine(const Knot& a, const Knot& b, int depth) {
  if (lost_) return;
  const double middle = 0.5 * (a.pressure + b.pressure);
  solver_.begin_between(states_[a.state], states_[b.state], middle);
  const Knot m = solve(middle, a.state);
  if (lost_) return;
  knots.push_back(m);
  // a slope that is off shows a kink near the middle, where the lift itself may pass by chance
  const double by_slope =
      kSlopeArm * (b.pressure - a.pressure) * std::abs(cubic_slope_at(a, b, middle) - m.slope);
  const double misfit = std::max(std::abs(cubic_at(a, b, middle) - m.lift), by_slope);
  const double allowed = solver_.options().curve_tolerance * std::max(m.lift, small_lift_);
  const bool fits = misfit <= kHalving * allowed;
  const bool low = !fits || kink_between(a, m) > allowed;
  const bool high = !fits || kink_between(m, b) > allowed;
  if (depth == 0 || !(low || high) || curve_.outcome.iterations >= kMostSolves) {
    largest_misfit_ = std::max(largest_misfit_, misfit / kHalving);
    return;
  }
  if (high) refine(m, b, depth - 1);
  if (low) refine(a, m, depth - 1);
}

/// Whether something presses at rest; if not, the discs are flat there and there is nothing to solve.
bool CurveBuilder::is_preloaded() const {
  const std::vector<ContactPoint>& points = solver_.layout().points;
  return std::any_of(points.begin(), points.end(), [](const ContactPoint& at) { return at.gap < 0.0; });
}

/// The opening alone, from a solver that is set up; 0 when nothing seals.
double CurveBuilder::opening() {
  if (is_preloaded()) solve(0.0);
  return !lost_ && sealed_at_rest() ? find_opening() : 0.0;
}

void CurveBuilder::build() {
  // from rest to the opening nothing lifts
  double start = 0.0;
  Knot from{start, -stack_.seat.height, 0.0, 0, -1};
  if (is_preloaded()) from = solve(start);
  if (sealed_at_rest()) {
    knots.push_back({0.0, 0.0, 0.0});
    start = find_opening();
    curve_.opening_pressure = start;
    knots.push_back({start, 0.0, 0.0});
    from = {start, 0.0, 0.0};
    if (start >= p_max_) return;
  }

  build_pieces(from);
}

/// Pieces that grow with the pressure from the start on and end where the stack alone says, each solved from
/// the end of the one before: what the curve says at a pressure does not depend on how far it goes on behind.
void CurveBuilder::build_pieces(Knot from) {
  // just after its start the contacts are those of the piece that begins here
  const double start = from.pressure;
  const Knot after = solve(start + std::min(kJustAfter, 0.1 * (p_max_ - start)));
  from.slope = after.slope;
  from.touching = after.touching;
  from.state = after.state;
  knots.push_back(from);
  if (lost_) {  // from the start
    knots.push_back({p_max_, from.lift, 0.0, 0, -1});
    return;
  }

  small_lift_ = kSmallLift * stack_.discs.front().thickness;
  double span = kLeastPiece;
  while (span * from.slope < small_lift_ && span < kCurveStart) span *= 2.0;
  Knot low = from;
  for (double end = start + span; low.pressure < p_max_ && !lost_; end = start + (span *= kCurveGrowth)) {
    solver_.restore(states_[low.state].at);
    const Knot high = solve(std::min(end, p_max_), low.state);
    knots.push_back(high);
    refine(low, high, kMaxDepth);
    low = high;
  }
  if (low.pressure < p_max_) knots.push_back({p_max_, low.lift, 0.0, 0, -1});
  curve_.error = largest_misfit_ / std::max(low.lift, 1e-12);
  std::stable_sort(knots.begin(), knots.end(),
                   [](const Knot& a, const Knot& b) { return a.pressure < b.pressure; });
}

/// Where nothing is sealed a preload may hold the disc below its seat's plane, which lifts nothing: the curve
/// is flat up to where it comes through, and bends there.
void cut_below_nothing(std::vector<Knot>& knots) {
  std::vector<Knot> cut;
  for (std::size_t k = 0; k < knots.size(); ++k) {
    const bool comes_through = k > 0 && knots[k - 1].lift < 0.0 && knots[k].lift > 0.0;
    if (comes_through) {
      double below = knots[k - 1].pressure;
      double above = knots[k].pressure;
      for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (below + above);
        (cubic_at(knots[k - 1], knots[k], middle) < 0.0 ? below : above) = middle;
      }
      cut.push_back({above, 0.0, 0.0});
      cut.push_back({above, 0.0, cubic_slope_at(knots[k - 1], knots[k], above)});
    }
    cut.push_back(knots[k]);
    if (knots[k].lift < 0.0) cut.back().lift = cut.back().slope = 0.0;
  }
  knots = cut;
}

/// Slopes small enough for every cubic to rise, and a misfit of the solver's rounding taken out of the lifts.
/// Source: [fritsch1980], from memory: no slope above 3 times the
/// secant.
void keep_rising(std::vector<Knot>& knots) {
  for (std::size_t k = 0; k < knots.size(); ++k)
    knots[k].lift = std::max(knots[k].lift, k == 0 ? 0.0 : knots[k - 1].lift);
  for (std::size_t k = 0; k + 1 < knots.size(); ++k) {
    const double h = knots[k + 1].pressure - knots[k].pressure;
    if (h <= 0.0) continue;
    const double most = 3.0 * (knots[k + 1].lift - knots[k].lift) / h;
    knots[k].slope = std::min(knots[k].slope, most);
    knots[k + 1].slope = std::min(knots[k + 1].slope, most);
  }
}

/// The linear response is straight between its breakpoints: each is two knots at one pressure.
void straight_knots(const LinearPath& path, std::vector<Knot>& knots) {
  for (std::size_t k = 0; k + 1 < path.pressure.size(); ++k) {
    const double h = path.pressure[k + 1] - path.pressure[k];
    if (h <= 0.0) continue;
    const double slope = (path.lift_seat[k + 1] - path.lift_seat[k]) / h;
    knots.push_back({path.pressure[k], path.lift_seat[k], slope});
    knots.push_back({path.pressure[k + 1], path.lift_seat[k + 1], slope});
  }
}

/// What a floating stack bends at a pressure, out of the knots of its bend.
Knot bend_at(const std::vector<Knot>& bend, double pressure) {
  std::size_t k = 1;
  while (k + 1 < bend.size() && bend[k].pressure < pressure) ++k;
  const Knot& a = bend[k - 1];
  const Knot& b = bend[k];
  if (b.pressure <= a.pressure) return {pressure, b.lift, b.slope};
  return {pressure, cubic_at(a, b, pressure), cubic_slope_at(a, b, pressure)};
}

/// Adds the slide of a floating stack to the knots of its bend; gives the pressure at which it leaves its
/// seat.
double add_slide(const Stack& stack, double load_force, double p_max, std::vector<Knot>& knots) {
  const std::vector<Knot> bend = knots;
  const auto lifted = [&](double p) { return floated(stack, load_force, p, bend_at(bend, p).lift); };
  const auto up = [&](double p) { return lifted(p).lift > 0.0; };
  double shut = 0.0;
  double open = std::min(stack.slide.spring_force / load_force, p_max);
  if (stack.slide.spring_force > 0.0 && up(open)) {
    constexpr int kHalvings = 60;
    for (int i = 0; i < kHalvings; ++i) {
      const double middle = 0.5 * (shut + open);
      (up(middle) ? open : shut) = middle;
    }
  }
  const double ends = slide_end(stack, load_force);
  const double rate = load_force / stack.slide.spring_rate;

  std::vector<Knot> all;
  if (open > 0.0) all = {{0.0, 0.0, 0.0}, {open, 0.0, 0.0}};
  if (open >= p_max) {
    knots = all;
    return open;
  }
  all.push_back({open, open > 0.0 ? 0.0 : lifted(open).lift, rate + bend_at(bend, open).slope});
  for (const Knot& knot : bend)
    if (knot.pressure > open && knot.pressure < std::min(ends, p_max))
      all.push_back({knot.pressure, lifted(knot.pressure).lift, rate + knot.slope});
  const double last = std::min(ends, p_max);
  const double slope_there = bend_at(bend, last).slope;
  all.push_back({last, lifted(last).lift, rate + slope_there});
  if (ends < p_max) {
    all.push_back({ends, lifted(ends).lift, slope_there});
    for (const Knot& knot : bend)
      if (knot.pressure > ends) all.push_back({knot.pressure, stack.slide.travel + knot.lift, knot.slope});
  }
  knots = all;
  return open;
}

std::size_t interval_of(const LiftCurve& curve, double pressure) {
  const auto above = std::upper_bound(curve.pressure.begin(), curve.pressure.end(), pressure);
  const std::size_t k = static_cast<std::size_t>(above - curve.pressure.begin());
  return std::clamp<std::size_t>(k, 1, curve.pressure.size() - 1) - 1;
}

Knot knot_of(const LiftCurve& curve, std::size_t k) {
  return {curve.pressure[k], curve.lift[k], curve.slope[k]};
}

LiftCurve drawn_curve(const Stack& stack, double p_max, const Options& options, Workspace& workspace) {
  LiftCurve curve;
  curve.seat_radius = stack.seat.radius;
  curve.arc_fraction = stack.load.arc_fraction;
  std::vector<Knot> knots;
  if (options.theory == Theory::Linear) {
    const LinearPath path = linear_path(stack, p_max, options, workspace);
    curve.outcome = path.outcome;
    curve.opening_pressure = path.opening_pressure.value_or(p_max);
    straight_knots(path, knots);
  } else {
    StackSolver& solver = workspace.impl().solver;
    const Stack bending = bending_stack(stack);
    Options curve_options = options;
    curve_options.tolerance = std::max(options.tolerance, kNewtonShare * options.curve_tolerance);
    solver.set_up(bending, curve_options);
    const double load_force = solver.layout().load_force;
    CurveBuilder builder(bending, p_max, workspace.impl(), curve);
    builder.build();
    if (stack.slide.travel > 0.0) curve.opening_pressure = add_slide(stack, load_force, p_max, builder.knots);
    knots = builder.knots;
  }
  if (!stack.seat.present) cut_below_nothing(knots);
  keep_rising(knots);
  for (const Knot& knot : knots) {
    curve.pressure.push_back(knot.pressure);
    curve.lift.push_back(knot.lift);
    curve.slope.push_back(knot.slope);
  }
  return curve;
}

}  // namespace

std::optional<double> opening_pressure(const Stack& stack, double p_max, const Options& options,
                                       Workspace& workspace) {
  SW_CHECK(std::isfinite(p_max) && p_max > 0.0, p_max);
  if (options.theory == Theory::Linear) {
    const LinearPath path = linear_path(stack, p_max, options, workspace);
    return path.outcome.status == Status::Stalled ? std::nullopt : path.opening_pressure;
  }
  double found = 0.0;
  Outcome outcome;
  if (stack.slide.travel > 0.0) {
    const LiftCurve curve = lift_curve(stack, p_max, options, workspace);
    found = curve.opening_pressure;
    outcome = curve.outcome;
  } else {
    SW_CHECK(validate(stack).empty());
    workspace.impl().solver.set_up(stack, options);
    LiftCurve curve;
    CurveBuilder builder(stack, p_max, workspace.impl(), curve);
    found = builder.opening();
    outcome = curve.outcome;
  }
  if (outcome.status == Status::Stalled || found >= p_max) return std::nullopt;
  return found;
}

LiftCurve lift_curve(const Stack& stack, double p_max, const Options& options, Workspace& workspace) {
  SW_CHECK(validate(stack).empty());
  SW_CHECK(std::isfinite(p_max) && p_max > 0.0, p_max);
  Workspace::Impl& work = workspace.impl();
  if (work.most_known_curves == 0) return drawn_curve(stack, p_max, options, workspace);

  const auto found = std::ranges::find_if(work.known_curves, [&](const KnownCurve& known) {
    return known.p_max == p_max && known.options == options && known.stack == stack;
  });
  if (found != work.known_curves.end()) {
    work.known_curves.splice(work.known_curves.begin(), work.known_curves, found);
  } else {
    work.known_curves.push_front({stack, p_max, options, drawn_curve(stack, p_max, options, workspace)});
    if (static_cast<int>(work.known_curves.size()) > work.most_known_curves) work.known_curves.pop_back();
  }
  return work.known_curves.front().curve;
}

double lift_at(const LiftCurve& curve, double pressure) {
  if (pressure <= 0.0) return curve.lift.front();
  const std::size_t last = curve.pressure.size() - 1;
  if (pressure >= curve.pressure[last])
    return curve.lift[last] + curve.slope[last] * (pressure - curve.pressure[last]);
  const std::size_t k = interval_of(curve, pressure);
  // between two knots at rest the cubic may read a rounding error below nothing
  return std::max(cubic_at(knot_of(curve, k), knot_of(curve, k + 1), pressure), 0.0);
}

double lift_slope_at(const LiftCurve& curve, double pressure) {
  if (pressure < 0.0) return 0.0;
  const std::size_t last = curve.pressure.size() - 1;
  if (pressure >= curve.pressure[last]) return curve.slope[last];
  const std::size_t k = interval_of(curve, pressure);
  return std::max(cubic_slope_at(knot_of(curve, k), knot_of(curve, k + 1), pressure), 0.0);
}

double opening_area_at(const LiftCurve& curve, double pressure) {
  return 2.0 * std::numbers::pi * curve.seat_radius * curve.arc_fraction * lift_at(curve, pressure);
}

}  // namespace shimwright::plate
