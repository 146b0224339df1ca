#include "resolve/resolve_leg_air.h"

#include <numbers>

#include "resolve/resolve_conditions.h"

namespace shimwright::resolve {

std::optional<assembly::OuterTube> outer_tube(const file::UnitSpec& unit) {
  if (!unit.fill || !unit.fill->tube) return std::nullopt;
  const file::FillTubeSpec& spec = *unit.fill->tube;
  if (!spec.bore || !spec.height) return std::nullopt;
  assembly::OuterTube tube{spec.bore.si, spec.height.si, {}};
  for (const file::StandingSpec& body : spec.standing) {
    tube.standing.push_back({body.diameter.si, body.bottom.value_or(0.0), body.top.value_or(spec.height.si)});
  }
  if (!assembly::problems_in(tube).empty()) return std::nullopt;
  return tube;
}

std::optional<double> outer_level(const file::UnitSpec& unit) {
  if (unit.trapped_air && unit.trapped_air->level) return unit.trapped_air->level.si;
  if (!unit.fill || !unit.fill->tube) return std::nullopt;
  if (unit.fill->tube->level) return unit.fill->tube->level.si;
  const auto tube = outer_tube(unit);
  if (!tube || !unit.fill->outer) return std::nullopt;
  return assembly::air_gap_at_oil(*tube, unit.fill->outer.si);
}

std::optional<LegAir> leg_air(const file::UnitSpec& unit, double ambient_pressure) {
  if (!unit.trapped_air || !unit.trapped_air->bore) return std::nullopt;
  const auto level = outer_level(unit);
  if (!level) return std::nullopt;
  const file::TrappedAirSpec& spec = *unit.trapped_air;
  LegAir air;
  air.area = 0.25 * std::numbers::pi * spec.bore.si * spec.bore.si;
  // the level is read fully in with the spring out; fully out the air is longer by the travel
  air.volume = air.area * (*level + unit.travel.value_or(0.0)) - spec.spring_volume.value_or(0.0);
  air.pressure = spec.pressure ? absolute_pressure(spec.pressure, ambient_pressure) : ambient_pressure;
  return air;
}

}  // namespace shimwright::resolve
