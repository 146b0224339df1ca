#pragma once
#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "base/outcome.h"
#include "num/rodas_tableau.h"
#include "num/small_lu.h"

// Stiff ordinary differential equations whose size is known when the program is built. Eigen shows in this
// header because the linear algebra of a step must be unrolled for that size: behind a compiled wall it would
// cost several times the step.

namespace shimwright::num {

template <int N>
using StateOf = Eigen::Matrix<double, N, 1>;

/// What a system must offer. The last kQuadratures entries of a state are integrals: rates never depend on
/// them, and they stay out of the linear solve.
template <typename System>
concept StiffSystem =
    requires(System system, double t, const StateOf<System::kStates + System::kQuadratures>& y,
             StateOf<System::kStates + System::kQuadratures>& f,
             Eigen::Matrix<double, System::kStates + System::kQuadratures, System::kStates>& j,
             std::array<double, System::kEvents>& g) {
      system.rates(t, y, f);        // f = dy/dt
      system.jacobian(t, y, j, f);  // j = df/dy without the quadratures' columns; f = df/dt
      system.events(t, y, g);       // values whose change of sign is an event
    };

/// A system that has both for little more than one of them offers them together.
template <typename System>
concept LinearisesAtOnce =
    requires(System system, double t, const StateOf<System::kStates + System::kQuadratures>& y,
             StateOf<System::kStates + System::kQuadratures>& f,
             Eigen::Matrix<double, System::kStates + System::kQuadratures, System::kStates>& j) {
      system.rates_and_jacobian(t, y, f, j, f);
    };

struct RodasOptions {
  double tolerance = 1e-6;  // relative, of each state in one step, plus that state's own absolute tolerance
  double step_first = 0.0;  // 0: a thousandth of step_max
  double step_max = std::numeric_limits<double>::infinity();
  double step_min = 1e-14;    // relative to the time, or to step_max where that is larger
  bool cut_at_events = true;  // end a step at its first event, so that a kink lies between two steps
};

/// One adaptive step after the other of a linearly implicit, L-stable method of order five.
///
/// Model:  Rodas5P, eight stages, one matrix of derivatives a step, embedded error of order four, dense
///         output of order four. Where a stiff state follows a slow one, as pressures do between two strokes,
///         it is of order three at least. A step that holds an event is done again up to it.
/// Valid:  derivatives exact: an approximate matrix costs order. `absolute` > 0 for every entry.
/// Errors: a status from `step`; Stalled when the step falls below its least.
/// Source: [steinebach2023]; steps and rejections as in [hairer1996] ch. IV.7, IV.8. The coefficients are
///         held to the order conditions.
/// Tested: rodas_test.cc
template <StiffSystem System>
class Rodas {
 public:
  static constexpr int kStates = System::kStates;
  static constexpr int kAll = System::kStates + System::kQuadratures;
  static constexpr int kEvents = System::kEvents;
  using State = StateOf<kAll>;

  Rodas(System& system, double t, const State& y, const State& absolute, const RodasOptions& options)
      : system_(system), options_(options), absolute_(absolute), t_(t), y_(y) {
    h_ = options.step_first > 0.0 ? options.step_first : 1e-3 * options.step_max;
    SW_CHECK(std::isfinite(h_) && h_ > 0.0, h_);
    h_first_ = h_;
    restart();
  }

  /// Advances by one step, not beyond t_end.
  Status step(double t_end);

  double t() const { return t_; }
  const State& y() const { return y_; }
  double t_before() const { return t_before_; }
  int n_steps() const { return n_steps_; }
  int n_rejected() const { return n_rejected_; }
  int n_rates() const { return n_rates_; }

  /// The state inside the last step; `t` between t_before() and t().
  State dense(double t) const {
    const double s = h_done_ > 0.0 ? (t - t_before_) / h_done_ : 1.0;
    return blend(s);
  }

  /// Events of the last step: a sign each, +1 rising, -1 falling, 0 no event. They lie at t().
  const std::array<int, kEvents>& fired() const { return fired_; }
  bool any_fired() const { return any_fired_; }

  /// Read the signs of the events again; after the system has changed at t(). One that stands at zero takes
  /// the sign that it moves to, and that is no event.
  void restart() {
    std::array<double, kEvents> g{};
    system_.events(t_, y_, g);
    for (int i = 0; i < kEvents; ++i) sign_[i] = g[i] < 0.0 ? -1 : g[i] > 0.0 ? 1 : 0;
  }

