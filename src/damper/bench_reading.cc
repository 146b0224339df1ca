#include "damper/bench_reading.h"

#include "base/check.h"
#include "damper/motion_elements.h"
#include "num/root.h"

namespace shimwright::damper {
double fade(const CycleFigures& first, const CycleFigures& last) {
  return 1.0 - last.energy_in / first.energy_in;
}

MotionModel with_reservoir_raised(const MotionModel& model, double raise_by) {
  MotionModel raised = model;
  if (raised.reservoir.gas)
    raised.reservoir.gas->pressure += raise_by;
  else
    raised.reservoir.piston->spring_force += raise_by * raised.reservoir.piston->area;
  return raised;
}

ReservoirNeed reservoir_need(const MotionModel& model, const Drive& drive, double margin, double raise_max,
                             const MotionOptions& options) {
  SW_CHECK(raise_max > 0.0, raise_max);
  MotionOptions quiet = options;
  quiet.samples_per_cycle = 0;
  quiet.keep_events = false;
  ReservoirNeed need;
  const auto lowest = [&](double raise_by) {
    if (need.stopped) return 0.0;
    const MotionResult run = run_motion(with_reservoir_raised(model, raise_by), drive, quiet);
    need.n_steps += run.n_steps;
    need.stopped = run.stopped;
    return run.cycles.empty() ? 0.0 : run.cycles.back().lowest.value;
  };
  const double wanted = model.oil.release_pressure + margin;
  const double rest = motion::holding_pressure(model.reservoir, 0.0, 0.0).value;
  need.lowest = lowest(0.0);
  need.pressure = rest;
  if (need.stopped || need.lowest >= wanted) return need;
  if (lowest(raise_max) < wanted) {
    need.raise_by = raise_max;
    need.pressure = rest + raise_max;
    need.outcome = {
        .status = Status::Stalled, .residual = 1.0, .note = "no pressure up to the limit is enough"};
    return need;
  }
  // to a hundredth of the limit's percent: a gauge shows no more
  const num::Root root = num::root_between([&](double raise_by) { return lowest(raise_by) - wanted; }, 0.0,
                                           raise_max, {.x_tolerance = 1e-4, .max_iterations = 40});
  need.raise_by = root.x;
  need.pressure = rest + root.x;
  return need;
}

}  // namespace shimwright::damper
