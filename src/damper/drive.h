#pragma once
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "base/problem.h"
#include "num/curve.h"

namespace shimwright::damper {

/// How a bench moves the rod. Travel is positive in compression, zero with the rod fully out.

/// Travel middle - amplitude cos(2 pi f t): starts at rest at its outer end.
struct SineDrive {
  double middle = 0.0;     // [m]
  double amplitude = 0.0;  // half of the stroke [m]
  double frequency = 1.0;  // [Hz]
  int n_cycles = 3;
};

/// Constant speed in and out; starts at its outer end.
struct TriangleDrive {
  double middle = 0.0;     // [m]
  double amplitude = 0.0;  // half of the stroke [m]
  double frequency = 1.0;  // [Hz]; the speed is 4 amplitude frequency
  int n_cycles = 3;
};

/// From one travel to another along 10 s^3 - 15 s^4 + 6 s^5, then held.
struct StepDrive {
  double from = 0.0;       // [m]
  double to = 0.0;         // [m]
  double rise_time = 0.0;  // [s]
  double hold_time = 0.0;  // [s]
};

enum class Smoothness {
  Speed,         // speed is continuous and travel never overshoots a sample
  Acceleration,  // acceleration is continuous too; may overshoot a little between samples
};

/// A recorded stroke. Counts as one cycle.
struct SampledDrive {
  std::vector<double> time;    // strictly rising [s] (n >= 2)
  std::vector<double> travel;  // [m] (n)
  Smoothness smoothness = Smoothness::Acceleration;
};

using Drive = std::variant<SineDrive, TriangleDrive, StepDrive, SampledDrive>;

Problems validate(const Drive& drive);

struct DrivePoint {
  double travel = 0.0;        // [m]
  double speed = 0.0;         // [m/s]
  double acceleration = 0.0;  // [m/s^2]
};

/// A drive that can be evaluated many times.
///
/// Valid:  a drive without problems.
/// Tested: drive_test.cc
class DriveClock {
 public:
  explicit DriveClock(const Drive& drive);

  /// `segment`: index of the piece between two corners that t belongs to; at a corner it tells the sides
  /// apart.
  DrivePoint at(double t, int segment) const;

  double t_begin() const { return corners_.front(); }
  double t_end() const { return corners_.back(); }

  /// Times between which the motion is smooth, both ends included. A step of an integrator ends at each.
  std::span<const double> corners() const { return corners_; }

  /// The longest step that cannot leap over something in the stroke [s]: four samples of a recorded one, a
  /// fiftieth of a cycle otherwise.
  double longest_step() const;

  /// Ends of the cycles, starting with t_begin.
  std::span<const double> cycle_ends() const { return cycle_ends_; }

 private:
  Drive drive_;
  num::Curve curve_;  // of a sampled drive
  std::vector<double> corners_;
  std::vector<double> cycle_ends_;
};

}  // namespace shimwright::damper
