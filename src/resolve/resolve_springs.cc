#include "resolve/resolve_springs.h"

#include <numbers>
#include <utility>

#include "resolve/areas.h"
#include "resolve/resolve_leg_air.h"
#include "spring/atmosphere.h"

namespace shimwright::resolve {
namespace {

/// Where a sealed chamber was sealed.
struct SealedAt {
  double temperature = 293.15;
  double ambient_pressure = 101325.0;
};

SealedAt sealed_at(const file::AirSpringSpec& spec, const Conditions& conditions) {
  SealedAt at{conditions.fill_temperature, conditions.ambient_pressure};
  if (spec.set_at) {
    at.temperature = spec.set_at->temperature.value_or(at.temperature);
    if (spec.set_at->altitude) at.ambient_pressure = spring::ambient_pressure(spec.set_at->altitude.si);
  }
  return at;
}

void add_element(std::string name, decltype(spring::SpringElement::law) law, const file::Origin& origin,
                 SpringModel& model) {
  model.places.add("elements[" + std::to_string(model.unit.elements.size()) + "]", origin,
                   units::Kind::Length);
  model.unit.elements.push_back({std::move(name), std::move(law)});
}

std::optional<double> coil_rate_of(const file::CoilSpringSpec& spec, ResolveReport& report) {
  if (spec.rate) return spec.rate.si;
  const double modulus = spec.shear_modulus
                             ? spec.shear_modulus.si
                             : (spec.material ? spec.material->shear_modulus.value_or(0.0) : 0.0);
  if (spec.wire && spec.mean_diameter && spec.active_coils && modulus > 0.0) {
    spring::CoilGeometry coil;
    coil.wire_diameter = spec.wire.si;
    coil.mean_diameter = spec.mean_diameter.si;
    coil.active_coils = spec.active_coils.value;
    coil.shear_modulus = modulus;
    return spring::coil_rate(coil);
  }
  report.missing.push_back(
      {"the spring curve", "the spring's rate, or its wire, coils and shear modulus", "rate", spec.origin});
  return std::nullopt;
}

/// A spring that is not stacked begins a group of its own; stacked ones stand on the one before.
void add_coils(const file::UnitSpec& unit, SpringModel& model, ResolveReport& report) {
  struct Group {
    spring::CoilStack stack;
    std::string name;
    file::Origin origin;
  };
  std::vector<Group> groups;
  for (const file::CoilSpringSpec& spec : unit.coil_springs) {
    const std::optional<double> rate = coil_rate_of(spec, report);
    if (!rate) continue;
    spring::Coil coil{*rate, std::nullopt};
    if (spec.free_length && spec.solid_length)
      coil.bind_compression = spec.free_length.si - spec.solid_length.si;
    if (groups.empty() || !spec.stacked.value_or(false)) {
      const bool first = groups.empty();
      groups.push_back({{}, first ? "coil" : "coil " + std::to_string(groups.size() + 1), spec.origin});
    }
    groups.back().stack.in_series.push_back(coil);
    groups.back().stack.preload += spec.preload.value_or(0.0);
  }
  for (Group& group : groups) {
    if (!model.coil_element) model.coil_element = model.unit.elements.size();
    add_element(group.name, std::move(group.stack), group.origin, model);
  }
}

std::optional<spring::AirChamber> air_chamber(const file::AirChamberSpec& spec, const SealedAt& at,
                                              FieldPlaces& places, ResolveReport& report) {
  const std::size_t before = report.missing.size();
  const auto need = [&](const file::Quantity& quantity, const char* what, const char* key) {
    if (!quantity) report.missing.push_back({"the air spring", what, key, spec.origin});
  };
  need(spec.pressure, "its pressure setting", "pressure");
  need(spec.bore, "the bore of the chamber", "bore");
  need(spec.length, "the length of the chamber", "length");
  if (report.missing.size() > before) return std::nullopt;

  spring::AirChamber chamber;
  chamber.area = disc_area(spec.bore.si) - disc_area(spec.rod.value_or(0.0));
  chamber.empty_volume = chamber.area * spec.length.si;
  places.add("", spec.origin, units::Kind::Length);
  places.bind("oil_volume", chamber.oil_volume, spec.oil);
  places.add("pressure", spec.pressure.origin, units::Kind::Pressure);
  chamber.pressure = absolute_pressure(spec.pressure, at.ambient_pressure);
  chamber.sealed_temperature = at.temperature;
  return chamber;
}

void add_air(const file::UnitSpec& unit, const Conditions& conditions, SpringModel& model,
             ResolveReport& report) {
  if (!unit.air_spring) return;
  const file::AirSpringSpec& spec = *unit.air_spring;
  if (!spec.positive) {
    report.missing.push_back({"the air spring", "the positive chamber", "positive", spec.origin});
    return;
  }
  const SealedAt at = sealed_at(spec, conditions);
  FieldPlaces positive_places;
  const auto positive = air_chamber(*spec.positive, at, positive_places, report);
  std::optional<spring::AirChamber> negative;
  FieldPlaces negative_places;
  if (spec.negative) negative = air_chamber(*spec.negative, at, negative_places, report);
  if (!positive || (spec.negative && !negative)) return;

  const std::string field = "elements[" + std::to_string(model.unit.elements.size()) + "]";
  model.places.add_all(field + ".positive", positive_places);
  model.places.add_all(field + ".negative", negative_places);
  model.air_element = model.unit.elements.size();
  add_element("air", spring::AirSpring{*positive, negative, std::nullopt}, spec.origin, model);
}

void add_trapped_air(const file::UnitSpec& unit, const Conditions& conditions, SpringModel& model,
                     ResolveReport& report) {
  if (!unit.trapped_air) return;
  const file::TrappedAirSpec& spec = *unit.trapped_air;
  const auto air = leg_air(unit, conditions.ambient_pressure);
  if (!air) {
    report.missing.push_back(
        {"the air over the oil",
         !spec.bore ? "the bore of the tube" : "the oil level, or the outer tube and its oil in the fill",
         !spec.bore ? "bore" : "level", spec.origin});
    return;
  }
  spring::AirChamber chamber;
  chamber.area = air->area;
  chamber.empty_volume = air->volume;
  chamber.pressure = air->pressure;
  chamber.sealed_temperature = conditions.fill_temperature;
  model.trapped_element = model.unit.elements.size();
  add_element("air over the oil", spring::AirSpring{chamber, std::nullopt, std::nullopt}, spec.origin, model);
}

void add_stops(const file::UnitSpec& unit, SpringModel& model) {
  if (unit.top_out && unit.top_out->rate && unit.top_out->length) {
    add_element("top-out", spring::TopOutSpring{unit.top_out->rate.si, unit.top_out->length.si},
                unit.top_out->origin, model);
  }
  if (unit.bump_stop && unit.bump_stop->rate && unit.bump_stop->length) {
    add_element("bump stop",
                spring::BumpStop{unit.travel.si - unit.bump_stop->length.si, unit.bump_stop->rate.si, 0.0},
                unit.bump_stop->origin, model);
  }
}

/// What the reservoir does to the rod: the same pressure that keeps the oil from foaming pushes it out.
void add_rod_force(const file::UnitSpec& unit, const Conditions& conditions, SpringModel& model) {
  if (!unit.reservoir || !unit.rod || !unit.reservoir->kind) return;
  const file::ReservoirSpec& spec = *unit.reservoir;
  const double rod_area = disc_area(unit.rod.si);
  const std::size_t before = model.unit.elements.size();
  if (spec.kind.value == file::ReservoirKind::Gas && spec.pressure && spec.volume) {
    spring::AirChamber gas;
    gas.area = rod_area;
    gas.empty_volume = spec.volume.si;
    gas.pressure = absolute_pressure(spec.pressure, conditions.ambient_pressure);
    gas.sealed_temperature = conditions.fill_temperature;
    add_element("gas on the rod", spring::AirSpring{gas, std::nullopt, std::nullopt}, spec.origin, model);
  }
  if (spec.kind.value == file::ReservoirKind::SprungPiston && spec.piston && spec.spring_force &&
      spec.spring_rate && spec.spring_rate.si > 0.0) {
    const double ratio = rod_area / disc_area(spec.piston.si);
    const double rate = spec.spring_rate.si * ratio * ratio;
    add_element("compensator on the rod",
                spring::CoilStack{{{rate, std::nullopt}}, spec.spring_force.si * ratio / rate}, spec.origin,
                model);
  }
  if (model.unit.elements.size() > before) model.rod_element = before;
}

}  // namespace

std::optional<SpringModel> resolve_springs(const file::JobSpec& job, const file::UnitSpec& unit,
                                           const Conditions& conditions, ResolveReport& report) {
  if (unit.coil_springs.empty() && !unit.air_spring && !unit.trapped_air) return std::nullopt;
  if (!unit.travel) {
    report.missing.push_back({"the spring curve", "the travel of the unit", "travel", unit.origin});
    return std::nullopt;
  }
  SpringModel model;
  model.origin = unit.origin;
  model.places.bind("travel", model.unit.travel, unit.travel);
  model.conditions = {conditions.air_temperature, conditions.ambient_pressure};

  const std::size_t missing_before = report.missing.size();
  add_air(unit, conditions, model, report);
  add_coils(unit, model, report);
  add_trapped_air(unit, conditions, model, report);
  add_stops(unit, model);
  add_rod_force(unit, conditions, model);
  if (report.missing.size() > missing_before || model.unit.elements.empty()) return std::nullopt;

  const Problems problems = spring::problems_in(model.unit);
  if (problems.empty()) return model;
  report.add_refused(job, problems, model.places, unit.origin);
  return std::nullopt;
}

}  // namespace shimwright::resolve
