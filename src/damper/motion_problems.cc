#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "damper/motion_elements.h"
#include "damper/motion_model.h"
#include "num/bounds.h"
#include "num/curve.h"

namespace shimwright::damper {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

/// Fields of one part, each under the part's name.
class Part {
 public:
  Part(num::Bounds& bounds, std::string name) : bounds_(bounds), name_(std::move(name)) {}
  void positive(const char* field, double got) const {
    const bool fine = got > 0.0 && std::isfinite(got);
    if (!fine) bounds_.add({name_ + field, got, 0.0, "more than zero"});
  }
  void not_negative(const char* field, double got) const {
    bounds_.check(name_ + field, got, 0.0, std::numeric_limits<double>::max(), "zero or more");
  }
  void within(const char* field, double got, double low, double high, const char* allowed) const {
    bounds_.check(name_ + field, got, low, high, allowed);
  }

 private:
  num::Bounds& bounds_;
  std::string name_;
};

void check_chamber(const Part& part, const MotionChamber& chamber) {
  part.not_negative("volume", chamber.volume);
  part.not_negative("compliance", chamber.compliance);
  part.within("trapped_air", chamber.trapped_air, 0.0, std::max(0.0, chamber.volume),
              "zero to the chamber's volume");
}

void check_oil(const Part& part, const MotionOil& oil) {
  part.positive("bulk_modulus", oil.bulk_modulus);
  part.within("air_exponent", oil.air_exponent, 1.0, 1.67, "1 (slow) to 1.67");
  part.within("entrained_air", oil.entrained_air, 0.0, 0.5, "zero to a half");
  part.within("bunsen", oil.bunsen, 0.0, 1.0, "zero to one");
  part.not_negative("saturation_pressure", oil.saturation_pressure);
  part.not_negative("release_pressure", oil.release_pressure);
  part.positive("release_time", oil.release_time);
  part.positive("return_time", oil.return_time);
}

void check_piston(const Part& part, const FreePiston& piston) {
  part.positive("area", piston.area);
  part.not_negative("mass", piston.mass);
  part.not_negative("friction", piston.friction);
  if (piston.mass == 0.0)
    part.within("friction", piston.friction, 0.0, 0.0, "zero, or state the piston's mass");
  part.positive("friction_speed", piston.friction_speed);
  part.not_negative("spring_rate", piston.spring_rate);
  part.not_negative("travel_in", piston.travel_in);
  part.positive("travel_out", piston.travel_out);
  part.positive("stop_rate", piston.stop_rate);
  part.within("stop_loss", piston.stop_loss, 0.0, 1.0, "zero to one");
  if (!piston.port) return;
  part.positive("port.opening_length", piston.port->opening_length);
  part.positive("port.area", piston.port->area);
  part.within("port.discharge", piston.port->discharge, 1e-3, 1.0, "more than zero, at most one");
  part.positive("port.outside_pressure", piston.port->outside_pressure);
}

void check_reservoir(num::Bounds& bounds, const MotionModel& model) {
  const MotionReservoir& reservoir = model.reservoir;
  const Part part(bounds, "reservoir.");
  check_chamber(Part(bounds, "reservoir.oil."), reservoir.oil);
  part.positive("dry_pressure", reservoir.dry_pressure);
  if (reservoir.gas) {
    const GasCushion& gas = *reservoir.gas;
    part.positive("gas.pressure", gas.pressure);
    part.within("gas.exponent", gas.exponent, 1.0, 1.67, "1 (slow) to 1.67");
    part.not_negative("gas.travel_area", gas.travel_area);
    const double taken = (model.rod_area + gas.travel_area) * model.travel;
    part.within("gas.volume", gas.volume, 1.02 * taken, kInfinity,
                "more than the rod displaces over its travel");
  }
  if (reservoir.piston) {
    check_piston(Part(bounds, "reservoir.piston."), *reservoir.piston);
    if (!reservoir.gas) part.positive("piston.spring_rate", reservoir.piston->spring_rate);
  }
  if (!reservoir.gas && !reservoir.piston)
    bounds.add({"reservoir", 0.0, 1.0, "gas, a free piston, or both"});
  else if (!reservoir.piston || reservoir.piston->area > 0.0)
    part.positive("pressure", motion::holding_pressure(reservoir, 0.0, 0.0).value);
}

void check_laws(num::Bounds& bounds, const MotionModel& model) {
  if (model.laws.empty()) {
    bounds.add({"laws", 0.0, 1.0, "at least one"});
    return;
  }
  for (std::size_t i = 0; i < model.laws.size(); ++i) {
    const Part part(bounds, "laws[" + std::to_string(i) + "].");
    part.positive("density", model.laws[i].density);
    part.positive("temperature", model.laws[i].temperature);
    if (i > 0 && !(model.laws[i].temperature > model.laws[i - 1].temperature))
      bounds.add({"laws[" + std::to_string(i) + "].temperature", model.laws[i].temperature,
                  model.laws[i - 1].temperature, "above the one before"});
    if (model.laws[i].laws.foot.has_value() != model.laws[0].laws.foot.has_value())
      bounds.add({"laws[" + std::to_string(i) + "].laws.foot", 0.0, 1.0, "in all laws or in none"});
  }
}

void check_extras(num::Bounds& bounds, const MotionModel& model) {
  if (model.heat) {
    const Part part(bounds, "heat.");
    part.positive("capacity", model.heat->capacity);
    part.not_negative("loss", model.heat->loss);
    part.positive("air_temperature", model.heat->air_temperature);
  }
  if (model.float_valve) {
    const FloatingValve& valve = *model.float_valve;
    const Part part(bounds, "float_valve.");
    part.positive("swept_area", valve.swept_area);
    part.positive("gap", valve.gap);
    part.not_negative("opening_drop", valve.opening_drop);
    part.within("full_drop", valve.full_drop, valve.opening_drop + 1.0, 1e9,
                "at least 1 Pa above opening_drop");
    part.positive("settle_time", valve.settle_time);
  }
  for (std::size_t i = 0; i < model.restrictions.size(); ++i) {
    const Restriction& lock = model.restrictions[i];
    const Part part(bounds, "restrictions[" + std::to_string(i) + "].");
    part.positive("area", lock.area);
    part.positive("opening_start", lock.opening_start);
    part.positive("opening_end", lock.opening_end);
    part.within("discharge", lock.discharge, 1e-3, 1.0, "more than zero, at most one");
    part.within("end", lock.end, std::nextafter(lock.start, kInfinity), kInfinity, "beyond its start");
  }
  if (model.position_bleed) {
    const PositionBleed& bleed = *model.position_bleed;
    const Part part(bounds, "position_bleed.");
    part.within("discharge", bleed.discharge, 1e-3, 1.0, "more than zero, at most one");
    if (bleed.travel.size() < 2 || !num::strictly_rises(bleed.travel) ||
        bleed.area.size() != bleed.travel.size())
      bounds.add({"position_bleed.travel", static_cast<double>(bleed.travel.size()), 2.0,
                  "two or more, rising, as many as areas"});
    for (const double area : bleed.area) part.not_negative("area", area);
  }
  if (model.outer_air) {
    const Part part(bounds, "outer_air.");
    part.positive("area", model.outer_air->area);
    part.positive("pressure", model.outer_air->pressure);
    part.within("exponent", model.outer_air->exponent, 1.0, 1.67, "1 (slow) to 1.67");
    part.within("volume", model.outer_air->volume, 1.02 * model.outer_air->area * model.travel, kInfinity,
                "more than the leg takes up over its travel");
  }
  if (model.springs)
    for (const Problem& problem : spring::problems_in(model.springs->unit))
      bounds.add({"springs." + problem.field, problem.got, problem.limit, problem.allowed});
}

void check_at_rest(num::Bounds& bounds, const MotionModel& model) {
  const Part part(bounds, "");
  part.positive("piston_area", model.piston_area);
  part.within("rod_area", model.rod_area, 0.0, std::nextafter(model.piston_area, 0.0),
              "zero to less than the piston's area");
  part.positive("travel", model.travel);
  part.positive("atmospheric_pressure", model.atmospheric_pressure);
  part.not_negative("seal_friction", model.seal_friction);
  part.positive("friction_speed", model.friction_speed);
  part.positive("temperature", model.temperature);
  check_oil(Part(bounds, "oil."), model.oil);
  check_chamber(Part(bounds, "compression."), model.compression);
  check_chamber(Part(bounds, "rod."), model.rod);

  // room for the piston at both ends; no chamber may shrink to nothing
  part.within("compression.volume", model.compression.volume, 1.02 * model.piston_area * model.travel,
              kInfinity, "more than the piston sweeps over its travel");
  part.positive("rod.volume", model.rod.volume);
  check_reservoir(bounds, model);
  check_extras(bounds, model);
}

}  // namespace

Problems validate_at_rest(const MotionModel& model) {
  num::Bounds bounds;
  check_at_rest(bounds, model);
  return bounds.take();
}

Problems validate(const MotionModel& model) {
  num::Bounds bounds;
  check_at_rest(bounds, model);
  check_laws(bounds, model);
  if (!model.laws.empty() && model.laws.front().laws.foot)
    Part(bounds, "").positive("reservoir.oil.volume", model.reservoir.oil.volume);
  return bounds.take();
}

std::vector<LawsAt> laws_over_temperature(const DamperModel& model, const DamperStacks& stacks,
                                          const oil::OilModel& oil, std::span<const double> temperatures,
                                          const valve::LawOptions& options) {
  std::vector<LawsAt> laws;
  for (const double temperature : temperatures) {
    const oil::Liquid liquid = oil::liquid_at(oil, temperature);
    laws.push_back({temperature, liquid.density, damper_laws(model, stacks, liquid, options)});
  }
  return laws;
}

}  // namespace shimwright::damper
