#include "damper/bench_reading.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "base/check.h"
#include "damper/motion_elements.h"
#include "num/root.h"

namespace shimwright::damper {
namespace {

/// Takes out of `values` what `shape` explains of it.
void take_out(std::span<const double> shape, std::span<double> values) {
  double product = 0.0;
  double square = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    product += values[i] * shape[i];
    square += shape[i] * shape[i];
  }
  if (square == 0.0) return;
  for (std::size_t i = 0; i < values.size(); ++i) values[i] -= product / square * shape[i];
}

/// A measured loop, and how far the model's lies from it.
class LoopFit {
 public:
  LoopFit(std::span<const double> force, const MotionModel& model, const Drive& drive,
          const MotionOptions& options)
      : force_(force.begin(), force.end()), model_(model), drive_(drive), options_(options) {
    options_.samples_per_cycle = static_cast<int>(force.size());
    options_.keep_events = false;
    const auto [low, high] = std::minmax_element(force_.begin(), force_.end());
    half_height_ = std::max(0.5 * (*high - *low), 1e-9);
  }

  double misfit(Chamber chamber, double air) {
    if (stopped_) return INFINITY;
    MotionModel filled = model_;
    (chamber == Chamber::Compression ? filled.compression : filled.rod).trapped_air = air;
    const MotionResult run = run_motion(filled, drive_, options_);
    n_steps_ += run.n_steps;
    stopped_ = run.stopped;
    const std::size_t n = force_.size();
    if (stopped_ || run.cycles.empty() || run.samples.size() <= n) return INFINITY;
    // an offset of the load cell or the gas, and a seal friction of another size, are not what air looks like
    std::vector<double> apart(n), one(n, 1.0), rubbing(n);
    for (std::size_t i = 0; i < n; ++i) {
      const MotionSample& s = run.samples[run.samples.size() - 1 - n + i];
      apart[i] = s.force - force_[i];
      rubbing[i] = motion::friction_share(s.speed, model_.friction_speed).value;
    }
    take_out(one, rubbing);
    take_out(one, apart);
    take_out(rubbing, apart);
    double sum = 0.0;
    for (const double f : apart) sum += f * f;
    return std::sqrt(sum / static_cast<double>(n)) / half_height_;
  }

  int n_steps() const { return n_steps_; }
  bool stopped() const { return stopped_; }

 private:
  std::vector<double> force_;
  const MotionModel& model_;
  const Drive& drive_;
  MotionOptions options_;
  double half_height_ = 0.0;
  int n_steps_ = 0;
  bool stopped_ = false;
};

struct Least {
  double x = 0.0;
  double value = 0.0;
};

/// Least value of a function with one valley, by golden section.
template <typename Function>
Least least_between(Function&& f, double low, double high, double width) {
  constexpr double kGolden = 0.6180339887498949;
  double a = high - kGolden * (high - low);
  double b = low + kGolden * (high - low);
  double fa = f(a);
  double fb = f(b);
  while (high - low > width) {
    if (fa < fb) {
      high = b;
      b = a;
      fb = fa;
      a = high - kGolden * (high - low);
      fa = f(a);
    } else {
      low = a;
      a = b;
      fa = fb;
      b = low + kGolden * (high - low);
      fb = f(b);
    }
  }
  return fa < fb ? Least{a, fa} : Least{b, fb};
}

}  // namespace

AirEstimate air_from_loop(std::span<const double> force, const MotionModel& model, const Drive& drive,
                          double air_max, const MotionOptions& options) {
  SW_CHECK(force.size() >= 20 && air_max > 0.0, force.size(), air_max);
  constexpr double kWidth = 1e-3;  // of the range: finer than any bench repeats
  LoopFit fit(force, model, drive, options);
  AirEstimate best;
  best.misfit = best.misfit_clean = fit.misfit(Chamber::Compression, 0.0);
  for (const auto& [chamber, room] : {std::pair{Chamber::Compression, model.compression.volume},
                                      std::pair{Chamber::Rod, model.rod.volume}}) {
    const double most = std::min(air_max, room);
    const Least least =
        least_between([&](double air) { return fit.misfit(chamber, air); }, 0.0, most, kWidth * most);
    if (least.value >= best.misfit) continue;
    best.chamber = chamber;
    best.air = least.x;
    best.misfit = least.value;
    best.outcome = {};
    if (least.x > (1.0 - 3.0 * kWidth) * most)
      best.outcome = {.status = Status::OutOfRange,
                      .residual = best.misfit,
                      .note = "the highest amount of air that was tried fits best"};
  }
  best.n_steps = fit.n_steps();
  best.stopped = fit.stopped();
  return best;
}

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
