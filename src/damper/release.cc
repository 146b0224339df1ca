#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "damper/motion_stepper.h"
#include "damper/motion_watch.h"
#include "num/root.h"

namespace shimwright::damper {
namespace {

constexpr double kCalm = 0.2;  // how long a rod must stay to have stopped; longer than it bounces on air [s]

/// One pass from the hand letting go to rest; samples only where their spacing is known.
struct Pass {
  const MotionModel& model;
  const ReleaseSetup& setup;
  const MotionOptions& options;
  double first_sample = 0.0;  // after this time [s], the n-th after n^3 of it; 0: no samples
};

/// Seals that rub in full at any speed a hand test has.
MotionModel with_dry_friction(MotionModel model) {
  constexpr double kDry =
      1e-5;  // a hundredth of a millimetre a second: two minutes make a millimetre of it [m/s]
  model.friction_speed = std::min(model.friction_speed, kDry);
  if (model.reservoir.piston)
    model.reservoir.piston->friction_speed = std::min(model.reservoir.piston->friction_speed, kDry);
  return model;
}

/// Whether the rod is where its seals can hold it, and slow: one that only crosses that stretch goes on.
bool has_settled(const motion::FullState& y, const RestBand& rest) {
  constexpr double kSlow = 1e-3;  // a rod that is carried past is faster [m/s]
  const double travel = y[motion::kTravel];
  return travel <= rest.inner + kRestSeen && travel >= rest.outer - kRestSeen &&
         std::abs(y[motion::kSpeed]) <= kSlow;
}

/// Where springs that pull near fully out hold a rod without friction; 0 without such springs.
double balance_of(const MotionModel& model, double pushed_to) {
  if (!model.springs) return 0.0;
  const auto push = [&](double travel) { return rest_at(model, travel).force; };
  if (push(0.0) >= 0.0) return 0.0;
  if (push(pushed_to) <= 0.0) return pushed_to;  // nothing pushes it out at all
  return num::root_between(push, 0.0, pushed_to, {.x_tolerance = 1e-7}).x;
}

/// What a release reports where the integrator did its work.
Outcome outcome_of(const Pass& pass, const motion::MotionSystem& system) {
  if (pass.model.springs) {
    const auto& [unit, conditions] = *pass.model.springs;
    const spring::UnitLimits limits = spring::unit_limits(unit, conditions);
    if (pass.setup.pushed_to > limits.usable_travel) return limits.outcome;
  }
  return system.table_use().outcome();
}

/// What is kept of the steps.
class Record {
 public:
  Record(const Pass& pass, motion::MotionSystem& system, const motion::FullState& start)
      : pass_(pass), system_(system), watch_(system) {
    watch_.begin(start);
    result.before = rest_at(pass.model, pass.setup.pushed_to);
    result.rest = rest_band(pass.model, pass.setup.pushed_to);
    result.balance = balance_of(pass.model, pass.setup.pushed_to);
    result.time_to_half = std::numeric_limits<double>::infinity();
  }

  void take(const motion::Stepper& stepper, const motion::FullState& y) {
    look_for_peak(stepper, y);
    system_.note_drops(y);
    look_for_half(stepper, y);
    if (pass_.first_sample == 0.0) return;
    if (pass_.options.keep_events) watch_.take(stepper, [](double) {}, result.events);
    for (double t = next_sample(); t <= stepper.t(); t = next_sample()) {
      motion::FullState inside;
      stepper.dense(t, inside);
      result.samples.push_back(system_.sample(t, inside));
    }
  }

  void end(double t, const motion::FullState& y) {
    const RestBand& rest = result.rest;
    result.time = t;
    result.end_travel = std::max(0.0, y[motion::kTravel]);
    // one that never starts stays where it was pushed to; the friction law lets it creep a little
    const bool stays = rest.inner >= pass_.setup.pushed_to;
    result.rest_travel =
        result.arrived && !stays ? std::clamp(result.end_travel, rest.outer, rest.inner) : rest.inner;
    result.fully_out = result.rest_travel == 0.0;
    if (!result.samples.empty() && result.samples.back().time < t)
      result.samples.push_back(system_.sample(t, y));
  }

  ReleaseResult result;

 private:
  double next_sample() const {
    const auto n = static_cast<double>(result.samples.size());
    return pass_.first_sample * n * n * n;
  }

