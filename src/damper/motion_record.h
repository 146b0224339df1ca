#pragma once
#include <array>
#include <cmath>

#include "damper/motion.h"
#include "damper/motion_stepper.h"
#include "damper/motion_watch.h"

// Turns steps into samples, cycles and events. Private to the module.

namespace shimwright::damper::motion {

class Recorder {
 public:
  Recorder(MotionSystem& system, const DriveClock& clock, const MotionOptions& options,
           const FullState& start, MotionResult& result);

  /// Takes the stepper's last step; true when a cycle ended with it.
  bool take(const Stepper& stepper, int segment);

  /// In the cycle being run [Pa abs].
  double lowest_pressure() const { return figures_.lowest.value; }

  /// Over the whole run.
  double travel_min() const { return travel_min_; }
  double travel_max() const { return travel_max_; }

 private:
  void look(double t, const FullState& y);
  void look_at_turns(const Stepper& stepper, int segment);
  void note_samples(const Stepper& stepper, int segment);
  void note_events(const Stepper& stepper, int segment);
  void begin_cycle(double t, const FullState& y);
  void end_cycle(double t, const FullState& y);

  /// Parts of a step's share in the harmonics of force and speed.
  struct Wave {
    double force_cos = 0.0, force_sin = 0.0, speed_cos = 0.0, speed_sin = 0.0;
  };
  Wave wave_at(double t, double force, double speed) const;
  void add_waves(double h, const Wave& a, const Wave& middle, const Wave& b);

  MotionSystem& system_;
  const DriveClock& clock_;
  const MotionOptions& options_;
  MotionResult& result_;

  int cycle_ = 0;  // being run
  int n_sampled_ = 0;
  CycleFigures figures_;
  double energy_at_start_ = 0.0, springs_at_start_ = 0.0, work_at_start_ = 0.0, heat_at_start_ = 0.0,
         lost_at_start_ = 0.0;
  Wave wave_last_, waves_;
  double force_last_ = 0.0;            // of the damper
  using Seen = std::array<double, 5>;  // whose peaks are told: both forces, three pressures
  Seen seen_{}, seen_before_{}, seen_middle_{};
  Watch watch_;
  double travel_min_ = INFINITY, travel_max_ = -INFINITY;
};

}  // namespace shimwright::damper::motion
