#include "damper/motion_record.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace shimwright::damper::motion {

Recorder::Recorder(MotionSystem& system, const DriveClock& clock, const MotionOptions& options,
                   const FullState& start, MotionResult& result)
    : system_(system), clock_(clock), options_(options), result_(result), watch_(system) {
  const std::size_t n_cycles = clock.cycle_ends().size() - 1;
  const std::size_t n_kept = options.last_cycle_only ? 1 : n_cycles;
  result_.samples.reserve(n_kept * static_cast<std::size_t>(options.samples_per_cycle) + 1);
  result_.cycles.reserve(n_cycles);
  constexpr std::size_t kEventsPerCycle = 32;  // some more than a cycle has
  if (options.keep_events) result_.events.reserve(n_cycles * kEventsPerCycle);
  system_.set_drive(clock_.at(clock_.t_begin(), 0));
  watch_.begin(start);
  begin_cycle(clock_.t_begin(), start);
}

void Recorder::begin_cycle(double t, const FullState& y) {
  figures_ = {};
  figures_.t_begin = t;
  figures_.lowest.value = figures_.peak_rebound.value = figures_.damper_rebound.value = INFINITY;
  figures_.peak_compression.value = figures_.damper_compression.value = -INFINITY;
  figures_.piston_travel_min = INFINITY;
  figures_.piston_travel_max = -INFINITY;
  energy_at_start_ = system_.stored_energy(y);
  springs_at_start_ = system_.springs_at(system_.travel_of(y)).energy;
  work_at_start_ = y[kWork];
  heat_at_start_ = y[kHeat];
  lost_at_start_ = y[kLost];
  waves_ = {};
  const MotionSample s = system_.sample(t, y);
  wave_last_ = wave_at(t, s.force_of_damper(), s.speed);
  if (options_.last_cycle_only) result_.samples.clear();
  if (options_.samples_per_cycle > 0) result_.samples.push_back(s);
  n_sampled_ = 1;
  look(t, y);
}

void Recorder::look(double t, const FullState& y) {
  const MotionSample s = system_.glance(t, y);
  const auto here = [&](double value) { return Peak{value, t, s.travel, s.speed}; };
  force_last_ = s.force_of_damper();
  seen_ = {s.force, force_last_, s.p_compression, s.p_rod, s.p_reservoir};
  travel_min_ = std::min(travel_min_, s.travel);
  travel_max_ = std::max(travel_max_, s.travel);
  if (s.force > figures_.peak_compression.value) figures_.peak_compression = here(s.force);
  if (s.force < figures_.peak_rebound.value) figures_.peak_rebound = here(s.force);
  if (force_last_ > figures_.damper_compression.value) figures_.damper_compression = here(force_last_);
  if (force_last_ < figures_.damper_rebound.value) figures_.damper_rebound = here(force_last_);
  figures_.speed_compression = std::max(figures_.speed_compression, s.speed);
  figures_.speed_rebound = std::min(figures_.speed_rebound, s.speed);
  const std::pair<Chamber, double> chambers[] = {
      {Chamber::Compression, s.p_compression}, {Chamber::Rod, s.p_rod}, {Chamber::Reservoir, s.p_reservoir}};
  for (const auto& [chamber, pressure] : chambers)
    if (pressure < figures_.lowest.value) {
      figures_.lowest = here(pressure);
      figures_.lowest_chamber = chamber;
    }
  figures_.released_air = std::max(figures_.released_air, s.released);
  figures_.piston_travel_min = std::min(figures_.piston_travel_min, s.piston_travel);
  figures_.piston_travel_max = std::max(figures_.piston_travel_max, s.piston_travel);
  figures_.lock_pressure = std::max(figures_.lock_pressure, s.p_lock);
}

/// A long step may turn beside its middle: where the parabola through both ends and the middle turns, the
/// state is looked at as well.
void Recorder::look_at_turns(const Stepper& stepper, int segment) {
  const Seen end = seen_;
  const double before = stepper.t_before();
  double last = -1.0;
  for (std::size_t i = 0; i < end.size(); ++i) {
    const double rise = -3.0 * seen_before_[i] + 4.0 * seen_middle_[i] - end[i];
    const double bend = 2.0 * (seen_before_[i] - 2.0 * seen_middle_[i] + end[i]);
    const double share = -rise / (2.0 * bend);
    if (!(share > 0.0 && share < 1.0) || share == last) continue;
    last = share;
    const double t = before + share * (stepper.t() - before);
    FullState y;
    stepper.dense(t, y);
    system_.set_drive(clock_.at(t, segment));
    look(t, y);
  }
  seen_ = end;
}

