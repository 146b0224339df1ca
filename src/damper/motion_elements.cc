#include "damper/motion_elements.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"

namespace shimwright::damper::motion {
namespace {

constexpr double kSmoothDrop =
    100.0;  // an opening is laminar below about this [Pa]; a thousandth of an atmosphere

/// Integral of (p0/p)^(1/n) over pressure, given that volume.
double air_integral(double pressure, double volume, double exponent) {
  if (exponent == 1.0) return oil::kAtmosphere * std::log(pressure / oil::kAtmosphere);
  return pressure * volume / (1.0 - 1.0 / exponent);
}

/// exp(x) - 1; oil is squeezed by a percent, for which five terms give every digit.
double small_growth(double x) {
  if (std::abs(x) > 2e-3) return std::expm1(x);
  return x * (1.0 + x * (1.0 / 2 + x * (1.0 / 6 + x * (1.0 / 24 + x * (1.0 / 120)))));
}

/// Energy that a gas gives when it grows without end from this state; its changes are what counts.
double gas_energy(double pressure, double volume, double exponent) {
  if (exponent == 1.0) return -pressure * volume * std::log(volume);
  return pressure * volume / (exponent - 1.0);
}

}  // namespace

SqueezedOil::SqueezedOil(const MotionOil& oil)
    : bulk_modulus_(oil.bulk_modulus),
      per_modulus_(1.0 / oil.bulk_modulus),
      per_exponent_(1.0 / oil.air_exponent),
      share_(oil.entrained_air),
      isothermal_(oil.air_exponent == 1.0),
      volume_of_air_(1.0 / oil.air_exponent) {
  const double from = oil.release_pressure > 0.0 ? oil.release_pressure : oil::kAtmosphere;
  enthalpy_at_release_ =
      air_integral(from, std::pow(oil::kAtmosphere / from, per_exponent_), oil.air_exponent);
  if (!isothermal_) per_work_ = 1.0 / (1.0 - per_exponent_);
}

Squeezed SqueezedOil::at(double pressure) const {
  const double grown = small_growth((oil::kAtmosphere - pressure) * per_modulus_);
  const double per_pressure = 1.0 / pressure;
  Squeezed s;
  s.air = volume_of_air_.at(oil::kAtmosphere * per_pressure);
  const double from_atmosphere = isothermal_ ? oil::kAtmosphere * std::log(pressure / oil::kAtmosphere)
                                             : pressure * s.air * per_work_;  // as air_integral
  s.air_enthalpy = from_atmosphere - enthalpy_at_release_;
  // oil/air.h's mixture
  const double liquid = (1.0 - share_) * (1.0 + grown);
  s.bubbles = share_ * s.air;
  s.oil = liquid + s.bubbles;
  s.air_give = per_exponent_ * per_pressure;
  s.per_pressure = per_pressure;
  s.oil_give = liquid * per_modulus_ + s.bubbles * s.air_give;
  s.oil_enthalpy = (share_ - 1.0) * bulk_modulus_ * grown + share_ * s.air_enthalpy;
  return s;
}

ReleaseRate release_rate(const MotionOil& oil, double pressure, double released, double volume) {
  ReleaseRate r;
  const double p_rel = oil.release_pressure;
  if (pressure < p_rel) {
    const double per_volume = oil.bunsen * oil.saturation_pressure / oil::kAtmosphere;
    const double left = per_volume * volume - released;
    const double short_of = (1.0 - pressure / p_rel) / oil.release_time;
    r.rate = short_of * left;
    r.by_pressure = -left / (p_rel * oil.release_time);
    r.by_released = -short_of;
    r.by_volume = short_of * per_volume;
  } else {
    const double above = (1.0 - p_rel / pressure) / oil.return_time;
    r.rate = -released * above;
    r.by_pressure = -released * p_rel / (pressure * pressure * oil.return_time);
    r.by_released = -above;
  }
  return r;
}

QuickLaw::QuickLaw(const valve::ValveLaw& law)
    : compression_(one_way(law.compression)),
      rebound_(one_way(law.rebound)),
      largest_compression_(valve::largest_drop(law.compression)),
      largest_rebound_(valve::largest_drop(law.rebound)) {}

QuickLaw::OneWay QuickLaw::one_way(const valve::DirectionLaw& law) {
  OneWay way;
  for (std::size_t i = 0; i + 1 < law.nodes.size(); ++i) {
    const valve::LawNode& a = law.nodes[i];
    const valve::LawNode& b = law.nodes[i + 1];
    const double h = b.root_drop - a.root_drop;
    if (h <= 0.0) continue;  // a pair of nodes at one drop has no inside
    const double chord = (b.q - a.q) / h;
    way.cells.push_back({a.root_drop, a.q, a.q_slope, (3.0 * chord - 2.0 * a.q_slope - b.q_slope) / h,
                         (a.q_slope + b.q_slope - 2.0 * chord) / (h * h)});
  }
  const valve::LawNode& end = law.nodes.back();
  way.cells.push_back({end.root_drop, end.q, end.q_slope, 0.0, 0.0});
  return way;
}

QuickLaw::Point QuickLaw::at(double drop) {
  const double root = std::sqrt(std::abs(drop));
  return at(drop, root, root > 0.0 ? 0.5 / root : 0.0);
}

QuickLaw::Point QuickLaw::at(double drop, double root, double root_by_drop) {
  OneWay& way = drop < 0.0 ? rebound_ : compression_;
  if (!std::isfinite(root)) return {root, root};  // a step that went astray is rejected by its error
  const std::vector<Cell>& cells = way.cells;

  // neighbours of the cell used last, then a search
  std::size_t i = way.last;
  if (root < cells[i].root || (i + 1 < cells.size() && root >= cells[i + 1].root)) {
    if (i + 2 < cells.size() && root >= cells[i + 1].root && root < cells[i + 2].root)
      ++i;
    else if (i > 0 && root < cells[i].root && root >= cells[i - 1].root)
      --i;
    else
      i = static_cast<std::size_t>(std::upper_bound(cells.begin() + 1, cells.end(), root,
                                                    [](double x, const Cell& c) { return x < c.root; }) -
                                   cells.begin()) -
          1;
    way.last = i;
  }

  const Cell& cell = cells[i];
  const double s = root - cell.root;
  const double q = cell.c0 + s * (cell.c1 + s * (cell.c2 + s * cell.c3));
  const double slope = cell.c1 + s * (2.0 * cell.c2 + s * 3.0 * cell.c3);
  return {drop < 0.0 ? -q : q, root > 0.0 ? slope * root_by_drop : cell.c2};
}

WarmLaw::WarmLaw(const std::vector<LawsAt>& laws, const valve::ValveLaw& (*of)(const DamperLaws&)) {
  for (const LawsAt& at : laws) {
    temperature_.push_back(at.temperature);
    laws_.emplace_back(of(at.laws));
  }
}

double WarmLaw::share_of_table(double drop) const {
  double share = 0.0;
  for (const QuickLaw& law : laws_) share = std::max(share, law.share_of_table(drop));
  return share;
}

WarmLaw::Point WarmLaw::at(double drop, double temperature) {
  std::size_t i = 0;
  while (i + 1 < temperature_.size() && temperature >= temperature_[i + 1]) ++i;
  const double root = std::sqrt(std::abs(drop));
  const double root_by_drop = root > 0.0 ? 0.5 / root : 0.0;
  const QuickLaw::Point cold = laws_[i].at(drop, root, root_by_drop);
  if (i + 1 == temperature_.size() || temperature <= temperature_[i]) return {cold.q, cold.by_drop, 0.0};
  const QuickLaw::Point warm = laws_[i + 1].at(drop, root, root_by_drop);
  const double per_span = 1.0 / (temperature_[i + 1] - temperature_[i]);
  const double share = (temperature - temperature_[i]) * per_span;
  return {cold.q + share * (warm.q - cold.q), cold.by_drop + share * (warm.by_drop - cold.by_drop),
          (warm.q - cold.q) * per_span};
}

OpeningFlow opening_flow(double discharge, double area, double density, double drop) {
  const double size = drop * drop + kSmoothDrop * kSmoothDrop;
  const double shape = 1.0 / std::sqrt(std::sqrt(size));
  const double factor = discharge * std::sqrt(2.0 / density);
  const double per_area = factor * drop * shape;
  return {area * per_area, area * factor * shape * (1.0 - 0.5 * drop * drop / size), per_area};
}

Sloped bleed_area(const PositionBleed& bleed, double travel) {
  const std::vector<double>& x = bleed.travel;
  // a step that is tried and given up may ask at no number at all
  if (!(travel > x.front())) return {bleed.area.front(), 0.0};
  if (!(travel < x.back())) return {bleed.area.back(), 0.0};
  const std::size_t i = static_cast<std::size_t>(std::upper_bound(x.begin(), x.end(), travel) - x.begin());
  const double slope = (bleed.area[i] - bleed.area[i - 1]) / (x[i] - x[i - 1]);
  return {bleed.area[i - 1] + slope * (travel - x[i - 1]), slope};
}

Sloped port_area(const ReliefPort& port, double piston_travel) {
  const double open = (piston_travel - port.position) / port.opening_length;
  if (open <= 0.0) return {};
  if (open >= 1.0) return {port.area, 0.0};
  return {port.area * open, port.area / port.opening_length};
}

Sloped friction_share(double speed, double scale) {
  constexpr double kFull = 20.0;  // from there on tanh is 1 to the last digit
  const double x = speed / scale;
  if (std::abs(x) > kFull) return {x > 0.0 ? 1.0 : -1.0, 0.0};
  const double share = std::tanh(x);
  return {share, (1.0 - share * share) / scale};
}

HoldingPressure holding_pressure(const MotionReservoir& reservoir, double taken, double travel,
                                 const num::FixedPower* power) {
  HoldingPressure h;
  h.gas_pressure = reservoir.dry_pressure;
  if (reservoir.gas) {
    const GasCushion& gas = *reservoir.gas;
    const double n = gas.exponent;
    const double volume = gas.volume - taken - gas.travel_area * travel;
    const double squeeze = gas.volume / volume;
    h.gas_pressure = gas.pressure * (power != nullptr ? power->at(squeeze) : std::pow(squeeze, n));
    h.gas_by_taken = n * h.gas_pressure / volume;
    h.gas_by_travel = gas.travel_area * h.gas_by_taken;
    h.by_taken = h.gas_by_taken;
    h.by_travel = h.gas_by_travel;
    h.by_taken_twice = (n + 1.0) * h.gas_by_taken / volume;
    h.by_taken_and_travel = gas.travel_area * h.by_taken_twice;
  }
  h.value = h.gas_pressure;
  if (reservoir.piston) {
    const FreePiston& piston = *reservoir.piston;
    const double y = taken / piston.area;
    double force = piston.spring_force + piston.spring_rate * y;
    double rate = piston.spring_rate;
    if (y > piston.travel_out) {
      force += piston.stop_rate * (y - piston.travel_out);
      rate += piston.stop_rate;
    } else if (y < -piston.travel_in) {
      force += piston.stop_rate * (y + piston.travel_in);
      rate += piston.stop_rate;
    }
    h.value += force / piston.area;
    h.by_taken += rate / (piston.area * piston.area);
  }
  return h;
}

StopLoss stop_loss(const FreePiston& piston, double taken) {
  constexpr double kFilm = 1e-6;  // [m]
  const double y = taken / piston.area;
  const double past = std::max({y - piston.travel_out, -piston.travel_in - y, 0.0});
  if (past == 0.0) return {};
  const double dashpot = 2.0 * piston.stop_loss * std::sqrt(piston.stop_rate * piston.mass);
  const double per_rate = dashpot / (piston.area * piston.area);
  const double outwards = y > piston.travel_out ? 1.0 : -1.0;
  return {per_rate * past / (past + kFilm),
          per_rate * kFilm / ((past + kFilm) * (past + kFilm)) * outwards / piston.area};
}

double holding_energy(const MotionReservoir& reservoir, double taken, double travel) {
  double energy = 0.0;
  if (reservoir.gas) {
    const GasCushion& gas = *reservoir.gas;
    const double volume = gas.volume - taken - gas.travel_area * travel;
    const double pressure = gas.pressure * std::pow(gas.volume / volume, gas.exponent);
    energy += gas_energy(pressure, volume, gas.exponent) - gas_energy(gas.pressure, gas.volume, gas.exponent);
  } else {
    energy += reservoir.dry_pressure * taken;
  }
  if (reservoir.piston) {
    const FreePiston& piston = *reservoir.piston;
    const double y = taken / piston.area;
    energy += y * (piston.spring_force + 0.5 * piston.spring_rate * y);
    const double past = std::max({y - piston.travel_out, -piston.travel_in - y, 0.0});
    energy += 0.5 * piston.stop_rate * past * past;
  }
  return energy;
}

LockForce lock_force(const Restriction& lock, double density, double travel, double speed) {
  LockForce f;
  if (travel <= lock.start || speed <= 0.0) return f;
  double opening = lock.opening_end;
  double slope = 0.0;
  if (travel < lock.end) {
    slope = (lock.opening_end - lock.opening_start) / (lock.end - lock.start);
    opening = lock.opening_start + slope * (travel - lock.start);
  }
  const double jet = lock.area * speed / (lock.discharge * opening);
  f.drop = 0.5 * density * jet * jet;
  f.force = lock.area * f.drop;
  f.by_speed = 2.0 * f.force / speed;
  f.by_travel = -2.0 * f.force * slope / opening;
  return f;
}

Sloped outer_air_force(const OuterAir& air, double atmosphere, double travel) {
  const double volume = air.volume - air.area * travel;
  const double pressure = air.pressure * std::pow(air.volume / volume, air.exponent);
  return {(pressure - atmosphere) * air.area, air.exponent * pressure * air.area * air.area / volume};
}

double outer_air_energy(const OuterAir& air, double travel) {
  const double volume = air.volume - air.area * travel;
  const double pressure = air.pressure * std::pow(air.volume / volume, air.exponent);
  return gas_energy(pressure, volume, air.exponent) - gas_energy(air.pressure, air.volume, air.exponent);
}

Sloped floating_lift(const FloatingValve& valve, double drop_its_way) {
  const double span = valve.full_drop - valve.opening_drop;
  const double share = (drop_its_way - valve.opening_drop) / span;
  if (share <= 0.0) return {};
  if (share >= 1.0) return {valve.gap, 0.0};
  return {valve.gap * share, valve.gap / span};
}

double floating_drop(const FloatingValve& valve, double lift) {
  return valve.opening_drop + (valve.full_drop - valve.opening_drop) * lift / valve.gap;
}

double floating_energy(const FloatingValve& valve, double lift) {
  return valve.swept_area * lift *
         (valve.opening_drop + 0.5 * (valve.full_drop - valve.opening_drop) * lift / valve.gap);
}

}  // namespace shimwright::damper::motion
