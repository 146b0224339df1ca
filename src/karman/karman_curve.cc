#include "karman/karman_curve.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "base/check.h"
#include "karman/cover.h"
#include "karman/newton.h"
#include "karman/pile.h"

namespace shimwright::karman {
namespace {

constexpr double kKnots[] = {0.03, 0.10, 0.25, 0.55, 1.0};  // of what lies between the opening and the end
constexpr double kWellPast = 2.0;  // of the last pressure: an opening beyond it need not be known
constexpr int kMostKinks = 3;      // between two knots

bool touches(const State& state, const Run& run) {
  for (int q = run.first; q <= run.last; ++q)
    if (state.active[q]) return true;
  return false;
}

/// Amplitudes on the chord between two states.
void go_between(const State& a, const State& b, int n_layers, State& at) {
  const double share = (at.pressure - a.pressure) / (b.pressure - a.pressure);
  for (int l = 0; l < n_layers; ++l)
    for (int m = 0; m < kModes; ++m)
      at.amplitude[l][m] = a.amplitude[l][m] + share * (b.amplitude[l][m] - a.amplitude[l][m]);
}

/// Draws one curve, point by point with rising pressure.
class Drawing {
 public:
  Drawing(const Pile& pile, Newton& newton, State& state, State& before, State& kink, Curve& curve)
      : pile_(pile), newton_(newton), state_(state), before_(before), kink_(kink), curve_(curve) {}

  /// False when something did not settle.
  bool draw(double p_max);

 private:
  void add(double pressure, double lift, double slope);
  bool open(double p_max);
  bool begin_at(double pressure);
  bool add_knot(double pressure);
  void add_kinks();
  int first_closed(double& where) const;
  bool is_steep() const;

