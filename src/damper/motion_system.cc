#include "damper/motion_system.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "base/check.h"
#include "damper/motion_rates.h"

namespace shimwright::damper::motion {
namespace {

const valve::ValveLaw& piston_of(const DamperLaws& laws) {
  return laws.piston;
}
const valve::ValveLaw& foot_of(const DamperLaws& laws) {
  return *laws.foot;
}

}  // namespace

MotionSystem::MotionSystem(const MotionModel& model, double free_mass)
    : model_(model),
      oil_(model.oil),
      gas_power_(model.reservoir.gas ? model.reservoir.gas->exponent : 1.0),
      free_mass_(free_mass),
      has_foot_(model.laws.front().laws.foot.has_value()),
      has_mass_(model.reservoir.piston && model.reservoir.piston->mass > 0.0),
      piston_law_(model.laws, piston_of) {
  if (has_foot_) foot_law_.emplace(model.laws, foot_of);
  const Squeezed s = oil_.at(holding_pressure(model.reservoir, 0.0, 0.0).value);
  amount_per_flow_ = 1.0 / (s.oil - s.bubbles);
  if (has_mass_) scale_[kTakenRate] = std::max(kScale[kTakenRate], scale_of_piston_rate());
  list_places();
}

/// A free piston swings on the oil that it holds: its rate counts by the pressure that it turns into there,
/// m rate^2 = give p^2, and half of that to be on the safe side. Taken tighter than the pressures it would
/// set every step and change nothing that shows.
double MotionSystem::scale_of_piston_rate() const {
  const FreePiston& piston = *model_.reservoir.piston;
  FullState y{};
  y[kPressureC] = y[kPressureS] = holding_pressure(model_.reservoir, 0.0, 0.0).value;
  const double give = (has_foot_ ? node_s(y) : node_c(y, 0.0)).give;
  return 0.5 * y[kPressureS] * piston.area * std::sqrt(give / piston.mass);
}

void MotionSystem::let_air_out() {
  SW_CHECK(may_let_air_out());
  lets_air_out_ = true;
  list_places();
}

void MotionSystem::list_places() {
  places_ = {kPressureC, kPressureR};
  if (has_foot_) places_.push_back(kPressureS);
  if (lets_air_out_) places_.insert(places_.end(), {kReleasedC, kReleasedR});
  if (lets_air_out_ && has_foot_) places_.push_back(kReleasedS);
  places_.push_back(kTaken);
  if (has_mass_) places_.push_back(kTakenRate);
  if (model_.float_valve) places_.push_back(kLift);
  if (model_.heat) places_.push_back(kTemperature);
  if (rod_is_free()) places_.insert(places_.end(), {kTravel, kSpeed});
}

FullState MotionSystem::rest_state(double travel) const {
  const RestPoint rest = rest_at(model_, travel);
  FullState y{};
  y[kPressureC] = y[kPressureR] = y[kPressureS] = rest.pressure;
  y[kTaken] = rest.reservoir_taken;
  y[kTemperature] = model_.temperature;
  y[kTravel] = travel;
  return y;
}

double MotionSystem::density_at(double temperature) const {
  const auto& laws = model_.laws;
  if (temperature <= laws.front().temperature) return laws.front().density;
  std::size_t i = 0;
  while (i + 1 < laws.size() && temperature >= laws[i + 1].temperature) ++i;
  return laws[i].density + density_slope_at(temperature) * (temperature - laws[i].temperature);
}

double MotionSystem::density_slope_at(double temperature) const {
  const auto& laws = model_.laws;
  if (temperature <= laws.front().temperature) return 0.0;
  for (std::size_t i = 0; i + 1 < laws.size(); ++i)
    if (temperature < laws[i + 1].temperature)
      return (laws[i + 1].density - laws[i].density) / (laws[i + 1].temperature - laws[i].temperature);
  return 0.0;
}

void MotionSystem::events(const FullState& y, std::array<double, kEvents>& g) const {
  g.fill(1.0);
  const double release = model_.oil.release_pressure;
  g[kPistonDrop] = (y[kPressureC] - y[kPressureR]) / 1e5;
  if (has_foot_) g[kFootDrop] = (y[kPressureC] - y[kPressureS]) / 1e5;
  g[kReleaseC] = (y[kPressureC] - release) / 1e5;
  g[kReleaseR] = (y[kPressureR] - release) / 1e5;
  if (model_.reservoir.piston) {
    const FreePiston& piston = *model_.reservoir.piston;
    const double place = y[kTaken] / piston.area;
    g[kInnerStop] = place + piston.travel_in;
    g[kOuterStop] = piston.travel_out - place;
    if (piston.port) g[kPort] = place - piston.port->position;
  }
  // the lock that starts first: the others follow inside it
  if (!model_.restrictions.empty()) {
    double start = model_.restrictions.front().start;
    for (const Restriction& lock : model_.restrictions) start = std::min(start, lock.start);
    g[kLock] = travel_of(y) - start;
  }
  if (has_foot_) g[kReleaseS] = (y[kPressureS] - release) / 1e5;
  if (rod_is_free()) g[kOut] = y[kTravel];
  if (model_.float_valve) {
    const double drop = (y[kPressureC] - y[kPressureR]) * (model_.float_valve->in_compression ? 1.0 : -1.0);
    g[kFloatOpens] = (drop - model_.float_valve->opening_drop) / 1e5;
    g[kFloatFull] = (drop - model_.float_valve->full_drop) / 1e5;
  }
}

Forces MotionSystem::damper_forces(const FullState& y) const {
  const double travel = travel_of(y);
  const double speed = speed_of(y);
  const double ring = model_.piston_area - model_.rod_area;
  Forces f;
  f.hydraulic = y[kPressureC] * model_.piston_area - y[kPressureR] * ring -
                model_.atmospheric_pressure * model_.rod_area;
  f.friction = model_.seal_friction * friction_share(speed, model_.friction_speed).value;
  if (!model_.restrictions.empty()) {
    const double density = density_at(y[kTemperature]);
    for (const Restriction& lock : model_.restrictions)
      f.lock += lock_force(lock, density, travel, speed).force;
  }
  if (model_.outer_air)
    f.air += outer_air_force(*model_.outer_air, model_.atmospheric_pressure, travel).value;
  if (model_.reservoir.gas && model_.reservoir.gas->travel_area > 0.0)
    f.air +=
        (holding_pressure(model_.reservoir, y[kTaken], travel).gas_pressure - model_.atmospheric_pressure) *
        model_.reservoir.gas->travel_area;
  return f;
}

spring::ElementForce MotionSystem::springs_at(double travel) const {
  if (!model_.springs) return {};
  // a step that went astray is rejected by its error; the springs' laws end a little beyond their travel
  if (!(std::abs(travel) <= 2.0 * model_.travel)) return {NAN, NAN, NAN};
  const spring::ForceBreakdown all =
      spring::force_at(model_.springs->unit, model_.springs->conditions, travel);
  return {all.force, all.rate, all.energy};
}

Forces MotionSystem::forces(const FullState& y) const {
  Forces f = damper_forces(y);
  f.springs = springs_at(travel_of(y)).force;
  return f;
}

void MotionSystem::note_drops(const FullState& y) {
  const auto note = [&](double share, bool is_foot) {
    if (share > table_use_.share) table_use_ = {share, is_foot};
  };
  note(piston_law_.share_of_table(y[kPressureC] - y[kPressureR]), false);
  if (has_foot_) note(foot_law_->share_of_table(y[kPressureC] - y[kPressureS]), true);
}

Outcome MotionSystem::TableUse::outcome() const {
  if (share <= 1.0 + 1e-9) return {};
  char note[128];
  std::snprintf(note, sizeof note,
                "the %s valve sees %.3g times the pressure drop that its stack was solved for",
                is_foot ? "foot" : "piston", share);
  return {.status = Status::OutOfRange, .residual = share - 1.0, .note = note};
}

MotionSample MotionSystem::glance(double t, const FullState& y) const {
  MotionSample s;
  s.time = t;
  s.travel = travel_of(y);
  s.speed = speed_of(y);
  const Forces f = forces(y);
  s.force = f.total();
  s.force_hydraulic = f.hydraulic;
  s.force_friction = f.friction;
  s.force_lock = f.lock;
  s.force_air = f.air;
  s.force_springs = f.springs;
  s.p_compression = y[kPressureC];
  s.p_rod = y[kPressureR];
  s.p_reservoir = reservoir_pressure(y);
  for (const Restriction& lock : model_.restrictions)
    s.p_lock = std::max(s.p_lock, lock.outside_pressure +
                                      lock_force(lock, density_at(y[kTemperature]), s.travel, s.speed).drop);
  s.released = y[kReleasedC] + y[kReleasedR] + y[kReleasedS];
  if (model_.reservoir.piston) {
    s.piston_travel = y[kTaken] / model_.reservoir.piston->area;
    s.piston_speed = y[kTakenRate] / model_.reservoir.piston->area;
  }
  s.float_lift = y[kLift];
  s.temperature = y[kTemperature];
  return s;
}

MotionSample MotionSystem::sample(double t, const FullState& y) {
  MotionSample s = glance(t, y);
  s.gas_compression = node_c(y, s.travel).gas_volume();
  s.gas_rod = node_r(y, s.travel).gas_volume();
  if (model_.reservoir.piston && !has_mass_) {
    FullState f;
    rates(y, f);
    s.piston_speed = f[kTaken] / model_.reservoir.piston->area;
  }
  return s;
}

double MotionSystem::stored_energy(const FullState& y) const {
  const double travel = travel_of(y);
  const auto of_node = [&](const Node& node, double compliance) {
    const Squeezed s = oil_.at(node.pressure);
    const double amount = node.oil_volume / s.oil;
    const double p0 = oil::kAtmosphere;
    return amount * s.oil_enthalpy - node.pressure * node.oil_volume + node.air * s.air_enthalpy -
           node.pressure * node.air_volume + 0.5 * compliance * (node.pressure * node.pressure - p0 * p0);
  };
  double energy = of_node(node_c(y, travel), node_c(y, travel).compliance_walls) +
                  of_node(node_r(y, travel), node_r(y, travel).compliance_walls);
  if (has_foot_) energy += of_node(node_s(y), node_s(y).compliance_walls);
  energy += holding_energy(model_.reservoir, y[kTaken], travel);
  energy -= model_.atmospheric_pressure * model_.rod_area * travel;
  if (model_.reservoir.gas)
    energy -= model_.atmospheric_pressure * model_.reservoir.gas->travel_area * travel;
  if (model_.outer_air)
    energy += outer_air_energy(*model_.outer_air, travel) -
              model_.atmospheric_pressure * model_.outer_air->area * travel;
  energy += springs_at(travel).energy;
  if (has_mass_) {
    const FreePiston& piston = *model_.reservoir.piston;
    const double speed = y[kTakenRate] / piston.area;
    energy += 0.5 * piston.mass * speed * speed;
  }
  if (model_.float_valve) energy += floating_energy(*model_.float_valve, y[kLift]);
  if (rod_is_free()) energy += 0.5 * free_mass_ * y[kSpeed] * y[kSpeed];
  return energy;
}

}  // namespace shimwright::damper::motion
