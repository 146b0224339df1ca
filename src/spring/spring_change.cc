#include "spring/spring_change.h"

#include "base/check.h"
#include "num/curve.h"

namespace shimwright::spring {

UnitSpring changed(const UnitSpring& unit, const SpringChange& change) {
  UnitSpring after = unit;
  if (change.oil_volume != 0.0 || change.pressure != 0.0) {
    SW_CHECK(change.element < after.elements.size(), change.element);
    auto* air = std::get_if<AirSpring>(&after.elements[change.element].law);
    SW_CHECK(air != nullptr, change.element);
    air->positive.oil_volume += change.oil_volume;
    air->positive.pressure += change.pressure;
  }
  if (change.preload != 0.0) {
    SW_CHECK(change.element < after.elements.size(), change.element);
    auto* coil = std::get_if<CoilStack>(&after.elements[change.element].law);
    SW_CHECK(coil != nullptr, change.element);
    coil->preload += change.preload;
  }
  return after;
}

Conditions changed(const Conditions& conditions, const SpringChange& change) {
  return {conditions.temperature + change.temperature, conditions.ambient_pressure + change.ambient_pressure};
}

double force_change(const SpringChange& change, const UnitSpring& unit, const Conditions& conditions,
                    double travel) {
  return force_at(changed(unit, change), changed(conditions, change), travel).force -
         force_at(unit, conditions, travel).force;
}

SpringChangeEffect effect_of(const SpringChange& change, const UnitSpring& unit, const Conditions& conditions,
                             int n_points) {
  const SpringCurve before = spring_curve(unit, conditions, n_points);
  const SpringCurve after = spring_curve(changed(unit, change), changed(conditions, change), n_points);
  SpringChangeEffect effect;
  for (std::size_t i = 0; i < before.points.size(); ++i) {
    effect.travel.push_back(before.points[i].travel);
    effect.before.push_back(before.points[i].force);
    effect.difference.push_back(after.points[i].force - before.points[i].force);
  }
  effect.outcome = worse(before.outcome, after.outcome);
  return effect;
}

}  // namespace shimwright::spring
