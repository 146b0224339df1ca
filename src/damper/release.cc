#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "damper/motion_stepper.h"

namespace shimwright::damper {
namespace {

constexpr double kCalm = 0.2;  // how long a rod must stay to have stopped; longer than it bounces on air [s]

/// One pass from the hand letting go to rest; samples only where their spacing is known.
struct Pass {
  const MotionModel& model;
  const ReleaseSetup& setup;
  const MotionOptions& options;
  double spacing = 0.0;  // of samples [s]; 0: none
};

/// Whether the rod stays: slow, and its seals can hold what pushes it. The friction law lets it creep where a
/// seal would stick; three times its speed is where it has all but a two-hundredth of its friction.
bool at_rest(const motion::MotionSystem& system, const motion::FullState& y, const ReleaseSetup& setup,
             double push_at_start) {
  const motion::Forces f = system.forces(y);
  const double push = std::abs(f.total() - f.friction);
  const double speed = std::abs(y[motion::kSpeed]);
  const MotionModel& model = system.model();
  if (push <= model.seal_friction) return speed <= std::max(setup.rest_speed, 3.0 * model.friction_speed);
  return speed <= setup.rest_speed && push <= 1e-3 * push_at_start;
}

ReleaseResult run(const Pass& pass) {
  const ReleaseSetup& setup = pass.setup;
  motion::MotionSystem system(pass.model, setup.moving_mass);
  motion::FullState y = system.rest_state(setup.pushed_to);
  const auto stepper = motion::make_stepper(
      system, nullptr, 0.0, y,
      {.tolerance = pass.options.tolerance,
       .step_max = pass.options.step_max > 0.0 ? pass.options.step_max : setup.time_max / 500.0});

  ReleaseResult result;
  result.before = rest_at(pass.model, setup.pushed_to);
  result.time_to_half = std::numeric_limits<double>::infinity();
  const double push = std::abs(system.forces(y).total());
  motion::FullState inside;
  bool done = false;
  double calm_since = 0.0;
  while (!done && stepper->t() < setup.time_max) {
    if (stepper->step(setup.time_max) == Status::Stalled) {
      result.outcome = {
          .status = Status::Stalled, .residual = 1.0, .note = "the integrator's step fell to nothing"};
      break;
    }
    stepper->state(y);
    result.peak_speed = std::max(result.peak_speed, -y[motion::kSpeed]);
    while (pass.spacing > 0.0 && pass.spacing * static_cast<double>(result.samples.size()) <= stepper->t()) {
      const double t = pass.spacing * static_cast<double>(result.samples.size());
      stepper->dense(t, inside);
      result.samples.push_back(system.sample(t, inside));
    }

    // half of the push, found between the step's ends
    if (std::isinf(result.time_to_half) && y[motion::kTravel] <= 0.5 * setup.pushed_to) {
      double low = stepper->t_before();
      double high = stepper->t();
      while (high - low > 1e-9 * setup.time_max) {
        const double middle = 0.5 * (low + high);
        stepper->dense(middle, inside);
        (inside[motion::kTravel] > 0.5 * setup.pushed_to ? low : high) = middle;
      }
      result.time_to_half = high;
    }
    // a rod that bounces on air is slow at each turn: at rest is who stays so
    result.fully_out = stepper->fired()[motion::kOut] < 0;
    if (!at_rest(system, y, setup, push)) calm_since = stepper->t();
    done = result.fully_out || stepper->t() - calm_since > kCalm;
  }
  result.time = done && !result.fully_out ? calm_since : stepper->t();
  result.rest_travel = result.fully_out ? 0.0 : y[motion::kTravel];
  result.missing = result.rest_travel * pass.model.rod_area;
  result.n_steps = stepper->n_steps();
  if (!done && result.outcome.ok())
    result.outcome = {.status = Status::OutOfRange, .note = "the rod was still moving when the time was up"};
  return result;
}

}  // namespace

ReleaseResult rod_release(const MotionModel& model, const ReleaseSetup& setup, const MotionOptions& options) {
  SW_CHECK(validate(model).empty());
  SW_CHECK(setup.pushed_to > 0.0 && setup.pushed_to <= model.travel, setup.pushed_to, model.travel);
  SW_CHECK(setup.moving_mass > 0.0 && setup.time_max > 0.0, setup.moving_mass, setup.time_max);

  // once to learn how long it takes, once more to sample that evenly
  ReleaseResult result = run({model, setup, options});
  if (options.samples_per_cycle > 0)
    result = run({model, setup, options, result.time / options.samples_per_cycle});
  return result;
}

}  // namespace shimwright::damper
