#pragma once
#include <array>
#include <functional>
#include <vector>

#include "damper/motion.h"
#include "damper/motion_stepper.h"

// What happened in a step, for a reader. Private to the module.

namespace shimwright::damper::motion {

/// Events of a motion, driven or free: those that the integrator ends its steps at, and those that only a
/// reader wants, which are looked for inside a step and change no step.
class Watch {
 public:
  explicit Watch(const MotionSystem& system);

  /// Where the motion begins: a state that is already so is not an event. The drive must be there.
  void begin(const FullState& y);

  /// Adds the events of the stepper's last step, by time. The drive must be at its end and is so
  /// afterwards; `place_drive` sets it to a time inside.
  void take(const Stepper& stepper, const std::function<void(double)>& place_drive,
            std::vector<MotionEvent>& events);

 private:
  enum class Of { PistonDrop, FootDrop, Travel };
  /// Something that passes a threshold.
  struct Threshold {
    MotionEventKind kind;
    Of of = Of::Travel;
    double sign = 1.0;  // -1: it happens on the way down
    double at = 0.0;
    bool beyond = false;
  };
  double past(const Threshold& threshold, const FullState& y) const;
  void add_valve(Of of, const valve::ValveLaw& law, MotionEventKind compression, MotionEventKind rebound);

  const MotionSystem& system_;
  std::vector<Threshold> thresholds_;
  // the way that each was last told: a stepper that goes on with more states meets the same crossing again
  std::array<int, kOut> told_{};
};

}  // namespace shimwright::damper::motion
