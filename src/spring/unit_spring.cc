#include "spring/unit_spring.h"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "base/check.h"
#include "num/curve.h"
#include "num/root.h"

namespace shimwright::spring {
namespace {

ElementForce top_out_force(const TopOutSpring& spring, double travel) {
  const double at_rest = 0.5 * spring.rate * spring.engagement * spring.engagement;
  const double left = spring.engagement - travel;
  if (left <= 0.0) return {0.0, 0.0, -at_rest};
  return {-spring.rate * left, spring.rate, 0.5 * spring.rate * left * left - at_rest};
}

ElementForce bump_force(const BumpStop& stop, double travel) {
  const double c = travel - stop.start;
  if (c < 0.0) return {};
  const double square = c * c;
  return {c * (stop.rate + stop.cubic * square), stop.rate + 3.0 * stop.cubic * square,
          square * (0.5 * stop.rate + 0.25 * stop.cubic * square)};
}

ElementForce element_force(const SpringElement& element, const Conditions& conditions, double travel) {
  struct Visitor {
    const Conditions& conditions;
    double travel;
    ElementForce operator()(const CoilStack& coil) const { return coil_force(coil, travel); }
    ElementForce operator()(const AirSpring& air) const { return air_force(air, conditions, travel); }
    ElementForce operator()(const TopOutSpring& spring) const { return top_out_force(spring, travel); }
    ElementForce operator()(const BumpStop& stop) const { return bump_force(stop, travel); }
  };
  return std::visit(Visitor{conditions, travel}, element.law);
}

void keep_least(std::optional<double>& least, double candidate, double below) {
  if (candidate < below && (!least || candidate < *least)) least = candidate;
}

/// The three ends that a unit's own elements set to its travel.
void find_ends(const UnitSpring& unit, UnitLimits& limits) {
  for (const SpringElement& element : unit.elements) {
    if (const auto* coil = std::get_if<CoilStack>(&element.law)) {
      if (const auto bind = bind_travel(*coil)) keep_least(limits.coil_bind_travel, *bind, unit.travel);
      for (const double travel : crossover_travels(*coil)) {
        if (travel > 0.0 && travel < unit.travel) limits.crossover_travels.push_back(travel);
      }
    } else if (const auto* air = std::get_if<AirSpring>(&element.law)) {
      keep_least(limits.air_end_travel, air_end_travel(*air), unit.travel);
    }
  }
  std::ranges::sort(limits.crossover_travels);
  limits.usable_travel = std::min({unit.travel, limits.coil_bind_travel.value_or(unit.travel),
                                   limits.air_end_travel.value_or(unit.travel)});
}

Outcome outcome_of(const UnitSpring& unit, const UnitLimits& limits) {
  if (limits.usable_travel >= unit.travel) return {};
  const bool coil = limits.coil_bind_travel && *limits.coil_bind_travel == limits.usable_travel;
  std::ostringstream note;
  note.precision(3);
  note << (coil ? "A coil spring is solid" : "No air is left") << " at "
       << 100.0 * limits.usable_travel / unit.travel << " % of the travel.";
  return {Status::OutOfRange, 0, 1.0 - limits.usable_travel / unit.travel, note.str()};
}

}  // namespace

ForceBreakdown force_at(const UnitSpring& unit, const Conditions& conditions, double travel) {
  ForceBreakdown sum;
  sum.travel = travel;
  sum.elements.reserve(unit.elements.size());
  for (const SpringElement& element : unit.elements) {
    const ElementForce part = element_force(element, conditions, travel);
    sum.force += part.force;
    sum.rate += part.rate;
    sum.energy += part.energy;
    sum.elements.push_back(part);
  }
  return sum;
}

SpringCurve spring_curve(const UnitSpring& unit, const Conditions& conditions, int n_points) {
  SpringCurve curve;
  for (const double travel : num::evenly_spaced(0.0, unit.travel, n_points)) {
    curve.points.push_back(force_at(unit, conditions, travel));
  }
  curve.outcome = unit_limits(unit, conditions).outcome;
  return curve;
}

UnitLimits unit_limits(const UnitSpring& unit, const Conditions& conditions) {
  UnitLimits limits;
  find_ends(unit, limits);

  // a unit bound before it moves has its end at zero
  limits.usable_travel = std::max(0.0, limits.usable_travel);
  const ForceBreakdown out = force_at(unit, conditions, 0.0);
  const ForceBreakdown in = force_at(unit, conditions, limits.usable_travel);
  limits.force_out = out.force;
  limits.force_in = in.force;
  limits.energy_in = in.energy;

  // springs that pull fully out let the leg settle where they balance
  if (out.force < 0.0) {
    const auto balance = [&](double travel) { return force_at(unit, conditions, travel).force; };
    limits.rest_travel = num::root_between(balance, 0.0, limits.usable_travel).x;
  }
  limits.outcome = outcome_of(unit, limits);
  return limits;
}

}  // namespace shimwright::spring