Recorder::Wave Recorder::wave_at(double t, double force, double speed) const {
  const auto ends = clock_.cycle_ends();
  const double share = (t - ends[cycle_]) / (ends[cycle_ + 1] - ends[cycle_]);
  const double c = std::cos(2.0 * std::numbers::pi * share);
  const double s = std::sin(2.0 * std::numbers::pi * share);
  return {force * c, force * s, speed * c, speed * s};
}

void Recorder::add_waves(double h, const Wave& a, const Wave& middle, const Wave& b) {
  const auto simpson = [&](double Wave::* part) {
    waves_.*part += h / 6.0 * (a.*part + 4.0 * middle.*part + b.*part);
  };
  simpson(&Wave::force_cos);
  simpson(&Wave::force_sin);
  simpson(&Wave::speed_cos);
  simpson(&Wave::speed_sin);
}

void Recorder::note_samples(const Stepper& stepper, int segment) {
  const auto ends = clock_.cycle_ends();
  const double length = ends[cycle_ + 1] - ends[cycle_];
  while (n_sampled_ < options_.samples_per_cycle) {
    const double t = ends[cycle_] + length * n_sampled_ / options_.samples_per_cycle;
    if (t > stepper.t()) return;
    FullState y;
    stepper.dense(t, y);
    system_.set_drive(clock_.at(t, segment));
    result_.samples.push_back(system_.sample(t, y));
    ++n_sampled_;
  }
}

void Recorder::note_events(const Stepper& stepper, int segment) {
  if (!options_.keep_events) return;
  watch_.take(stepper, [&](double t) { system_.set_drive(clock_.at(t, segment)); }, result_.events);
}

void Recorder::end_cycle(double t, const FullState& y) {
  figures_.t_end = t;
  // what the springs took in is known to the last bit, whatever the steps were
  figures_.energy_in =
      y[kWork] - work_at_start_ + (system_.springs_at(system_.travel_of(y)).energy - springs_at_start_);
  figures_.heat = y[kHeat] - heat_at_start_;
  figures_.oil_lost = y[kLost] - lost_at_start_;
  figures_.stored_change = system_.stored_energy(y) - energy_at_start_;
  figures_.energy_error = std::abs(figures_.energy_in - figures_.heat - figures_.stored_change) /
                          std::max({std::abs(figures_.energy_in), std::abs(figures_.heat), 1e-12});
  const double force_angle = std::atan2(waves_.force_sin, waves_.force_cos);
  const double speed_angle = std::atan2(waves_.speed_sin, waves_.speed_cos);
  figures_.phase_lag = std::remainder(force_angle - speed_angle, 2.0 * std::numbers::pi);
  figures_.temperature_end = y[kTemperature];
  result_.cycles.push_back(figures_);
}

bool Recorder::take(const Stepper& stepper, int segment) {
  const double t = stepper.t();
  const double before = stepper.t_before();
  FullState y;
  seen_before_ = seen_;

  // middle and end of the step
  const double middle = 0.5 * (before + t);
  stepper.dense(middle, y);
  const DrivePoint at_middle = clock_.at(middle, segment);
  system_.set_drive(at_middle);
  look(middle, y);
  seen_middle_ = seen_;
  const Wave wave_middle = wave_at(middle, force_last_, at_middle.speed);
  stepper.state(y);
  const DrivePoint at_end = clock_.at(t, segment);
  system_.set_drive(at_end);
  look(t, y);
  const Wave wave_end = wave_at(t, force_last_, at_end.speed);
  add_waves(t - before, wave_last_, wave_middle, wave_end);
  wave_last_ = wave_end;
  system_.note_drops(y);
  look_at_turns(stepper, segment);
  system_.set_drive(at_end);
  note_events(stepper, segment);
  note_samples(stepper, segment);
  system_.set_drive(at_end);

  const auto ends = clock_.cycle_ends();
  if (t < ends[cycle_ + 1]) return false;
  end_cycle(t, y);
  ++cycle_;
  if (cycle_ + 1 < static_cast<int>(ends.size()))
    begin_cycle(t, y);
  else if (options_.samples_per_cycle > 0)
    result_.samples.push_back(system_.sample(t, y));
  return true;
}

}  // namespace shimwright::damper::motion