  /// The highest speed, at the step's end or where the parabola through both ends and the middle turns.
  void look_for_peak(const motion::Stepper& stepper, const motion::FullState& y) {
    const double before = stepper.t_before();
    const double length = stepper.t() - before;
    motion::FullState inside;
    const auto speed_at = [&](double share) {
      stepper.dense(before + share * length, inside);
      return -inside[motion::kSpeed];
    };
    const double end = -y[motion::kSpeed];
    const double start = speed_last_;
    const double middle = speed_at(0.5);
    speed_last_ = end;
    result.peak_speed = std::max({result.peak_speed, middle, end});
    const double turn = (3.0 * start - 4.0 * middle + end) / (4.0 * (start - 2.0 * middle + end));
    if (turn > 0.0 && turn < 1.0) result.peak_speed = std::max(result.peak_speed, speed_at(turn));
  }

  /// Half of the push, found between the step's ends.
  void look_for_half(const motion::Stepper& stepper, const motion::FullState& y) {
    const double half = 0.5 * pass_.setup.pushed_to;
    if (!std::isinf(result.time_to_half) || y[motion::kTravel] > half) return;
    double low = stepper.t_before();
    double high = stepper.t();
    motion::FullState inside;
    while (high - low > 1e-9 * pass_.setup.time_max) {
      const double middle = 0.5 * (low + high);
      stepper.dense(middle, inside);
      (inside[motion::kTravel] > half ? low : high) = middle;
    }
    result.time_to_half = high;
  }

  const Pass& pass_;
  motion::MotionSystem& system_;
  motion::Watch watch_;
  double speed_last_ = 0.0;  // outwards, at the end of the last step
};

/// When in its last step the rod came to where its seals hold it.
double settled_in(const motion::Stepper& stepper, const RestBand& rest) {
  double low = stepper.t_before();
  double high = stepper.t();
  constexpr int kHalvings = 30;
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = 0.5 * (low + high);
    motion::FullState inside;
    stepper.dense(middle, inside);
    (has_settled(inside, rest) ? high : low) = middle;
  }
  return high;
}

ReleaseResult run(const Pass& pass) {
  const ReleaseSetup& setup = pass.setup;
  motion::MotionSystem system(pass.model, setup.moving_mass);
  motion::FullState y = system.rest_state(setup.pushed_to);
  const auto stepper = motion::make_stepper(
      system, nullptr, 0.0, y,
      {.tolerance = pass.options.tolerance,
       .step_max = pass.options.step_max > 0.0 ? pass.options.step_max : setup.time_max / 500.0});

  Record record(pass, system, y);
  ReleaseResult& result = record.result;
  double settled_since = 0.0;
  bool settled = true;  // as it begins: one that never starts is at rest at once
  bool at_end = false;
  while (!result.arrived && stepper->t() < setup.time_max) {
    if (pass.options.proceed && stepper->n_steps() % kStepsBetweenAsks == 0 &&
        !pass.options.proceed(stepper->t() / setup.time_max)) {
      result.stopped = true;
      break;
    }
    if (stepper->step(setup.time_max) == Status::Stalled) {
      result.outcome = {
          .status = Status::Stalled, .residual = 1.0, .note = "the time step of the solver became too small"};
      break;
    }
    stepper->state(y);
    record.take(*stepper, y);
    at_end = stepper->fired()[motion::kOut] < 0;
    const bool before = settled;
    settled = has_settled(y, result.rest);
    if (!settled)
      settled_since = stepper->t();
    else if (!before)
      settled_since = settled_in(*stepper, result.rest);
    result.arrived = at_end || stepper->t() - settled_since > kCalm;
  }
  result.n_steps = stepper->n_steps();
  if (result.outcome.ok() && !result.stopped) result.outcome = outcome_of(pass, system);
  record.end(result.arrived && !at_end ? settled_since : stepper->t(), y);
  return result;
}

}  // namespace

ReleaseResult rod_release(const MotionModel& model, const ReleaseSetup& setup, const MotionOptions& options) {
  SW_CHECK(validate(model).empty());
  SW_CHECK(setup.pushed_to > 0.0 && setup.pushed_to <= model.travel, setup.pushed_to, model.travel);
  SW_CHECK(setup.moving_mass > 0.0 && setup.time_max > 0.0, setup.moving_mass, setup.time_max);

  // once to learn how long it takes, once more to sample that
  const MotionModel dry = with_dry_friction(model);
  ReleaseResult result = run({dry, setup, options});
  if (options.samples_per_cycle > 0 && !result.stopped) {
    constexpr double kLeastSpan = 1e-3;  // of a rod that never starts [s]
    const double span = std::max(result.time, kLeastSpan);
    result = run({dry, setup, options, span / std::pow(options.samples_per_cycle, 3)});
  }
  return result;
}

}  // namespace shimwright::damper
