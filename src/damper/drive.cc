#include "damper/drive.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"

namespace shimwright::damper {
namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

void find_problems(const char* kind, double amplitude, double frequency, int n_cycles, Problems& problems) {
  const std::string prefix(kind);
  if (!(amplitude > 0.0 && std::isfinite(amplitude)))
    problems.push_back({prefix + ".amplitude", amplitude, 0.0, "more than zero"});
  if (!(frequency > 0.0 && std::isfinite(frequency)))
    problems.push_back({prefix + ".frequency", frequency, 0.0, "more than zero"});
  if (n_cycles < 1)
    problems.push_back({prefix + ".n_cycles", static_cast<double>(n_cycles), 1.0, "one or more"});
}

struct DriveProblems {
  Problems& problems;
  void operator()(const SineDrive& d) const {
    find_problems("sine", d.amplitude, d.frequency, d.n_cycles, problems);
  }
  void operator()(const TriangleDrive& d) const {
    find_problems("triangle", d.amplitude, d.frequency, d.n_cycles, problems);
  }
  void operator()(const StepDrive& d) const {
    if (!(d.rise_time > 0.0)) problems.push_back({"step.rise_time", d.rise_time, 0.0, "more than zero"});
    if (!(d.hold_time >= 0.0)) problems.push_back({"step.hold_time", d.hold_time, 0.0, "zero or more"});
    if (d.from == d.to) problems.push_back({"step.to", d.to, d.from, "another travel than the start"});
  }
  void operator()(const SampledDrive& d) const {
    if (d.time.size() < 2 || d.time.size() != d.travel.size())
      problems.push_back({"sampled.travel", static_cast<double>(d.travel.size()),
                          static_cast<double>(d.time.size()), "two or more, as many as times"});
    else if (!num::strictly_rises(d.time))
      problems.push_back({"sampled.time", d.time.front(), d.time.back(), "rising, finite times"});
    for (const double x : d.travel)
      if (!std::isfinite(x)) {
        problems.push_back({"sampled.travel", x, 0.0, "finite"});
        break;
      }
  }
};

/// Times of the corners and the cycles' ends of each kind of drive.
struct DriveTimes {
  std::vector<double>& corners;
  std::vector<double>& cycle_ends;
  void operator()(const SineDrive& d) const {
    for (int i = 0; i <= d.n_cycles; ++i) cycle_ends.push_back(i / d.frequency);
    corners = cycle_ends;
  }
  void operator()(const TriangleDrive& d) const {
    for (int i = 0; i <= 2 * d.n_cycles; ++i) corners.push_back(0.5 * i / d.frequency);
    for (int i = 0; i <= d.n_cycles; ++i) cycle_ends.push_back(corners[2 * i]);
  }
  void operator()(const StepDrive& d) const {
    corners = {0.0, d.rise_time};
    if (d.hold_time > 0.0) corners.push_back(d.rise_time + d.hold_time);
    cycle_ends = {0.0, corners.back()};
  }
  void operator()(const SampledDrive& d) const {
    corners = {d.time.front(), d.time.back()};
    cycle_ends = corners;
  }
};

struct PointAt {
  double t;
  int segment;
  const num::Curve& curve;
  DrivePoint operator()(const SineDrive& d) const {
    const double w = kTurn * d.frequency;
    const double c = d.amplitude * std::cos(w * t);
    return {d.middle - c, d.amplitude * w * std::sin(w * t), w * w * c};
  }
  DrivePoint operator()(const TriangleDrive& d) const {
    const double half = 0.5 / d.frequency;
    const double sign = segment % 2 == 0 ? 1.0 : -1.0;
    const double speed = sign * 2.0 * d.amplitude / half;
    return {d.middle - sign * d.amplitude + speed * (t - segment * half), speed, 0.0};
  }
  DrivePoint operator()(const StepDrive& d) const {
    if (segment > 0) return {d.to, 0.0, 0.0};
    const double s = t / d.rise_time;
    const double rise = d.to - d.from;
    return {d.from + rise * s * s * s * (10.0 + s * (6.0 * s - 15.0)),
            rise / d.rise_time * 30.0 * s * s * (1.0 - s) * (1.0 - s),
            rise / (d.rise_time * d.rise_time) * 60.0 * s * (1.0 - s) * (1.0 - 2.0 * s)};
  }
  DrivePoint operator()(const SampledDrive&) const {
    const num::CurvePoint p = num::curve_at(curve, t);
    return {p.value, p.slope, p.curvature};
  }
};

}  // namespace

Problems validate(const Drive& drive) {
  Problems problems;
  std::visit(DriveProblems{problems}, drive);
  return problems;
}

DriveClock::DriveClock(const Drive& drive) : drive_(drive) {
  SW_CHECK(validate(drive).empty());
  std::visit(DriveTimes{corners_, cycle_ends_}, drive);
  if (const auto* sampled = std::get_if<SampledDrive>(&drive))
    curve_ = sampled->smoothness == Smoothness::Speed ? num::monotone_curve(sampled->time, sampled->travel)
                                                      : num::smooth_curve(sampled->time, sampled->travel);
}

double DriveClock::longest_step() const {
  const double cycle = (cycle_ends_[1] - cycle_ends_[0]) / 50.0;
  if (curve_.x.empty()) return cycle;
  const double samples = 4.0 * (t_end() - t_begin()) / static_cast<double>(curve_.x.size() - 1);
  return std::min(cycle, samples);
}

DrivePoint DriveClock::at(double t, int segment) const {
  return std::visit(PointAt{t, segment, curve_}, drive_);
}

}  // namespace shimwright::damper
