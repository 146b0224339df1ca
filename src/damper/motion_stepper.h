#pragma once
#include <memory>

#include "base/outcome.h"
#include "damper/motion_system.h"

// Steps through a damper's motion, whatever the number of states in use. Private to the module.

namespace shimwright::damper::motion {

class Stepper {
 public:
  virtual ~Stepper() = default;

  virtual Status step(double t_end) = 0;
  virtual double t() const = 0;
  virtual double t_before() const = 0;
  virtual void state(FullState& y) const = 0;                 // at t
  virtual void dense(double t, FullState& y) const = 0;       // inside the last step
  virtual const std::array<int, kEvents>& fired() const = 0;  // at t: +1 rising, -1 falling
  virtual bool any_fired() const = 0;
  virtual int n_steps() const = 0;
  virtual int n_rejected() const = 0;

  /// From here on the drive's next piece holds; its speed may jump.
  virtual void enter_segment(int segment) = 0;
};

struct StepperOptions {
  double tolerance = 1e-6;
  double step_max = 0.0;
};

/// `clock`: of a driven rod; null for a free one.
std::unique_ptr<Stepper> make_stepper(MotionSystem& system, const DriveClock* clock, double t,
                                      const FullState& y, const StepperOptions& options);

}  // namespace shimwright::damper::motion