  /// Start the next step no larger than this.
  void limit_step(double h) { h_ = std::min(h_, h); }

 private:
  using Matrix = Eigen::Matrix<double, kAll, kStates>;
  using Square = Eigen::Matrix<double, kStates, kStates>;

  static constexpr double kSafety = 0.9;
  static constexpr double kGrow = 6.0;    // largest growth of a step
  static constexpr double kShrink = 0.2;  // largest cut

  static double fifth_root(double x) { return std::pow(x, 0.2); }

  bool try_step(double h);
  State blend(double s) const {
    return (1.0 - s) * y_before_ + s * (y_after_ + (1.0 - s) * (u_ + s * (v_ + s * w_)));
  }
  void prepare_blend();
  double weighed(const State& error) const;
  double growth(double h, bool rejected) const;
  double first_event(double h);
  void accept(double h);
  double least_step() const { return options_.step_min * (std::abs(t_) + h_first_); }

  System& system_;
  RodasOptions options_;
  State absolute_;

  double t_ = 0.0;
  State y_;
  double h_first_ = 0.0;
  double h_ = 0.0;  // to be tried next
  double h_last_ = 0.0;
  double error_last_ = 1.0;
  int n_steps_ = 0;
  int n_rejected_ = 0;
  int n_rates_ = 0;

  // the last step
  double t_before_ = 0.0;
  double h_done_ = 0.0;
  std::array<State, rodas::kStages> stage_;
  State y_before_, y_after_, u_, v_, w_;
  double error_ = 0.0;
  Matrix jacobian_;
  State f_start_, f_time_;
  bool start_known_ = false;  // derivatives at t_ are known

