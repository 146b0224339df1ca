#include "damper/motion_watch.h"

#include <algorithm>
#include <cmath>

namespace shimwright::damper::motion {
namespace {

// A disc without preload leaves its seat at any drop. Below this one nothing passes that a plot could show,
// and a damper at rest would open and shut for ever [Pa].
constexpr double kLeastOpening = 1e3;

/// Drop over the whole valve at which the stack of one way leaves its seat.
double opening_of(const valve::DirectionLaw& law) {
  double shut = 0.0;
  for (const valve::LawNode& node : law.nodes) {
    if (node.lift > 0.0) break;
    shut = node.root_drop;
  }
  return std::max(kLeastOpening, shut * shut);
}

/// Where the first bump stop of the springs begins.
std::optional<double> bump_start(const MotionModel& model) {
  std::optional<double> start;
  if (!model.springs) return start;
  for (const spring::SpringElement& element : model.springs->unit.elements)
    if (const auto* stop = std::get_if<spring::BumpStop>(&element.law))
      start = std::min(start.value_or(INFINITY), stop->start);
  return start;
}

}  // namespace

Watch::Watch(const MotionSystem& system) : system_(system) {
  using Kind = MotionEventKind;
  const MotionModel& model = system.model();
  const DamperLaws& laws = model.laws.front().laws;
  add_valve(Of::PistonDrop, laws.piston, Kind::PistonOpensInCompression, Kind::PistonOpensInRebound);
  if (laws.foot) add_valve(Of::FootDrop, *laws.foot, Kind::FootOpensInCompression, Kind::FootOpensInRebound);
  if (const auto start = bump_start(model))
    thresholds_.push_back({Kind::BumpStopTouched, Of::Travel, 1.0, *start});
  thresholds_.push_back({Kind::RodFullyIn, Of::Travel, 1.0, model.travel - kEndTouch});
  thresholds_.push_back({Kind::RodFullyOut, Of::Travel, -1.0, -kEndTouch});
}

void Watch::add_valve(Of of, const valve::ValveLaw& law, MotionEventKind compression,
                      MotionEventKind rebound) {
  if (law.compression.has_stack) thresholds_.push_back({compression, of, 1.0, opening_of(law.compression)});
  if (law.rebound.has_stack) thresholds_.push_back({rebound, of, -1.0, opening_of(law.rebound)});
}

double Watch::past(const Threshold& threshold, const FullState& y) const {
  double value = 0.0;
  switch (threshold.of) {
    case Of::PistonDrop:
      value = y[kPressureC] - y[kPressureR];
      break;
    case Of::FootDrop:
      value = y[kPressureC] - y[kPressureS];
      break;
    case Of::Travel:
      value = system_.travel_of(y);
      break;
  }
  return threshold.sign * value - threshold.at;
}

void Watch::begin(const FullState& y) {
  for (Threshold& threshold : thresholds_) threshold.beyond = past(threshold, y) > 0.0;
}

void Watch::take(const Stepper& stepper, const std::function<void(double)>& place_drive,
                 std::vector<MotionEvent>& events) {
  const std::size_t before = events.size();
  const double t_end = stepper.t();
  FullState y;
  stepper.state(y);

  // those that the step was ended at; those from kOut on say nothing to a reader
  constexpr MotionEventKind kinds[] = {
      MotionEventKind::PistonValveReverses,   MotionEventKind::FootValveReverses,
      MotionEventKind::CompressionAtRelease,  MotionEventKind::RodAtRelease,
      MotionEventKind::FreePistonAtInnerStop, MotionEventKind::FreePistonAtOuterStop,
      MotionEventKind::PortUncovered,         MotionEventKind::RestrictionEntered};
  for (int i = 0; i < kOut && stepper.any_fired(); ++i) {
    const int sign = stepper.fired()[i];
    // a stop is reached where the distance to it falls
    const bool falling_reaches = i == kInnerStop || i == kOuterStop;
    if (sign == 0 || sign == told_[i]) continue;
    told_[i] = sign;
    const MotionSample end = system_.glance(t_end, y);
    events.push_back({t_end, kinds[i], (sign > 0) != falling_reaches, end.travel, end.force});
  }

  // those inside it
  for (Threshold& threshold : thresholds_) {
    if ((past(threshold, y) > 0.0) == threshold.beyond) continue;
    threshold.beyond = !threshold.beyond;
    double low = stepper.t_before();
    double high = t_end;
    FullState inside = y;
    constexpr int kHalvings = 40;
    for (int i = 0; i < kHalvings; ++i) {
      const double middle = 0.5 * (low + high);
      stepper.dense(middle, inside);
      place_drive(middle);
      ((past(threshold, inside) > 0.0) == threshold.beyond ? high : low) = middle;
    }
    stepper.dense(high, inside);
    place_drive(high);
    const MotionSample there = system_.glance(high, inside);
    events.push_back({high, threshold.kind, threshold.beyond, there.travel, there.force});
    place_drive(t_end);
  }
  std::stable_sort(events.begin() + static_cast<std::ptrdiff_t>(before), events.end(),
                   [](const MotionEvent& a, const MotionEvent& b) { return a.time < b.time; });
}

}  // namespace shimwright::damper::motion
