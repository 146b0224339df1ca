#include "damper/motion_rates.h"

#include <algorithm>
#include <cmath>

namespace shimwright::damper::motion {

MotionSystem::Node MotionSystem::node_at(double pressure, double volume, double compliance,
                                         double air) const {
  Node n;
  n.pressure = pressure;
  n.air = air;
  n.compliance_walls = compliance;
  n.squeezed = oil_.at(pressure);
  const Squeezed& s = n.squeezed;
  n.air_volume = air * s.air;
  n.oil_volume = volume + compliance * (pressure - oil::kAtmosphere) - n.air_volume;
  const double per_oil = 1.0 / s.oil;
  n.amount = n.oil_volume * per_oil;
  n.give_by_volume = s.oil_give * per_oil;
  n.give = compliance + n.oil_volume * n.give_by_volume + n.air_volume * s.air_give;
  return n;
}

// Air that came out of the oil: a step may leave a trace less than none, which at hardly any pressure would
// be a room that shrinks as it is let go.

MotionSystem::Node MotionSystem::node_c(const FullState& y, double travel) const {
  double volume = model_.compression.volume - model_.piston_area * travel;
  double compliance = model_.compression.compliance;
  double air = model_.compression.trapped_air + std::max(0.0, y[kReleasedC]);
  if (!has_foot_) {
    volume += model_.reservoir.oil.volume + y[kTaken];
    compliance += model_.reservoir.oil.compliance;
    air += model_.reservoir.oil.trapped_air;
  }
  return node_at(y[kPressureC], volume, compliance, air);
}

MotionSystem::Node MotionSystem::node_r(const FullState& y, double travel) const {
  const double ring = model_.piston_area - model_.rod_area;
  return node_at(y[kPressureR], model_.rod.volume + ring * travel, model_.rod.compliance,
                 model_.rod.trapped_air + std::max(0.0, y[kReleasedR]));
}

MotionSystem::Node MotionSystem::node_s(const FullState& y) const {
  return node_at(y[kPressureS], model_.reservoir.oil.volume + y[kTaken], model_.reservoir.oil.compliance,
                 model_.reservoir.oil.trapped_air + std::max(0.0, y[kReleasedS]));
}

WarmLaw::Point MotionSystem::amount_of(WarmLaw::Point flow) const {
  return {flow.q * amount_per_flow_, flow.by_drop * amount_per_flow_, flow.by_temperature * amount_per_flow_};
}

OpeningFlow MotionSystem::amount_of(OpeningFlow flow) const {
  return {flow.q * amount_per_flow_, flow.by_drop * amount_per_flow_, flow.by_area * amount_per_flow_};
}

MotionSystem::Flows MotionSystem::flows_at(const FullState& y) {
  Flows w;
  w.travel = travel_of(y);
  w.speed = speed_of(y);
  const double drop = y[kPressureC] - y[kPressureR];
  const double temperature = y[kTemperature];

  // chambers
  w.c = node_c(y, w.travel);
  w.r = node_r(y, w.travel);
  if (has_foot_) w.s = node_s(y);
  const Node& held = has_foot_ ? w.s : w.c;

  // between them
  w.piston = amount_of(piston_law_.at(drop, temperature));
  if (has_foot_) w.foot = amount_of(foot_law_->at(y[kPressureC] - y[kPressureS], temperature));
  if (model_.position_bleed) {
    w.bleed_open = bleed_area(*model_.position_bleed, w.travel);
    w.bleed = amount_of(
        opening_flow(model_.position_bleed->discharge, w.bleed_open.value, density_at(temperature), drop));
  }
  if (model_.float_valve) {
    const FloatingValve& floating = *model_.float_valve;
    w.float_sign = floating.in_compression ? 1.0 : -1.0;
    w.lift_goal = floating_lift(floating, w.float_sign * drop);
    w.float_rate = (w.lift_goal.value - y[kLift]) / floating.settle_time;
    w.float_flow = w.float_sign * floating.swept_area * w.float_rate;
  }

  // air coming out of the oil
  if (lets_air_out_) {
    const double ring = model_.piston_area - model_.rod_area;
    const double behind = model_.reservoir.oil.volume + y[kTaken];
    const double front = model_.compression.volume - model_.piston_area * w.travel;
    w.release_c = release_rate(model_.oil, y[kPressureC], y[kReleasedC], has_foot_ ? front : front + behind);
    w.release_r = release_rate(model_.oil, y[kPressureR], y[kReleasedR], model_.rod.volume + ring * w.travel);
    if (has_foot_) w.release_s = release_rate(model_.oil, y[kPressureS], y[kReleasedS], behind);
  }

  // what holds the reservoir
  w.holding = holding_pressure(model_.reservoir, y[kTaken], w.travel, &gas_power_);
  if (model_.reservoir.piston) {
    const FreePiston& piston = *model_.reservoir.piston;
    if (has_mass_) {
      const Sloped share = friction_share(y[kTakenRate], piston.friction_speed * piston.area);
      const StopLoss stop = stop_loss(piston, y[kTaken]);
      w.piston_friction = {piston.friction / piston.area * share.value + stop.by_rate * y[kTakenRate],
                           piston.friction / piston.area * share.slope + stop.by_rate};
      w.stop_by_taken = stop.by_rate_and_taken * y[kTakenRate];
    }
    if (piston.port) {
      w.port_open = port_area(*piston.port, y[kTaken] / piston.area);
      w.port = amount_of(opening_flow(piston.port->discharge, w.port_open.value, density_at(temperature),
                                      held.pressure - piston.port->outside_pressure));
      w.enthalpy_out = oil_.at(piston.port->outside_pressure).oil_enthalpy;
    }
  }

  w.forces = damper_forces(y);
  w.heat = heat_of(y, w);
  return w;
}

/// Work that is lost on the way.
double MotionSystem::heat_of(const FullState& y, const Flows& w) const {
  const Node& held = has_foot_ ? w.s : w.c;
  double heat = w.through_piston() * (w.c.squeezed.oil_enthalpy - w.r.squeezed.oil_enthalpy);
  if (model_.float_valve)
    heat -= model_.float_valve->swept_area * w.float_rate * floating_drop(*model_.float_valve, y[kLift]);
  if (has_foot_) heat += w.foot.q * (w.c.squeezed.oil_enthalpy - w.s.squeezed.oil_enthalpy);
  heat += w.port.q * (held.squeezed.oil_enthalpy - w.enthalpy_out);
  heat -= w.release_c.rate * w.c.squeezed.air_enthalpy + w.release_r.rate * w.r.squeezed.air_enthalpy +
          w.release_s.rate * w.s.squeezed.air_enthalpy;
  heat += w.piston_friction.value * y[kTakenRate];
  return heat + (w.forces.friction + w.forces.lock) * w.speed;
}

void MotionSystem::rates(const FullState& y, FullState& f) {
  rates_of(y, flows_at(y), f);
}

void MotionSystem::rates_of(const FullState& y, const Flows& w, FullState& f) const {
  f.fill(0.0);
  const double ring = model_.piston_area - model_.rod_area;
  const double q = w.through_piston();

  // what each chamber has to find room for, and the pressure that makes it
  double into_c = model_.piston_area * w.speed + w.c.squeezed.air * w.release_c.rate - w.c.squeezed.oil * q;
  const double into_r = -ring * w.speed + w.r.squeezed.air * w.release_r.rate + w.r.squeezed.oil * q;
  f[kPressureR] = into_r / w.r.give;
  double into_s = 0.0;
  if (has_foot_) {
    into_c -= w.c.squeezed.oil * w.foot.q;
    into_s = w.s.squeezed.oil * (w.foot.q - w.port.q) + w.s.squeezed.air * w.release_s.rate;
    f[kPressureC] = into_c / w.c.give;
  } else {
    into_s = into_c - w.c.squeezed.oil * w.port.q;
  }

  // the reservoir's side
  const Node& held = has_foot_ ? w.s : w.c;
  const int place = has_foot_ ? kPressureS : kPressureC;
  if (has_mass_) {
    const FreePiston& piston = *model_.reservoir.piston;
    f[place] = (into_s - y[kTakenRate]) / held.give;
    f[kTaken] = y[kTakenRate];
    f[kTakenRate] =
        (held.pressure - w.holding.value - w.piston_friction.value) * piston.area * piston.area / piston.mass;
  } else {
    const double give = 1.0 / w.holding.by_taken;
    const double by_drive = w.holding.by_travel * w.speed;
    f[place] = (into_s + give * by_drive) / (held.give + give);
    f[kTaken] = (f[place] - by_drive) * give;
  }

  f[kReleasedC] = w.release_c.rate;
  f[kReleasedR] = w.release_r.rate;
  f[kReleasedS] = w.release_s.rate;
  f[kLift] = w.float_rate;
  if (model_.heat)
    f[kTemperature] = (w.heat - model_.heat->loss * (y[kTemperature] - model_.heat->air_temperature)) /
                      model_.heat->capacity;
  // the springs' work is known without summing: what reads the work adds it (motion_record)
  const double force = w.forces.of_damper();
  if (rod_is_free()) {
    f[kTravel] = w.speed;
    f[kSpeed] = -(force + springs_at(w.travel).force) / free_mass_;
  }
  f[kWork] = force * w.speed;
  f[kHeat] = w.heat;
  f[kLost] = w.port.q;
}

}  // namespace shimwright::damper::motion
