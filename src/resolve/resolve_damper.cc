#include "resolve/resolve_damper.h"

#include <algorithm>
#include <numbers>

#include "resolve/areas.h"
#include "resolve/resolve_oil.h"

namespace shimwright::resolve {
namespace {

bool find_missing(const file::UnitSpec& unit, ResolveReport& report) {
  const std::size_t before = report.missing.size();
  const std::string part = "the force of \"" + unit.name.value + "\"";
  if (!unit.piston) report.missing.push_back({part, "the bore of the piston", "piston", unit.origin});
  if (!unit.rod) report.missing.push_back({part, "the diameter of the rod", "rod", unit.origin});
  if (!unit.oil) report.missing.push_back({part, "the oil", "oil", unit.origin});
  if (!unit.piston_valve) report.missing.push_back({part, "the piston valve", "piston_valve", unit.origin});
  return report.missing.size() > before;
}

/// What holds the oil; says what is left out.
std::optional<ReservoirModel> find_reservoir(const file::UnitSpec& unit, const Conditions& conditions,
                                             ResolveReport& report) {
  auto model = resolve_reservoir(unit, conditions);
  if (model) return model;
  const std::string part = "the force of \"" + unit.name.value + "\"";
  if (!unit.reservoir || !unit.reservoir->kind) {
    report.missing.push_back({part, "the reservoir", "reservoir", unit.origin});
    return std::nullopt;
  }
  const bool sprung = unit.reservoir->kind.value == file::ReservoirKind::SprungPiston;
  report.missing.push_back({part, sprung ? "the free piston's diameter and spring force" : "the gas pressure",
                            sprung ? "spring_force" : "pressure", unit.reservoir->origin});
  return std::nullopt;
}

void add_adjusters(const ValveParts& valve, ValvePlace place, std::vector<AdjusterModel>& adjusters) {
  for (std::size_t i = 0; i < valve.model.bleeds.size(); ++i) {
    if (!std::holds_alternative<flow::Needle>(valve.model.bleeds[i].passage)) continue;
    if (i > 0 && valve.spec_of_bleed[i] == valve.spec_of_bleed[i - 1]) continue;  // turns with the one before
    const file::BleedSpec& spec = valve.spec->bleeds[*valve.spec_of_bleed[i]];
    AdjusterModel model;
    model.adjuster = {place, static_cast<int>(i), spec.count.value_or(1)};
    model.name = spec.name.value;
    model.clicks = spec.clicks.value_or(0);
    model.clicks_max = spec.clicks_max.value_or(0);
    model.origin = spec.clicks.origin;
    const valve::Bleed& bleed = valve.model.bleeds[i];
    for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
      if (!(stroke == Stroke::Compression ? bleed.compression : bleed.rebound)) continue;
      model.stroke = stroke;
      adjusters.push_back(model);
    }
  }
}

}  // namespace

damper::Chambers chambers_in(const DamperParts& parts, Stroke stroke) {
  damper::Chambers chambers = parts.model.chambers;
  const double sign = stroke == Stroke::Compression ? 1.0 : -1.0;
  chambers.reservoir_pressure =
      std::max(chambers.reservoir_pressure + sign * parts.free_piston_drag, chambers.release_pressure);
  return chambers;
}

std::optional<DamperParts> resolve_damper(const file::JobSpec& job, const file::UnitSpec& unit,
                                          const Conditions& conditions, ResolveReport& report) {
  if (!unit.piston_valve && !unit.foot_valve) return std::nullopt;
  if (find_missing(unit, report)) return std::nullopt;

  DamperParts parts;
  const std::size_t faults_before = report.size();
  const std::string name = unit.name.value;
  const auto oil = resolve_oil(job, *unit.oil, conditions.ambient_pressure, report);
  const auto reservoir = find_reservoir(unit, conditions, report);
  auto piston = resolve_valve(job, *unit.piston_valve, ValvePlace::Piston, name, unit.piston, report);
  if (unit.foot_valve) {
    parts.foot = resolve_valve(job, *unit.foot_valve, ValvePlace::Foot, name, {}, report);
  }
  if (report.size() > faults_before || !reservoir) return std::nullopt;
  parts.piston = std::move(*piston);
  parts.oil = *oil;
  parts.temperature = conditions.oil_temperature;
  parts.liquid = oil::liquid_at(parts.oil, parts.temperature);
  parts.reservoir = *reservoir;
  parts.top_speed = file::judged_speeds(unit.kind.value_or(file::UnitKind::ForkLeg)).top;
  if (unit.reservoir && unit.reservoir->friction && unit.reservoir->piston) {
    parts.free_piston_drag = unit.reservoir->friction.si / disc_area(unit.reservoir->piston.si);
  }

  damper::Chambers& chambers = parts.model.chambers;
  chambers.piston_area = disc_area(unit.piston.si);
  chambers.rod_area = disc_area(unit.rod.si);
  chambers.reservoir_pressure = reservoir_at(parts.reservoir, parts.oil, 0.0, parts.temperature).pressure;
  chambers.release_pressure = parts.oil.release_pressure;
  chambers.atmospheric_pressure = conditions.ambient_pressure;
  chambers.seal_friction = unit.seal_friction.value_or(0.0);
  parts.model.piston_valve = parts.piston.model;
  if (parts.foot) parts.model.foot_valve = parts.foot->model;
  add_adjusters(parts.piston, ValvePlace::Piston, parts.adjusters);
  if (parts.foot) add_adjusters(*parts.foot, ValvePlace::Foot, parts.adjusters);

  const Problems problems = damper::validate(parts.model);
  if (problems.empty()) return parts;
  FieldPlaces places;
  places.add_all("piston_valve", parts.piston.places);
  if (parts.foot) places.add_all("foot_valve", parts.foot->places);
  places.add("chambers.piston_area", unit.piston.origin, units::Kind::Area);
  places.add("chambers.rod_area", unit.rod.origin, units::Kind::Area);
  if (unit.reservoir)
    places.add("chambers.reservoir_pressure", unit.reservoir->origin, units::Kind::Pressure);
  report.add_refused(job, problems, places, unit.origin);
  return std::nullopt;
}

}  // namespace shimwright::resolve
