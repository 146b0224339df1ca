#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "damper/motion_record.h"
#include "damper/motion_stepper.h"

namespace shimwright::damper {
namespace {

/// Why a step may fall to nothing. Below a hundredth of an atmosphere oil without air would be pulled.
const char* stall_note(double lowest_pressure) {
  return lowest_pressure < 1e3
             ? "the pressure of a chamber dropped to zero, and the model lets no air out of its oil"
             : "the time step of the solver became too small: the run ends early";
}

/// What is reported of the whole run.
void judge(const MotionModel& model, const motion::MotionSystem& system, const motion::Recorder& recorder,
           MotionResult& result) {
  const auto beyond = [&](double share, const char* note) {
    if (share > 1e-9 && result.outcome.ok())
      result.outcome = {.status = Status::OutOfRange, .residual = share, .note = note};
  };
  beyond(std::max(-recorder.travel_min(), recorder.travel_max() - model.travel) / model.travel,
         "the drive moves the rod beyond its travel");
  if (model.springs) {
    const spring::UnitLimits limits = spring::unit_limits(model.springs->unit, model.springs->conditions);
    beyond((recorder.travel_max() - limits.usable_travel) / model.travel, limits.outcome.note.c_str());
  }
  if (result.outcome.ok()) result.outcome = system.table_use().outcome();
  if (model.laws.size() > 1) {
    double warmest = model.temperature;
    for (const CycleFigures& cycle : result.cycles) warmest = std::max(warmest, cycle.temperature_end);
    beyond(warmest / model.laws.back().temperature - 1.0, "the oil gets warmer than the range of the valves");
    beyond(1.0 - model.temperature / model.laws.front().temperature,
           "the oil is colder than the range of the valves");
  }
  result.settled = std::numeric_limits<double>::infinity();
  if (result.cycles.size() >= 2) {
    const double last = result.cycles.back().energy_in;
    result.settled = std::abs(last - result.cycles[result.cycles.size() - 2].energy_in) / std::abs(last);
  }
}

}  // namespace

MotionResult run_motion(const MotionModel& model, const Drive& drive, const MotionOptions& options) {
  SW_CHECK(validate(model).empty());
  SW_CHECK(options.tolerance > 0.0, options.tolerance);
  const DriveClock clock(drive);

  // at rest where the drive begins
  motion::MotionSystem system(model, 0.0);
  const motion::FullState start = system.rest_state(clock.at(clock.t_begin(), 0).travel);
  const auto stepper =
      motion::make_stepper(system, &clock, clock.t_begin(), start,
                           {.tolerance = options.tolerance,
                            .step_max = options.step_max > 0.0 ? options.step_max : clock.longest_step()});
  MotionResult result;
  motion::Recorder recorder(system, clock, options, start, result);

  // from corner to corner
  const auto corners = clock.corners();
  const double whole = clock.t_end() - clock.t_begin();
  for (int segment = 0; segment + 1 < static_cast<int>(corners.size()) && !result.stopped; ++segment) {
    stepper->enter_segment(segment);
    while (stepper->t() < corners[segment + 1]) {
      if (stepper->step(corners[segment + 1]) == Status::Stalled) {
        result.outcome = {.status = Status::Stalled,
                          .residual = 1.0 - (stepper->t() - clock.t_begin()) / whole,
                          .note = stall_note(recorder.lowest_pressure())};
        result.n_steps = stepper->n_steps();
        result.n_rejected = stepper->n_rejected();
        judge(model, system, recorder, result);
        return result;
      }
      const bool cycle_done = recorder.take(*stepper, segment);
      if (options.proceed && (cycle_done || stepper->n_steps() % kStepsBetweenAsks == 0) &&
          !options.proceed((stepper->t() - clock.t_begin()) / whole)) {
        result.stopped = true;
        break;
      }
    }
  }
  result.n_steps = stepper->n_steps();
  result.n_rejected = stepper->n_rejected();
  judge(model, system, recorder, result);
  return result;
}

}  // namespace shimwright::damper
