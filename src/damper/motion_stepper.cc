#include "damper/motion_stepper.h"

#include <algorithm>

#include "damper/motion_packed.h"

namespace shimwright::damper::motion {
namespace {

/// Four sizes keep the build short; a state that is not in use stays where it is and may fill up.
std::unique_ptr<Stepper> stepper_of_size(MotionSystem& system, const DriveClock* clock, double t,
                                         const FullState& y, const StepperOptions& options) {
  const std::size_t n = system.places().size();
  if (n <= 5) return make_packed_stepper<5>(system, clock, t, y, options);
  if (n <= 7) return make_packed_stepper<7>(system, clock, t, y, options);
  if (n <= 9) return make_packed_stepper<9>(system, clock, t, y, options);
  return make_packed_stepper<kPlaces>(system, clock, t, y, options);
}

/// Goes on with more states from where a chamber first falls below the release pressure.
class GrowingStepper final : public Stepper {
 public:
  GrowingStepper(MotionSystem& system, const DriveClock* clock, double t, const FullState& y,
                 const StepperOptions& options)
      : system_(system), clock_(clock), options_(options) {
    const double release = system.model().oil.release_pressure;
    if (system.may_let_air_out() && std::min({y[kPressureC], y[kPressureR], y[kPressureS]}) <= release)
      system.let_air_out();
    inner_ = stepper_of_size(system, clock, t, y, options);
  }

  Status step(double t_end) override {
    if (must_grow_) grow();
    const Status status = inner_->step(t_end);
    must_grow_ =
        system_.may_let_air_out() && !system_.lets_air_out() && inner_->any_fired() &&
        (inner_->fired()[kReleaseC] < 0 || inner_->fired()[kReleaseR] < 0 || inner_->fired()[kReleaseS] < 0);
    return status;
  }

  double t() const override { return inner_->t(); }
  double t_before() const override { return inner_->t_before(); }
  void state(FullState& y) const override { inner_->state(y); }
  void dense(double t, FullState& y) const override { inner_->dense(t, y); }
  const std::array<int, kEvents>& fired() const override { return inner_->fired(); }
  bool any_fired() const override { return inner_->any_fired(); }
  int n_steps() const override { return n_steps_ + inner_->n_steps(); }
  int n_rejected() const override { return n_rejected_ + inner_->n_rejected(); }
  void enter_segment(int segment) override {
    segment_ = segment;
    inner_->enter_segment(segment);
  }

 private:
  void grow() {
    FullState y;
    inner_->state(y);
    n_steps_ += inner_->n_steps();
    n_rejected_ += inner_->n_rejected();
    system_.let_air_out();
    inner_ = stepper_of_size(system_, clock_, inner_->t(), y, options_);
    inner_->enter_segment(segment_);
    must_grow_ = false;
  }

  MotionSystem& system_;
  const DriveClock* clock_;
  StepperOptions options_;
  std::unique_ptr<Stepper> inner_;
  int segment_ = 0;
  bool must_grow_ = false;
  int n_steps_ = 0, n_rejected_ = 0;
};

}  // namespace

std::unique_ptr<Stepper> make_stepper(MotionSystem& system, const DriveClock* clock, double t,
                                      const FullState& y, const StepperOptions& options) {
  return std::make_unique<GrowingStepper>(system, clock, t, y, options);
}

}  // namespace shimwright::damper::motion
