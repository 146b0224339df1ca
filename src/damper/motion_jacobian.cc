#include <cmath>

#include "damper/motion_rates.h"

// Derivatives of motion_rates.cc, line by line; motion_system_test.cc holds them to differences.

namespace shimwright::damper::motion {
namespace {

Row unit(Place place, double factor) {
  Row row = Row::Zero();
  row[place] = factor;
  return row;
}

}  // namespace

/// Derivatives of the flows with every state.
struct MotionSystem::FlowRows {
  Row piston = Row::Zero();  // with bleed and float
  Row foot = Row::Zero();
  Row port = Row::Zero();
  Row release_c = Row::Zero(), release_r = Row::Zero(), release_s = Row::Zero();
  Row lift = Row::Zero();
  Row volume_c = Row::Zero(), volume_r = Row::Zero(), volume_s = Row::Zero();
};

MotionSystem::FlowRows MotionSystem::flow_rows(const Flows& w, double thinning) const {
  FlowRows rows;
  const double ring = model_.piston_area - model_.rod_area;
  const Place held = has_foot_ ? kPressureS : kPressureC;

  rows.piston[kPressureC] = w.piston.by_drop + w.bleed.by_drop;
  rows.piston[kTemperature] = w.piston.by_temperature - 0.5 * w.bleed.q * thinning;
  rows.piston[kTravel] = w.bleed.by_area * w.bleed_open.slope;
  if (model_.float_valve) {
    const double settle = model_.float_valve->settle_time;
    const double area = model_.float_valve->swept_area;
    rows.lift[kPressureC] = w.float_sign * w.lift_goal.slope / settle;
    rows.lift[kPressureR] = -rows.lift[kPressureC];
    rows.lift[kLift] = -1.0 / settle;
    rows.piston[kPressureC] += area * w.lift_goal.slope / settle;
    rows.piston[kLift] = -w.float_sign * area / settle;
  }
  rows.piston[kPressureR] = -rows.piston[kPressureC];
  if (has_foot_) {
    rows.foot[kPressureC] = w.foot.by_drop;
    rows.foot[kPressureS] = -w.foot.by_drop;
    rows.foot[kTemperature] = w.foot.by_temperature;
  }
  if (model_.reservoir.piston && model_.reservoir.piston->port) {
    rows.port[held] = w.port.by_drop;
    rows.port[kTaken] = w.port.by_area * w.port_open.slope / model_.reservoir.piston->area;
    rows.port[kTemperature] = -0.5 * w.port.q * thinning;
  }
  rows.release_c[kPressureC] = w.release_c.by_pressure;
  rows.release_c[kReleasedC] = w.release_c.by_released;
  rows.release_c[kTravel] = -w.release_c.by_volume * model_.piston_area;
  if (!has_foot_) rows.release_c[kTaken] = w.release_c.by_volume;
  rows.release_s[kPressureS] = w.release_s.by_pressure;
  rows.release_s[kReleasedS] = w.release_s.by_released;
  rows.release_s[kTaken] = w.release_s.by_volume;
  rows.release_r[kPressureR] = w.release_r.by_pressure;
  rows.release_r[kReleasedR] = w.release_r.by_released;
  rows.release_r[kTravel] = w.release_r.by_volume * ring;

  rows.volume_c[kTravel] = -model_.piston_area;
  rows.volume_r[kTravel] = ring;
  (has_foot_ ? rows.volume_s : rows.volume_c)[kTaken] = 1.0;
  return rows;
}

/// Row of a chamber's give: how it changes.
Row MotionSystem::give_row(const Node& node, Place pressure, Place released, const Row& volume) const {
  const Squeezed& s = node.squeezed;
  // d air_volume / dp = - air_volume / (n p), and of the bubbles likewise
  const double softer = s.air_give + s.per_pressure;
  const double oil_give_by_pressure =
      -((s.oil - s.bubbles) * (oil_.per_modulus() * oil_.per_modulus()) + s.bubbles * s.air_give * softer);
  Row row = node.give_by_volume * volume;
  row[pressure] += node.give * node.give_by_volume + node.amount * oil_give_by_pressure -
                   node.air_volume * s.air_give * softer;
  row[released] += s.air * (s.air_give - node.give_by_volume);
  return row;
}

/// Heat made on the way, differentiated.
Row MotionSystem::heat_row(const FullState& y, const Flows& w, const FlowRows& rows, double thinning) const {
  const Node& held = has_foot_ ? w.s : w.c;
  const Place place = has_foot_ ? kPressureS : kPressureC;
  const double q = w.through_piston();
  Row row = (w.c.squeezed.oil_enthalpy - w.r.squeezed.oil_enthalpy) * rows.piston;
  row[kPressureC] += q * w.c.squeezed.oil;
  row[kPressureR] -= q * w.r.squeezed.oil;
  if (model_.float_valve) {
    const FloatingValve& floating = *model_.float_valve;
    const double stiffness = (floating.full_drop - floating.opening_drop) / floating.gap;
    row -= floating.swept_area * floating_drop(floating, y[kLift]) * rows.lift;
    row[kLift] -= floating.swept_area * w.float_rate * stiffness;
  }
  if (has_foot_) {
    row += (w.c.squeezed.oil_enthalpy - w.s.squeezed.oil_enthalpy) * rows.foot;
    row[kPressureC] += w.foot.q * w.c.squeezed.oil;
    row[kPressureS] -= w.foot.q * w.s.squeezed.oil;
  }
  row += (held.squeezed.oil_enthalpy - w.enthalpy_out) * rows.port;
  row[place] += w.port.q * held.squeezed.oil;
  row -= w.c.squeezed.air_enthalpy * rows.release_c + w.r.squeezed.air_enthalpy * rows.release_r +
         w.s.squeezed.air_enthalpy * rows.release_s;
  row[kPressureC] -= w.release_c.rate * w.c.squeezed.air;
  row[kPressureR] -= w.release_r.rate * w.r.squeezed.air;
  row[kPressureS] -= w.release_s.rate * w.s.squeezed.air;
  row[kTakenRate] += w.piston_friction.value + w.piston_friction.slope * y[kTakenRate];
  row[kTaken] += w.stop_by_taken * y[kTakenRate];

  const Sloped share = friction_share(w.speed, model_.friction_speed);
  row[kSpeed] += model_.seal_friction * (share.value + share.slope * w.speed);
  for (const Restriction& lock : model_.restrictions) {
    const LockForce f = lock_force(lock, density_at(y[kTemperature]), w.travel, w.speed);
    row[kSpeed] += f.force + f.by_speed * w.speed;
    row[kTravel] += f.by_travel * w.speed;
    row[kTemperature] += f.force * thinning * w.speed;
  }
  return row;
}

Row MotionSystem::force_row(const FullState& y, const Flows& w, double thinning) const {
  Row row = Row::Zero();
  row[kPressureC] = model_.piston_area;
  row[kPressureR] = -(model_.piston_area - model_.rod_area);
  row[kSpeed] = model_.seal_friction * friction_share(w.speed, model_.friction_speed).slope;
  for (const Restriction& lock : model_.restrictions) {
    const LockForce f = lock_force(lock, density_at(y[kTemperature]), w.travel, w.speed);
    row[kSpeed] += f.by_speed;
    row[kTravel] += f.by_travel;
    row[kTemperature] += f.force * thinning;
  }
  if (model_.outer_air)
    row[kTravel] += outer_air_force(*model_.outer_air, model_.atmospheric_pressure, w.travel).slope;
  if (model_.reservoir.gas) {
    const double area = model_.reservoir.gas->travel_area;
    row[kTaken] += area * w.holding.gas_by_taken;
    row[kTravel] += area * w.holding.gas_by_travel;
  }
  return row;
}

/// The reservoir's pressure, what it takes, and at which rate. `into` and `give` are rows of the held
/// chamber.
void MotionSystem::reservoir_rows(const FullState& y, const Flows& w, double into_value, const Row& into,
                                  const Row& give_change, FullJacobian& j) const {
  const Node& held = has_foot_ ? w.s : w.c;
  const Place place = has_foot_ ? kPressureS : kPressureC;
  if (has_mass_) {
    const FreePiston& piston = *model_.reservoir.piston;
    const double rate = (into_value - y[kTakenRate]) / held.give;
    j[place] = (into - unit(kTakenRate, 1.0) - rate * give_change) / held.give;
    j[kTaken] = unit(kTakenRate, 1.0);
    const double ease = piston.area * piston.area / piston.mass;
    j[kTakenRate] = unit(place, ease);
    j[kTakenRate][kTaken] = -ease * (w.holding.by_taken + w.stop_by_taken);
    j[kTakenRate][kTravel] = -ease * w.holding.by_travel;
    j[kTakenRate][kTakenRate] = -ease * w.piston_friction.slope;
    return;
  }

  // the piston or surface follows at once: one more give in addition to the oil's
  const double give = 1.0 / w.holding.by_taken;
  const double by_drive = w.holding.by_travel * w.speed;
  const double rate = (into_value + give * by_drive) / (held.give + give);
  Row softening = Row::Zero();
  softening[kTaken] = -give * give * w.holding.by_taken_twice;
  softening[kTravel] = -give * give * w.holding.by_taken_and_travel;
  Row drive_change = unit(kSpeed, w.holding.by_travel);
  drive_change[kTaken] = w.speed * w.holding.by_taken_and_travel;
  const double travel_area = model_.reservoir.gas ? model_.reservoir.gas->travel_area : 0.0;
  drive_change[kTravel] = w.speed * travel_area * w.holding.by_taken_and_travel;
  j[place] = (into + by_drive * softening + give * drive_change - rate * (give_change + softening)) /
             (held.give + give);
  j[kTaken] = give * (j[place] - drive_change) + (rate - by_drive) * softening;
}

/// Everything but the pressures and the reservoir.
void MotionSystem::other_rows(const FullState& y, const Flows& w, const FlowRows& rows, double thinning,
                              FullJacobian& j) const {
  j[kReleasedC] = rows.release_c;
  j[kReleasedR] = rows.release_r;
  j[kReleasedS] = rows.release_s;
  j[kLift] = rows.lift;
  const Row heat = heat_row(y, w, rows, thinning);
  const Row force = force_row(y, w, thinning);
  if (model_.heat) {
    j[kTemperature] = heat / model_.heat->capacity;
    j[kTemperature][kTemperature] -= model_.heat->loss / model_.heat->capacity;
  }
  if (rod_is_free()) {
    j[kTravel] = unit(kSpeed, 1.0);
    j[kSpeed] = -force / free_mass_;
    j[kSpeed][kTravel] -= springs_at(w.travel).rate / free_mass_;
  }
  j[kWork] = w.speed * force;
  j[kWork][kSpeed] += w.forces.of_damper();
  j[kHeat] = heat;
  j[kLost] = rows.port;
}

void MotionSystem::linearise(const FullState& y, FullState& f, FullJacobian& j, FullState& f_time) {
  const Flows w = flows_at(y);
  rates_of(y, w, f);
  jacobian_of(y, w, j, f_time);
}

void MotionSystem::jacobian(const FullState& y, FullJacobian& j, FullState& f_time) {
  jacobian_of(y, flows_at(y), j, f_time);
}

void MotionSystem::jacobian_of(const FullState& y, const Flows& w, FullJacobian& j, FullState& f_time) const {
  const double ring = model_.piston_area - model_.rod_area;
  const double thinning = density_slope_at(y[kTemperature]) / density_at(y[kTemperature]);
  const double n = model_.oil.air_exponent;
  const FlowRows rows = flow_rows(w, thinning);
  for (Row& row : j) row.setZero();

  // rod chamber
  const double q = w.through_piston();
  const double into_r_value = -ring * w.speed + w.r.squeezed.air * w.release_r.rate + w.r.squeezed.oil * q;
  Row into_r = w.r.squeezed.oil * rows.piston + w.r.squeezed.air * rows.release_r;
  into_r[kSpeed] -= ring;
  into_r[kPressureR] -= w.r.squeezed.oil_give * q + w.r.squeezed.air * w.release_r.rate / (n * y[kPressureR]);
  j[kPressureR] =
      (into_r - into_r_value / w.r.give * give_row(w.r, kPressureR, kReleasedR, rows.volume_r)) / w.r.give;

  // compression chamber
  const double out = q + (has_foot_ ? w.foot.q : 0.0);
  const double into_c_value =
      model_.piston_area * w.speed + w.c.squeezed.air * w.release_c.rate - w.c.squeezed.oil * out;
  Row into_c = w.c.squeezed.air * rows.release_c - w.c.squeezed.oil * (rows.piston + rows.foot);
  into_c[kSpeed] += model_.piston_area;
  into_c[kPressureC] +=
      w.c.squeezed.oil_give * out - w.c.squeezed.air * w.release_c.rate / (n * y[kPressureC]);
  const Row give_c = give_row(w.c, kPressureC, kReleasedC, rows.volume_c);

  // reservoir
  if (has_foot_) {
    j[kPressureC] = (into_c - into_c_value / w.c.give * give_c) / w.c.give;
    const double net = w.foot.q - w.port.q;
    Row into_s = w.s.squeezed.oil * (rows.foot - rows.port) + w.s.squeezed.air * rows.release_s;
    into_s[kPressureS] -=
        w.s.squeezed.oil_give * net + w.s.squeezed.air * w.release_s.rate / (n * y[kPressureS]);
    reservoir_rows(y, w, w.s.squeezed.oil * net + w.s.squeezed.air * w.release_s.rate, into_s,
                   give_row(w.s, kPressureS, kReleasedS, rows.volume_s), j);
  } else {
    Row into = into_c - w.c.squeezed.oil * rows.port;
    into[kPressureC] += w.c.squeezed.oil_give * w.port.q;
    reservoir_rows(y, w, into_c_value - w.c.squeezed.oil * w.port.q, into, give_c, j);
  }

  other_rows(y, w, rows, thinning, j);

  // the drive alone moves travel and speed
  for (int i = 0; i < kAllPlaces; ++i)
    f_time[i] = rod_is_free() ? 0.0 : j[i][kTravel] * drive_.speed + j[i][kSpeed] * drive_.acceleration;
}

}  // namespace shimwright::damper::motion
