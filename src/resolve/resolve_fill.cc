#include "resolve/resolve_fill.h"

#include <algorithm>

#include "resolve/areas.h"
#include "resolve/resolve_leg_air.h"

namespace shimwright::resolve {
namespace {

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
  const bool has_level = outer_level(unit) || unit.fill->outer;
  if (!spec.bore || !spec.height || !has_level) {
    const char* what = !spec.bore ? "the bore" : !spec.height ? "the height" : "the level, or the oil";
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

/// What pushes the rod out by itself: the oil under gas or under the compensator's spring. An open bath has
/// nothing of the kind.
double return_force_of(const ReservoirModel& model, double ambient) {
  if (!model.follows_oil) return 0.0;
  const double pressure = assembly::reservoir_at(model.reservoir, 0.0, 0.0, model.set_temperature).pressure;
  return std::max(0.0, (pressure - ambient) * model.reservoir.rod_area);
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
  model.reservoir = resolve_reservoir(unit, conditions);
  model.has_purge_port = unit.motion && unit.motion->relief_port;
  model.body_expansion = spec.body_expansion.value_or(kAluminiumExpansion);
  model.fill_temperature = conditions.fill_temperature;
  model.working_temperature = conditions.oil_temperature;
  if (model.reservoir) model.return_force = return_force_of(*model.reservoir, conditions.ambient_pressure);
  model.seal_drag = unit.seal_friction.value_or(0.0);
  if (oil != nullptr) {
    model.fill_density = oil::density(*oil, conditions.fill_temperature);
    model.work_density = oil::density(*oil, conditions.oil_temperature);
  }
  if (spec.space) model.cartridge = cartridge_of(*spec.space, unit, model.places, report);
  if (spec.tube) model.tube = tube_of(*spec.tube, unit, model.places, report);
  model.level = outer_level(unit);
  if (spec.acceptance) model.observation = observation_of(*spec.acceptance, model.places);

  Problems problems;
  if (model.cartridge) append(assembly::problems_in(*model.cartridge), "cartridge", problems);
  if (model.tube) append(assembly::problems_in(*model.tube), "tube", problems);
  if (model.tube && model.level && (*model.level > model.tube->height || *model.level < 0.0))
    problems.push_back({"tube", *model.level, model.tube->height, "a level inside the tube"});
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
