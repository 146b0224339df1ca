#include "ride/sag.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "num/root.h"

namespace shimwright::ride {
namespace {

template <typename Law, typename Function>
void for_each(WheelSpring& wheel, Function function) {
  for (spring::UnitSpring& unit : wheel.units) {
    for (spring::SpringElement& element : unit.elements) {
      if (auto* law = std::get_if<Law>(&element.law)) function(*law);
    }
  }
}

/// From where to where a knob can be turned on this wheel; empty when nothing here has it.
struct KnobRange {
  double low = 0.0;
  double high = 0.0;
};
std::optional<KnobRange> range_of(Knob knob, WheelSpring wheel) {
  std::optional<double> least;
  if (knob == Knob::Pressure) {
    for_each<spring::AirSpring>(wheel, [&](const spring::AirSpring& air) {
      least = std::min(least.value_or(air.positive.pressure), air.positive.pressure);
    });
    if (!least) return std::nullopt;
    return KnobRange{-0.9 * *least, 9.0 * *least};
  }
  for_each<spring::CoilStack>(wheel, [&](const spring::CoilStack& coil) {
    least = std::min(least.value_or(coil.preload), coil.preload);
  });
  if (!least) return std::nullopt;
  if (knob == Knob::Rate) return KnobRange{-0.8, 4.0};
  return KnobRange{-std::max(0.0, *least), wheel.units.front().travel};
}

}  // namespace

Sag sag_under(double mass, const WheelSpring& wheel, const spring::Conditions& conditions) {
  SW_CHECK(mass >= 0.0, mass);
  Sag sag;
  sag.load = mass * kGravity;
  const double full = full_wheel_travel(wheel, conditions);
  const auto surplus = [&](double travel) {
    const WheelForce here = wheel_force_at(wheel, conditions, travel);
    return num::ValueSlope{here.force - sag.load, here.rate};
  };

  if (surplus(0.0).value >= 0.0) {
    sag.topped_out = surplus(0.0).value > 0.0;
  } else if (surplus(full).value < 0.0) {
    sag.bottomed = true;
    sag.wheel_travel = full;
    sag.outcome = {Status::OutOfRange, 0, -surplus(full).value / sag.load,
                   "The load is more than the springs can carry at the end of their travel."};
  } else {
    const num::Root root = num::root_by_slope(surplus, 0.0, full, 0.3 * full);
    sag.wheel_travel = root.x;
    sag.outcome.status = root.status;
    sag.outcome.iterations = root.iterations;
    sag.outcome.residual = std::abs(root.value) / sag.load;
  }
  sag.unit_travel = unit_motion_at(wheel, sag.wheel_travel).shock_travel;
  sag.share = sag.wheel_travel / wheel_travel_at_unit(wheel, wheel.units.front().travel);
  return sag;
}

SagTarget usual_sag(Use use, End end) {
  if (use == Use::Road) {
    return end == End::Front ? SagTarget{{0.15, 0.25}, {0.30, 0.35}} : SagTarget{{0.05, 0.15}, {0.25, 0.33}};
  }
  return end == End::Front ? SagTarget{{0.08, 0.15}, {0.20, 0.25}} : SagTarget{{0.08, 0.15}, {0.31, 0.37}};
}

WheelSpring with_setting(const WheelSpring& wheel, Knob knob, double change) {
  WheelSpring after = wheel;
  switch (knob) {
    case Knob::Preload:
      for_each<spring::CoilStack>(after, [&](spring::CoilStack& coil) { coil.preload += change; });
      break;
    case Knob::Rate:
      for_each<spring::CoilStack>(after, [&](spring::CoilStack& stack) {
        for (spring::Coil& coil : stack.in_series) coil.rate *= 1.0 + change;
      });
      break;
    case Knob::Pressure:
      for_each<spring::AirSpring>(after, [&](spring::AirSpring& air) { air.positive.pressure += change; });
      break;
  }
  return after;
}

SagAdvice advice_for(double target, const SprungMass& mass, const WheelSpring& wheel,
                     const spring::Conditions& conditions) {
  SagAdvice advice;
  advice.target = target;
  const double load = (mass.machine + mass.rider) * kGravity;
  advice.missing_force = load - wheel_force_at(wheel, conditions, target).force;

  for (const Knob knob : {Knob::Preload, Knob::Rate, Knob::Pressure}) {
    const std::optional<KnobRange> range = range_of(knob, wheel);
    if (!range) continue;
    const auto missing = [&](double change) {
      return wheel_force_at(with_setting(wheel, knob, change), conditions, target).force - load;
    };
    const num::Root root = num::root_between(missing, range->low, range->high);
    if (!root.ok()) continue;

    // a preload that makes the coil solid before the target is no answer
    const WheelSpring after = with_setting(wheel, knob, root.x);
    if (full_wheel_travel(after, conditions) <= target) continue;
    advice.settings.push_back({knob, root.x, sag_under(mass.machine, after, conditions)});
  }
  return advice;
}

}  // namespace shimwright::ride