  const Pile& pile_;
  Newton& newton_;
  State& state_;
  State& before_;
  State& kink_;
  Curve& curve_;
  double height_ = 0.0;  // of the seat [m]
};

void Drawing::add(double pressure, double lift, double slope) {
  curve_.pressure.push_back(pressure);
  curve_.lift.push_back(lift);
  curve_.slope.push_back(slope);
}

bool Drawing::draw(double p_max) {
  height_ = pile_.has_seat ? pile_.seat_height : 0.0;
  newton_.begin(state_);
  state_.pressure = 0.0;
  double from = 0.0;
  if (height_ > 0.0) {
    if (!open(p_max)) return false;
    from = curve_.opening_pressure;
    if (from >= p_max) return true;
  } else {
    add(0.0, -height_, 0.0);
  }
  before_ = state_;
  for (const double share : kKnots) {
    const double p = from + share * (p_max - from);
    if (state_.pressure == 0.0) {
      if (!begin_at(p)) return false;
    } else {
      newton_.foresee(state_, p);
    }
    if (!add_knot(p)) return false;
  }
  if (height_ <= 0.0) curve_.slope[0] = curve_.slope[1];
  if (is_steep()) {
    curve_.outcome.status = Status::OutOfRange;
    curve_.outcome.note = "a disc slopes more than this was ever held to";
  }
  return true;
}

/// A preloaded stack: nothing lifts until the seat's push has gone.
bool Drawing::open(double p_max) {
  const double last = kWellPast * p_max;
  state_.pressure = 0.5 * p_max;
  const Solved solved = newton_.solve_release(state_, kSeatRun, 0.0, last);
  curve_.outcome.iterations += solved.steps;
  if (!solved.ok) return false;
  add(0.0, 0.0, 0.0);
  const double from = std::min(state_.pressure, p_max);
  curve_.opening_pressure = from;
  add(from, 0.0, 0.0);
  if (from >= p_max) return true;
  const double slope = newton_.slope_without(state_, kSeatRun);
  state_.active[pile_.runs[kSeatRun].first] = 0;
  add(from, 0.0, slope);
  return true;
}

/// Where nothing is known yet: what the linear theory says, scaled.
bool Drawing::begin_at(double pressure) {
  state_.pressure = pressure;
  ++curve_.outcome.iterations;
  if (!newton_.step_linear(state_)) return false;
  newton_.soften_start(state_);
  return true;
}

bool Drawing::add_knot(double pressure) {
  const Solved solved = newton_.solve(state_);
  curve_.outcome.iterations += solved.steps;
  if (!solved.ok) return false;
  add_kinks();
  add(pressure, solved.lift - height_, solved.slope);
  before_ = state_;
  return true;
}

/// The run that closes a gap first between the state before and the one just solved; none: -1.
int Drawing::first_closed(double& where) const {
  int first = -1;
  where = state_.pressure;
  for (int r = 0; r < pile_.n_runs; ++r) {
    const Run& run = pile_.runs[r];
    if (pile_.points[run.first].gap <= 0.0 || touches(before_, run) || !touches(state_, run)) continue;
    double force = 0.0;
    double rate = 0.0;
    for (int q = run.first; q <= run.last; ++q) {
      force += state_.force[q];
      rate += state_.force_rate[q];
    }
    const double p = rate > 0.0 ? state_.pressure - force / rate : before_.pressure;
    if (p < where) {
      where = std::max(p, before_.pressure);
      first = r;
    }
  }
  return first;
}

/// Where gaps close between two knots the curve has kinks: two points each.
void Drawing::add_kinks() {
  for (int i = 0; i < kMostKinks; ++i) {
    double where = 0.0;
    const int closed = first_closed(where);
    if (closed < 0) return;
    kink_ = state_;
    kink_.pressure = where;
    go_between(before_, state_, pile_.n_layers, kink_);
    const Solved solved = newton_.solve_release(kink_, closed, before_.pressure, state_.pressure);
    curve_.outcome.iterations += solved.steps;
    // without it the curve is less close there, which the stated errors bear
    if (!solved.ok || kink_.pressure <= before_.pressure || kink_.pressure >= state_.pressure) return;
    add(kink_.pressure, solved.lift - height_, newton_.slope_without(kink_, closed));
    add(kink_.pressure, solved.lift - height_, solved.slope);
    for (int q = pile_.runs[closed].first; q <= pile_.runs[closed].last; ++q) kink_.active[q] = 1;
    before_ = kink_;
  }
}

bool Drawing::is_steep() const {
  for (int l = 0; l < pile_.n_layers; ++l)
    for (int k = 0; k < pile_.layers[l].n; ++k) {
      const double* slope = pile_.slope_at(l, k);
      double sum = 0.0;
      for (int m = 0; m < kModes; ++m) sum += slope[m] * state_.amplitude[l][m];
      if (std::abs(sum) > kSteepest) return true;
    }
  return false;
}

bool is_finite(const Curve& curve) {
  for (std::size_t k = 0; k < curve.pressure.size(); ++k)
    if (!std::isfinite(curve.pressure[k]) || !std::isfinite(curve.lift[k]) || !std::isfinite(curve.slope[k]))
      return false;
  return true;
}

}  // namespace

struct Workspace::Impl {
  Pile pile;
  Newton newton{pile};
  State state, before, kink;
};

Workspace::Workspace() : impl_(std::make_unique<Impl>()) {}
Workspace::~Workspace() = default;
Workspace::Workspace(Workspace&&) noexcept = default;
Workspace& Workspace::operator=(Workspace&&) noexcept = default;

void find_curve(const DiscTable& table, const plate::Stack& stack, double p_max, Workspace& workspace,
                Curve& curve) {
  SW_CHECK(std::isfinite(p_max) && p_max > 0.0, p_max);
  SW_CHECK(covers(table, stack) == Cover::Covered);
  Workspace::Impl& work = workspace.impl();
  curve.pressure.clear();
  curve.lift.clear();
  curve.slope.clear();
  curve.opening_pressure = 0.0;
  curve.seat_radius = stack.seat.radius;
  curve.arc_fraction = stack.load.arc_fraction;
  curve.outcome = {};
  pile_up(table, stack, work.pile);
  Drawing drawing(work.pile, work.newton, work.state, work.before, work.kink, curve);
  if (drawing.draw(p_max) && is_finite(curve)) return;
  curve.outcome.status = Status::Stalled;
  curve.outcome.residual = 1.0;
  curve.outcome.note = "the quick lift curve did not settle";
}

double lift_at(const Curve& curve, double pressure) {
  double lift = 0.0;
  lifts_at(curve, std::span(&pressure, 1), std::span(&lift, 1));
  return lift;
}

void lifts_at(const Curve& curve, std::span<const double> pressures, std::span<double> lifts) {
  SW_CHECK(curve.outcome.status != Status::Stalled);
  SW_CHECK(lifts.size() == pressures.size(), lifts.size(), pressures.size());
  const std::size_t last = curve.pressure.size() - 1;
  std::size_t k = 0;
  for (std::size_t i = 0; i < pressures.size(); ++i) {
    const double p = std::max(pressures[i], 0.0);
    if (p >= curve.pressure[last]) {
      lifts[i] = std::max(curve.lift[last] + curve.slope[last] * (p - curve.pressure[last]), 0.0);
      continue;
    }
    while (curve.pressure[k + 1] <= p) ++k;
    const double a = std::sqrt(curve.pressure[k]);
    const double b = std::sqrt(curve.pressure[k + 1]);
    const double h = b - a;
    const double t = (std::sqrt(p) - a) / h;
    const double u = 1.0 - t;
    const double slope_a = 2.0 * a * curve.slope[k];  // by the root
    const double slope_b = 2.0 * b * curve.slope[k + 1];
    const double lift = u * u * (1.0 + 2.0 * t) * curve.lift[k] +
                        t * t * (3.0 - 2.0 * t) * curve.lift[k + 1] + h * t * u * (u * slope_a - t * slope_b);
    lifts[i] = std::max(lift, 0.0);
  }
}

double opening_area_at(const Curve& curve, double pressure) {
  return 2.0 * std::numbers::pi * curve.seat_radius * curve.arc_fraction * lift_at(curve, pressure);
}

}  // namespace shimwright::karman
