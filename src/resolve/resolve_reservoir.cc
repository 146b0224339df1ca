#include "resolve/resolve_reservoir.h"

#include <algorithm>
#include <numbers>

#include "assembly/fill.h"
#include "resolve/areas.h"
#include "resolve/resolve_leg_air.h"

namespace shimwright::resolve {
namespace {

constexpr double kUsualGas = 3.0;  // of the volume that the rod displaces

/// The inside as the fill states it; nothing when it cannot be.
std::optional<double> room_in(const file::UnitSpec& unit) {
  const file::FillSpaceSpec& spec = *unit.fill->space;
  const file::Quantity& bore = spec.bore ? spec.bore : unit.piston;
  if (!bore || !spec.length) return std::nullopt;
  const assembly::CartridgeFill fill{.bore = bore.si,
                                     .length = spec.length.si,
                                     .rod_diameter = unit.rod.si,
                                     .rod_bore = spec.rod_bore.value_or(0.0),
                                     .rod_inside = spec.rod_inside.value_or(0.0),
                                     .solids = spec.solids.value_or(0.0),
                                     .elsewhere = spec.elsewhere.value_or(0.0)};
  if (!assembly::problems_in(fill).empty()) return std::nullopt;
  return assembly::oil_volume(fill);
}

bool is_open_bath(const file::UnitSpec& unit) {
  return unit.layout.value_or(file::Layout::ClosedCartridge) == file::Layout::OpenBath;
}

void set_gas(double pressure, const file::Quantity& volume, ReservoirModel& model) {
  assembly::Reservoir& reservoir = model.reservoir;
  reservoir.gas_pressure = pressure;
  model.gas_assumed = !volume;
  // a rod without travel displaces nothing: any volume holds the pressure
  const double usual = kUsualGas * reservoir.rod_area * (model.travel > 0.0 ? model.travel : 1.0);
  reservoir.gas_volume = volume.value_or(usual);
}

/// The air over the oil of an open leg, which the leg squeezes beside the rod.
void set_leg_air(const file::UnitSpec& unit, double ambient, ReservoirModel& model) {
  model.follows_oil = false;
  const auto air = leg_air(unit, ambient);
  const auto& spec = unit.trapped_air;
  const double pressure = spec && spec->pressure ? absolute_pressure(spec->pressure, ambient) : ambient;
  set_gas(air ? air->pressure : pressure, {}, model);
  if (!air) return;
  model.gas_assumed = false;
  model.reservoir.gas_volume = air->volume;
  model.reservoir.leg_area = std::max(0.0, air->area - model.reservoir.rod_area);
}

bool set_holding(const file::UnitSpec& unit, double ambient, ReservoirModel& model) {
  assembly::Reservoir& reservoir = model.reservoir;
  if (!unit.reservoir || !unit.reservoir->kind) {
    if (!is_open_bath(unit)) return false;
    set_leg_air(unit, ambient, model);
    return true;
  }
  const file::ReservoirSpec& spec = *unit.reservoir;
  if (spec.piston && spec.stroke) reservoir.capacity = disc_area(spec.piston.si) * spec.stroke.si;
  if (unit.fill && unit.fill->capacity) reservoir.capacity = unit.fill->capacity.si;
  switch (spec.kind.value) {
    case file::ReservoirKind::Gas:
      if (!spec.pressure) return false;
      set_gas(absolute_pressure(spec.pressure, ambient), spec.volume, model);
      return true;
    case file::ReservoirKind::AirOverOil:
      set_gas(spec.pressure ? absolute_pressure(spec.pressure, ambient) : ambient, spec.volume, model);
      return true;
    case file::ReservoirKind::SprungPiston:
      break;
  }
  if (!spec.spring_force || !spec.piston) return false;
  reservoir.piston_area = disc_area(spec.piston.si);
  reservoir.spring_force = spec.spring_force.si;
  reservoir.spring_rate = spec.spring_rate.value_or(0.0);
  reservoir.outside_pressure = ambient;
  return true;
}

}  // namespace

OilInUnit oil_in_unit(const file::UnitSpec& unit) {
  if (unit.fill && unit.fill->space) {
    if (const auto room = room_in(unit)) return {*room, false};
  }
  if (unit.fill && unit.fill->cartridge) return {unit.fill->cartridge.si, false};
  const file::MotionSpec motion = unit.motion.value_or(file::MotionSpec{});
  const double bore = disc_area(unit.piston.value_or(0.0));
  const double ring = std::max(0.0, bore - disc_area(unit.rod.value_or(0.0)));
  const double compression =
      motion.compression_volume.value_or(bore * (unit.travel.value_or(0.0) + kSpareLength));
  const double behind = motion.rod_volume.value_or(ring * kSpareLength);
  return {compression + behind + motion.reservoir_oil.value_or(kReservoirOil),
          !motion.compression_volume || !motion.rod_volume};
}

double growth_at(const ReservoirModel& model, const oil::OilModel& oil, double temperature) {
  if (!(model.oil_volume > 0.0)) return 0.0;
  assembly::Warming warming;
  warming.oil_volume = model.oil_volume;
  warming.fill_density = oil::density(oil, model.set_temperature);
  warming.work_density = oil::density(oil, temperature);
  warming.body_expansion = model.body_expansion;
  warming.rise = temperature - model.set_temperature;
  return assembly::oil_growth(warming);
}

assembly::ReservoirState reservoir_at(const ReservoirModel& model, const oil::OilModel& oil, double travel,
                                      double temperature) {
  const double gas = model.follows_oil ? temperature : model.set_temperature;
  return assembly::reservoir_at(model.reservoir, travel, growth_at(model, oil, temperature), gas);
}

double set_pressure_for(const ReservoirModel& model, const oil::OilModel& oil, double wanted,
                        double temperature) {
  const double gas = model.follows_oil ? temperature : model.set_temperature;
  return assembly::set_pressure_for(model.reservoir, wanted, growth_at(model, oil, temperature), gas);
}

std::optional<ReservoirModel> resolve_reservoir(const file::UnitSpec& unit, const Conditions& conditions) {
  if (!unit.rod || !(unit.rod.si > 0.0)) return std::nullopt;
  ReservoirModel model;
  model.reservoir.rod_area = disc_area(unit.rod.si);
  model.travel = unit.travel.value_or(0.0);
  model.set_temperature = model.reservoir.set_temperature = conditions.fill_temperature;
  model.body_expansion =
      unit.fill ? unit.fill->body_expansion.value_or(kAluminiumExpansion) : kAluminiumExpansion;
  if (!set_holding(unit, conditions.ambient_pressure, model)) return std::nullopt;
  if (model.follows_oil) {
    const OilInUnit oil = oil_in_unit(unit);
    model.oil_volume = oil.volume;
    model.oil_assumed = oil.assumed;
  }
  if (!assembly::problems_in(model.reservoir).empty()) return std::nullopt;
  return model;
}

}  // namespace shimwright::resolve
