#include "job/run_spring.h"

#include <fmt/core.h>

#include "spring/spring_change.h"

namespace shimwright::job {
namespace {

constexpr int kCurvePoints = 61;

// the changes that a technician asks about (DESIGN, PHYSICS 6)
constexpr double kOilChange = 5e-6;          // 5 mL
constexpr double kPressureChange = 10e3;     // 0.1 bar
constexpr double kTemperatureChange = 10.0;  // 10 K
constexpr double kPreloadChange = 1e-3;      // 1 mm

document::SpringEffect effect_of(const resolve::SpringModel& model, std::string what, document::Value step,
                                 const spring::SpringChange& change, double sag_travel) {
  const auto at = [&](double travel) {
    return spring::force_change(change, model.unit, model.conditions, travel);
  };
  document::SpringEffect effect;
  effect.what = std::move(what);
  effect.change = std::move(step);
  effect.at_sag = at(sag_travel);
  effect.at_middle = at(0.5 * model.unit.travel);
  effect.at_end = at(model.unit.travel);
  return effect;
}

void add_air_effects(const resolve::SpringModel& model, std::size_t element, double sag_travel,
                     const document::Phrase& phrase, document::SpringResult& result) {
  const std::string where = element == model.air_element ? "the positive chamber" : "the air over the oil";
  result.effects.push_back(effect_of(model,
                                     fmt::format("{} more oil in {}", phrase.volume(kOilChange), where),
                                     document::computed(kOilChange, units::Kind::Volume),
                                     {.element = element, .oil_volume = kOilChange}, sag_travel));
  result.effects.push_back(effect_of(
      model, fmt::format("{} more in {}", phrase(kPressureChange, units::Kind::PressureDifference), where),
      document::computed(kPressureChange, units::Kind::PressureDifference),
      {.element = element, .pressure = kPressureChange}, sag_travel));
}

}  // namespace

document::SpringResult spring_result(const resolve::SpringModel& model, double sag_travel,
                                     const document::Phrase& phrase) {
  document::SpringResult result;
  result.travel = model.unit.travel;
  for (const spring::SpringElement& element : model.unit.elements) result.names.push_back(element.name);

  const spring::SpringCurve curve = spring::spring_curve(model.unit, model.conditions, kCurvePoints);
  for (const spring::ForceBreakdown& point : curve.points) {
    document::SpringPoint& row = result.points.emplace_back();
    row.travel = point.travel;
    row.force = point.force;
    row.rate = point.rate;
    for (const spring::ElementForce& element : point.elements) row.shares.push_back(element.force);
  }
  result.outcome = curve.outcome;

  const spring::UnitLimits limits = spring::unit_limits(model.unit, model.conditions);
  result.coil_bind_travel = limits.coil_bind_travel;
  result.air_end_travel = limits.air_end_travel;
  result.preload_force = limits.force_out;
  result.end_force = limits.force_in;

  if (model.air_element) {
    const auto& air = std::get<spring::AirSpring>(model.unit.elements[*model.air_element].law);
    result.positive_pressure = spring::air_pressures(air, model.conditions, 0.0).positive;
    add_air_effects(model, *model.air_element, sag_travel, phrase, result);
  }
  if (model.trapped_element) {
    result.effects.push_back(
        effect_of(model, fmt::format("{} more oil over the damper", phrase.volume(kOilChange)),
                  document::computed(kOilChange, units::Kind::Volume),
                  {.element = *model.trapped_element, .oil_volume = kOilChange}, sag_travel));
  }
  if (model.coil_element) {
    result.effects.push_back(effect_of(model, fmt::format("{} more preload", phrase.length(kPreloadChange)),
                                       document::computed(kPreloadChange, units::Kind::Length),
                                       {.element = *model.coil_element, .preload = kPreloadChange},
                                       sag_travel));
  }
  result.effects.push_back(effect_of(
      model, fmt::format("{} warmer", phrase(kTemperatureChange, units::Kind::TemperatureDifference)),
      document::computed(kTemperatureChange, units::Kind::TemperatureDifference),
      {.temperature = kTemperatureChange}, sag_travel));
  return result;
}

}  // namespace shimwright::job
