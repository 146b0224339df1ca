#pragma once
#include <algorithm>
#include <array>
#include <limits>
#include <memory>
#include <vector>

#include "damper/motion_stepper.h"
#include "num/rodas.h"

// The states in use, in matrices of a fixed size: what the integrator is compiled for. Private to the module.

namespace shimwright::damper::motion {

/// The states in use, scaled, as the integrator wants them.
template <int N>
class Packed {
 public:
  static constexpr int kStates = N;
  static constexpr int kQuadratures = kSums;
  static constexpr int kEvents = motion::kEvents;
  using State = num::StateOf<N + kSums>;
  using Matrix = Eigen::Matrix<double, N + kSums, N>;

  Packed(MotionSystem& system, const DriveClock* clock, const FullState& y)
      : system_(system), clock_(clock), full_(y) {
    const std::vector<int>& used = system.places();
    std::copy(used.begin(), used.end(), place_.begin());
    int n = static_cast<int>(used.size());
    for (int p = 0; p < kPlaces && n < N; ++p)
      if (std::find(used.begin(), used.end(), p) == used.end()) place_[n++] = p;
    for (int i = 0; i < kSums; ++i) place_[N + i] = kPlaces + i;
    for (int i = 0; i < N + kSums; ++i) {
      scale_[i] = system.scale()[place_[i]];
      per_scale_[i] = 1.0 / scale_[i];
    }
  }

  void set_segment(int segment) {
    segment_ = segment;
    time_ = std::numeric_limits<double>::quiet_NaN();
  }

  State pack(const FullState& y) const {
    State s;
    for (int i = 0; i < N + kSums; ++i) s[i] = y[place_[i]] * per_scale_[i];
    return s;
  }
  void unpack(const State& s, FullState& y) const {
    y = full_;
    for (int i = 0; i < N + kSums; ++i) y[place_[i]] = s[i] * scale_[i];
  }

  void rates(double t, const State& y, State& f) {
    place(t, y);
    system_.rates(full_, rate_);
    f = pack(rate_);
  }

  void jacobian(double t, const State& y, Matrix& j, State& f_time) {
    State f;
    rates_and_jacobian(t, y, f, j, f_time);
  }

  void rates_and_jacobian(double t, const State& y, State& f, Matrix& j, State& f_time) {
    place(t, y);
    FullState by_time;
    system_.linearise(full_, rate_, rows_, by_time);
    f = pack(rate_);
    f_time = pack(by_time);
    for (int i = 0; i < N + kSums; ++i)
      for (int k = 0; k < N; ++k) j(i, k) = rows_[place_[i]][place_[k]] * (scale_[k] * per_scale_[i]);
  }

  void events(double t, const State& y, std::array<double, kEvents>& g) {
    place(t, y);
    system_.events(full_, g);
  }

 private:
  void place(double t, const State& y) {
    if (clock_ != nullptr) {
      // several stages share their time, and so do rates and derivatives
      if (t != time_) drive_ = clock_->at(t, segment_);
      time_ = t;
      system_.set_drive(drive_);
    }
    for (int i = 0; i < N + kSums; ++i) full_[place_[i]] = y[i] * scale_[i];
  }

  MotionSystem& system_;
  const DriveClock* clock_;
  int segment_ = 0;
  double time_ = std::numeric_limits<double>::quiet_NaN();  // that drive_ belongs to
  DrivePoint drive_;
  std::array<int, N + kSums> place_{};
  std::array<double, N + kSums> scale_{}, per_scale_{};
  FullState full_;  // holds what is not in use
  FullState rate_{};
  FullJacobian rows_;
};

template <int N>
class PackedStepper final : public Stepper {
 public:
  PackedStepper(MotionSystem& system, const DriveClock* clock, double t, const FullState& y,
                const StepperOptions& options)
      : packed_(system, clock, y),
        rodas_(packed_, t, packed_.pack(y), State::Constant(options.tolerance),
               {.tolerance = options.tolerance, .step_max = options.step_max}) {}

  Status step(double t_end) override { return rodas_.step(t_end); }
  double t() const override { return rodas_.t(); }
  double t_before() const override { return rodas_.t_before(); }
  void state(FullState& y) const override { packed_.unpack(rodas_.y(), y); }
  void dense(double t, FullState& y) const override { packed_.unpack(rodas_.dense(t), y); }
  const std::array<int, kEvents>& fired() const override { return rodas_.fired(); }
  bool any_fired() const override { return rodas_.any_fired(); }
  int n_steps() const override { return rodas_.n_steps(); }
  int n_rejected() const override { return rodas_.n_rejected(); }
  void enter_segment(int segment) override {
    packed_.set_segment(segment);
    rodas_.restart();
  }

 private:
  using State = typename Packed<N>::State;
  Packed<N> packed_;
  num::Rodas<Packed<N>> rodas_;
};

/// Compiled for the sizes that motion_stepper.cc asks for, in two files: each takes long.
template <int N>
std::unique_ptr<Stepper> make_packed_stepper(MotionSystem& system, const DriveClock* clock, double t,
                                             const FullState& y, const StepperOptions& options) {
  return std::make_unique<PackedStepper<N>>(system, clock, t, y, options);
}

#define SW_PACKED_STEPPER(n)                                                                         \
  template std::unique_ptr<Stepper> make_packed_stepper<n>(MotionSystem&, const DriveClock*, double, \
                                                           const FullState&, const StepperOptions&)
extern SW_PACKED_STEPPER(5);
extern SW_PACKED_STEPPER(7);
extern SW_PACKED_STEPPER(9);
extern SW_PACKED_STEPPER(kPlaces);

}  // namespace shimwright::damper::motion
