#include "resolve/resolve_fill.h"

#include <numbers>

namespace shimwright::resolve {
namespace {

/// Linear expansion of an aluminium body [1/K]. From memory: 23e-6.
constexpr double kAluminium = 23e-6;

double disc_area(double diameter) {
  return 0.25 * std::numbers::pi * diameter * diameter;
}

std::optional<assembly::CartridgeFill> cartridge_of(const file::FillSpaceSpec& spec,
                                                    const file::UnitSpec& unit, FieldPlaces& places,
                                                    ResolveReport& report) {
  const file::Quantity& bore = spec.bore ? spec.bore : unit.piston;
  if (!bore || !spec.length || !spec.rod_inside) {
    const char* what = !bore          ? "the bore"
                       : !spec.length ? "the length"
                                      : "the length of rod that stands in it";
    const char* key = !bore ? "bore" : !spec.length ? "length" : "rod_inside";
    report.missing.push_back({"the fill of \"" + unit.name.value + "\"", what, key, spec.origin});
    return std::nullopt;
  }
  assembly::CartridgeFill fill;
  places.bind("cartridge.bore", fill.bore, bore);
  places.bind("cartridge.length", fill.length, spec.length);
  places.bind("cartridge.rod_inside", fill.rod_inside, spec.rod_inside);
  places.bind("cartridge.rod_bore", fill.rod_bore, spec.rod_bore);
  places.bind("cartridge.rod_diameter", fill.rod_diameter, unit.rod);
  places.bind("cartridge.solids", fill.solids, spec.solids);
  places.bind("cartridge.elsewhere", fill.elsewhere, spec.elsewhere);
  return fill;
}

std::optional<assembly::OuterTube> tube_of(const file::FillTubeSpec& spec, const file::UnitSpec& unit,
                                           FieldPlaces& places, ResolveReport& report) {
  if (!spec.bore || !spec.height || !spec.level) {
    const char* what = !spec.bore ? "the bore" : !spec.height ? "the height" : "the level";
    const char* key = !spec.bore ? "bore" : !spec.height ? "height" : "level";
    report.missing.push_back({"the fill of \"" + unit.name.value + "\"", what, key, spec.origin});
    return std::nullopt;
  }
  assembly::OuterTube tube;
  places.bind("tube.bore", tube.bore, spec.bore);
  places.bind("tube.height", tube.height, spec.height);
  places.add("tube", spec.origin, units::Kind::Length);
  for (const file::StandingSpec& body : spec.standing) {
    tube.standing.push_back({body.diameter.si, body.bottom.value_or(0.0), body.top.value_or(spec.height.si)});
  }
  return tube;
}

assembly::Observation observation_of(const file::AcceptanceSpec& spec, FieldPlaces& places) {
  assembly::Observation seen;
  seen.comes_out = static_cast<assembly::ComesOut>(spec.rod_comes_out.value_or(file::ComesOut::Fully));
  places.bind("observation.short_by", seen.short_by, spec.short_by);
  seen.bubbles = static_cast<assembly::Bubbles>(spec.bubbles.value_or(file::BubblesSeen::None));
  if (spec.purged) places.bind("observation.purged", seen.purged.emplace(), spec.purged);
  if (spec.drag) seen.drag = static_cast<assembly::Drag>(spec.drag.value);
  if (spec.bled_for) places.bind("observation.bled_for", seen.bled_for.emplace(), spec.bled_for);
  seen.oil_outside = spec.oil_outside.value_or(false);
  places.add("observation", spec.origin, units::Kind::Length);
  return seen;
}

// the two modules list the same words in the same order
static_assert(static_cast<int>(file::ComesOut::NotAtAll) == static_cast<int>(assembly::ComesOut::NotAtAll));
static_assert(static_cast<int>(file::BubblesSeen::Continue) == static_cast<int>(assembly::Bubbles::Continue));
static_assert(static_cast<int>(file::DragFelt::Notchy) == static_cast<int>(assembly::Drag::Notchy));

std::optional<double> capacity_of(const file::UnitSpec& unit) {
  if (unit.fill->capacity) return unit.fill->capacity.si;
  if (unit.reservoir && unit.reservoir->piston && unit.reservoir->stroke) {
    return disc_area(unit.reservoir->piston.si) * unit.reservoir->stroke.si;
  }
  return std::nullopt;
}

double return_force_of(const file::UnitSpec& unit, double ambient) {
  if (!unit.reservoir || !unit.reservoir->kind) return 0.0;
  const file::ReservoirSpec& spec = *unit.reservoir;
  const double rod_area = disc_area(unit.rod.si);
  if (spec.kind.value == file::ReservoirKind::Gas && spec.pressure) {
    return (absolute_pressure(spec.pressure, ambient) - ambient) * rod_area;
  }
  if (spec.kind.value == file::ReservoirKind::SprungPiston && spec.spring_force && spec.piston) {
    return spec.spring_force.si / disc_area(spec.piston.si) * rod_area;
  }
  return 0.0;
}

void append(Problems found, const std::string& prefix, Problems& problems) {
  for (Problem& problem : found) {
    problem.field = prefix + "." + problem.field;
    problems.push_back(std::move(problem));
  }
}

}  // namespace

std::optional<FillModel> resolve_fill(const file::JobSpec& job, const file::UnitSpec& unit,
                                      const Conditions& conditions, const oil::OilModel* oil,
                                      ResolveReport& report) {
  if (!unit.fill) return std::nullopt;
  if (!unit.rod || !unit.travel) {
    report.missing.push_back({"the fill of \"" + unit.name.value + "\"",
                              !unit.rod ? "the rod's diameter" : "the travel", !unit.rod ? "rod" : "travel",
                              unit.origin});
    return std::nullopt;
  }
  const file::FillSpec& spec = *unit.fill;
  FillModel model;
  model.spec = &spec;
  model.rod_diameter = unit.rod.si;
  model.stroke = unit.travel.si;
  model.capacity = capacity_of(unit);
  model.body_expansion = spec.body_expansion.value_or(kAluminium);
  model.fill_temperature = conditions.fill_temperature;
  model.working_temperature = conditions.oil_temperature;
  model.return_force = return_force_of(unit, conditions.ambient_pressure);
  model.seal_drag = unit.seal_friction.value_or(0.0);
  if (oil != nullptr) {
    model.fill_density = oil::density(*oil, conditions.fill_temperature);
    model.work_density = oil::density(*oil, conditions.oil_temperature);
  }
  if (spec.space) model.cartridge = cartridge_of(*spec.space, unit, model.places, report);
  if (spec.tube) {
    model.tube = tube_of(*spec.tube, unit, model.places, report);
    model.tube_level = spec.tube->level.value_or(0.0);
  }
  if (spec.acceptance) model.observation = observation_of(*spec.acceptance, model.places);

  Problems problems;
  if (model.cartridge) append(assembly::problems_in(*model.cartridge), "cartridge", problems);
  if (model.tube) append(assembly::problems_in(*model.tube), "tube", problems);
  if (model.observation) {
    const assembly::TriedCartridge cartridge{model.rod_diameter, model.stroke, 1e-3, model.return_force,
                                             model.seal_drag};
    append(assembly::problems_in(*model.observation, cartridge), "observation", problems);
  }
  if (problems.empty()) return model;
  report.add_refused(job, problems, model.places, spec.origin);
  return std::nullopt;
}

}  // namespace shimwright::resolve