  std::array<int, kEvents> sign_{};
  std::array<int, kEvents> fired_{};
  bool any_fired_ = false;
};

template <StiffSystem System>
bool Rodas<System>::try_step(double h) {
  using namespace rodas;
  if (!start_known_) {
    if constexpr (LinearisesAtOnce<System>) {
      system_.rates_and_jacobian(t_, y_, f_start_, jacobian_, f_time_);
    } else {
      system_.rates(t_, y_, f_start_);
      system_.jacobian(t_, y_, jacobian_, f_time_);
    }
    start_known_ = true;
    ++n_rates_;
  }
  Square matrix = -jacobian_.template topRows<kStates>();
  const double per_h = 1.0 / h;
  matrix.diagonal().array() += per_h / kGamma;
  const SmallLu<kStates> solver(matrix);

  // stages; quadratures follow from the states' increments
  std::array<State, kStages>& stage = stage_;
  State argument = y_;
  State right;
  for (int i = 0; i < kStages; ++i) {
    if (i == 0) {
      right = f_start_;
    } else {
      if (i < kSteppedOn) {
        argument = y_;
        for (int j = 0; j < i; ++j) argument += kA[i][j] * stage[j];
      } else {
        argument += stage[i - 1];
      }
      system_.rates(t_ + kAlpha[i] * h, argument, right);
      ++n_rates_;
      for (int j = 0; j < i; ++j) right += (kC[i][j] * per_h) * stage[j];
    }
    if (kD[i] != 0.0) right += (h * kD[i]) * f_time_;
    StateOf<kStates> increment = right.template head<kStates>();
    solver.solve(increment);
    stage[i].template head<kStates>() = increment;
    if constexpr (kAll > kStates) {
      constexpr int kRest = kAll - kStates;
      stage[i].template tail<kRest>() =
          h * kGamma *
          (right.template tail<kRest>() + jacobian_.template bottomRows<kRest>().lazyProduct(increment));
    }
  }

  y_before_ = y_;
  y_after_ = argument + stage[kStages - 1];
  error_ = weighed(stage[kStages - 1]);  // the last stage is the error
  return std::isfinite(error_) && error_ <= 1.0;
}

/// The sums that the state inside the step is blended from.
template <StiffSystem System>
void Rodas<System>::prepare_blend() {
  using namespace rodas;
  u_ = kDenseU[0] * stage_[0];
  v_ = kDenseV[0] * stage_[0];
  w_ = kDenseW[0] * stage_[0];
  for (int j = 1; j < kStages; ++j) {
    u_ += kDenseU[j] * stage_[j];
    v_ += kDenseV[j] * stage_[j];
    w_ += kDenseW[j] * stage_[j];
  }
}

/// Root mean square of an error in tolerances; one and less is good.
template <StiffSystem System>
double Rodas<System>::weighed(const State& error) const {
  double sum = 0.0;
  for (int i = 0; i < kAll; ++i) {
    const double size = std::max(std::abs(y_before_[i]), std::abs(y_after_[i]));
    const double e = error[i] / (absolute_[i] + options_.tolerance * size);
    sum += e * e;
  }
  return std::sqrt(sum / kAll);
}

/// Share of the step just tried at which the first event lies; 1 when there is no event.
template <StiffSystem System>
double Rodas<System>::first_event(double h) {
  if constexpr (kEvents == 0) return 1.0;
  std::array<double, kEvents> g{};
  system_.events(t_ + h, y_after_, g);
  double first = 2.0;
  int which = -1;
  for (int i = 0; i < kEvents; ++i) {
    if (sign_[i] == 0) sign_[i] = g[i] < 0.0 ? -1 : 1;
    if ((g[i] < 0.0 ? -1 : 1) == sign_[i]) continue;

    // halve down on the dense output; at the start the sign is the one that was noted
    double low = 0.0;
    double high = 1.0;
    std::array<double, kEvents> inside{};
    while (high - low > 1e-10) {
      const double s = 0.5 * (low + high);
      system_.events(t_ + s * h, blend(s), inside);
      ((inside[i] < 0.0 ? -1 : 1) == sign_[i] ? low : high) = s;
    }
    if (high < first) {
      first = high;
      which = i;
    }
  }
  if (which < 0) return 1.0;
  fired_[which] = -sign_[which];
  any_fired_ = true;
  return std::min(first, 1.0);
}

template <StiffSystem System>
void Rodas<System>::accept(double h) {
  t_before_ = t_;
  h_done_ = h;
  t_ += h;
  y_ = y_after_;
  start_known_ = false;
  ++n_steps_;
  for (int i = 0; i < kEvents; ++i)
    if (fired_[i] != 0) sign_[i] = fired_[i];
}

/// How much larger the step after a good one may be, with a look at how the error has changed (Gustafsson).
template <StiffSystem System>
double Rodas<System>::growth(double h, bool rejected) const {
  const double error = std::max(error_, 1e-10);
  double factor = std::clamp(kSafety / fifth_root(error), kShrink, kGrow);
  if (n_steps_ > 0) {
    const double predicted = kSafety * h / h_last_ * fifth_root(error_last_ / (error * error));
    factor = std::min(factor, std::max(predicted, kShrink));
  }
  return rejected ? std::min(factor, 1.0) : factor;
}

template <StiffSystem System>
Status Rodas<System>::step(double t_end) {
  fired_.fill(0);
  any_fired_ = false;
  bool rejected = false;
  for (;;) {
    const double left = t_end - t_;
    SW_CHECK(left > 0.0, t_, t_end);
    double h = std::min(h_, options_.step_max);
    const bool to_end = h >= left * (1.0 - 1e-10);
    if (to_end)
      h = left;
    else if (h > 0.5 * left)
      h = 0.5 * left;  // two equal steps instead of a long and a tiny one
    if (h < least_step() && !to_end) return Status::Stalled;

    if (!try_step(h)) {
      const double factor = std::isfinite(error_) ? std::max(kShrink, kSafety / fifth_root(error_)) : kShrink;
      h_ = h * factor;
      rejected = true;
      ++n_rejected_;
      if (h_ < least_step()) return Status::Stalled;
      continue;
    }

    prepare_blend();
    const double next = h * growth(h, rejected);
    double done = h;
    const double share = first_event(h);
    if (any_fired_ && options_.cut_at_events && share < 1.0) {
      // again, up to the event; the first part of a good step is a good step
      done = std::max(share * h, least_step());
      try_step(done);
      prepare_blend();
    }
    h_last_ = h;
    error_last_ = std::max(1e-2, error_);
    accept(done);
    if (to_end && done == h) t_ = t_end;
    // a step that the end cut short says little about the next
    h_ = to_end || any_fired_ ? std::max(next, h_) : next;
    return Status::Converged;
  }
}

}  // namespace shimwright::num
