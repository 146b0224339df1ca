#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "spring/unit_spring.h"

namespace shimwright::spring {
namespace {

double pick(double low, double high) {
  return low + (high - low) * (*rc::gen::inRange(0, 10001)) / 10000.0;
}

AirSpring any_air(double travel) {
  AirSpring air;
  air.positive.area = pick(0.2e-3, 1.8e-3);
  air.positive.empty_volume = air.positive.area * travel * pick(1.15, 4.0);
  air.positive.pressure = pick(1e5, 1.2e6);
  air.positive.exponent = pick(1.0, 1.4);
  const int kind = *rc::gen::inRange(0, 3);
  if (kind == 0) return air;
  air.negative = AirChamber{.area = air.positive.area * pick(0.7, 1.0),
                            .empty_volume = air.positive.empty_volume * pick(0.05, 0.3),
                            .pressure = pick(1e5, 1.2e6),
                            .exponent = pick(1.0, 1.4)};
  if (kind == 2) air.balance_travel = pick(0.0, 0.05) * travel;
  return air;
}

CoilStack any_coils() {
  CoilStack stack;
  stack.preload = pick(-0.02, 0.03);
  const int n = *rc::gen::inRange(1, 4);
  for (int i = 0; i < n; ++i) {
    Coil coil{pick(3e3, 120e3), std::nullopt};
    if (*rc::gen::inRange(0, 2) == 1) coil.bind_compression = pick(0.01, 0.4);
    stack.in_series.push_back(coil);
  }
  return stack;
}

/// Any leg: air, coils, top-out, bump stop.
UnitSpring any_unit() {
  const double travel = pick(0.1, 0.35);
  return {travel,
          {{"air", any_air(travel)},
           {"coil", any_coils()},
           {"top-out", TopOutSpring{pick(5e3, 30e3), pick(0.0, 0.1) * travel}},
           {"bump stop", BumpStop{pick(0.7, 1.0) * travel, pick(0.0, 5e4), pick(1.0, 1e9)}}}};
}

RC_GTEST_PROP(SpringProperty, RateIsTheSlopeOfForceAndForceThatOfEnergy, ()) {
  const UnitSpring unit = any_unit();
  const double x = pick(0.05, 0.95) * unit.travel;
  const double h = 1e-6 * unit.travel;
  const ForceBreakdown below = force_at(unit, {}, x - h), here = force_at(unit, {}, x),
                       above = force_at(unit, {}, x + h);

  // a coil dropping out between the two points makes the difference neither slope; leave that instant out
  const double jump = std::abs(above.rate - below.rate);
  RC_PRE(jump < 1e-3 * here.rate);
  const double force_slope = (above.force - below.force) / (2.0 * h);
  const double energy_slope = (above.energy - below.energy) / (2.0 * h);
  // rounding: eps x value / h is about 1e-9 of value / travel
  RC_ASSERT(std::abs(force_slope - here.rate) <
            1e-4 * here.rate + 1e-7 * std::abs(here.force) / unit.travel + 1e-3);
  const double energies = std::abs(here.energy) + 1e3;
  RC_ASSERT(std::abs(energy_slope - here.force) <
            1e-6 * std::abs(here.force) + 1e-8 * energies / unit.travel);
}

RC_GTEST_PROP(SpringProperty, ForceRisesOverTheTravel, ()) {
  const UnitSpring unit = any_unit();
  const SpringCurve curve = spring_curve(unit, {}, 40);
  for (std::size_t i = 1; i < curve.points.size(); ++i) {
    // rounding of forces up to a few 1e4 N
    RC_ASSERT(curve.points[i].force >= curve.points[i - 1].force - 1e-9);
  }
}

RC_GTEST_PROP(SpringProperty, QuickAirIsAtLeastAsStiffAsSlowAir, ()) {
  const double travel = pick(0.1, 0.35);
  AirSpring air = any_air(travel);
  air.negative.reset();
  air.balance_travel.reset();
  const double x = pick(0.0, 1.0) * travel;
  air.positive.exponent = 1.0;
  const ElementForce slow = air_force(air, {}, x);
  air.positive.exponent = 1.4;
  const ElementForce fast = air_force(air, {}, x);
  RC_ASSERT(fast.force >= slow.force - 1e-9);  // equal at the start, rounding
  RC_ASSERT(fast.rate >= slow.rate);
}

RC_GTEST_PROP(SpringProperty, SlowAirKeepsPressureTimesVolumeAndItsEnergyIsTheLogarithm, ()) {
  const double travel = pick(0.1, 0.35);
  AirSpring air = any_air(travel);
  air.negative.reset();
  air.balance_travel.reset();
  air.positive.exponent = 1.0;
  const double v0 = air_volume(air.positive), p0 = air.positive.pressure;
  const double x = pick(0.0, 1.0) * travel, v = v0 - air.positive.area * x;
  RC_ASSERT(std::abs(air_pressures(air, {}, x).positive * v / (p0 * v0) - 1.0) < 1e-13);  // rounding
  const double work = p0 * v0 * std::log(v0 / v) - 101325.0 * (v0 - v);
  RC_ASSERT(std::abs(air_force(air, {}, x).energy - work) < 1e-10 * (std::abs(work) + 1.0));  // rounding
  // the passage from n = 1 to n a little above is smooth
  air.positive.exponent = 1.0 + 1e-9;
  RC_ASSERT(std::abs(air_force(air, {}, x).energy - work) < 1e-6 * (std::abs(work) + 1.0));
}

RC_GTEST_PROP(SpringProperty, OrderOfCoilsInAStackIsOfNoMatter, ()) {
  CoilStack stack = any_coils();
  const double x = pick(0.0, 0.3);
  const ElementForce before = coil_force(stack, x);
  std::swap(stack.in_series.front(), stack.in_series.back());
  const ElementForce after = coil_force(stack, x);
  RC_ASSERT(std::abs(after.force - before.force) <= 1e-9 * (1.0 + before.force));  // sums in another order
}

RC_GTEST_PROP(SpringProperty, CoilsInSeriesCarryTheSameForceAndShareTheCompression, ()) {
  // judged without the stack's own line: at its force each coil gives way by force / rate or to its block
  const CoilStack stack = any_coils();
  const double x = pick(0.0, 0.3);
  const std::optional<double> bind = bind_travel(stack);
  const bool is_free = !bind || x < *bind;  // a macro that shows its parts looks at both sides
  RC_PRE(is_free);
  const double force = coil_force(stack, x).force;
  double compression = 0.0;
  for (const Coil& coil : stack.in_series) {
    const double free = force / coil.rate;
    compression += coil.bind_compression ? std::min(free, *coil.bind_compression) : free;
  }
  RC_ASSERT(std::abs(compression - std::max(0.0, stack.preload + x)) <
            1e-12);  // rounding of lengths below a metre
}

}  // namespace
}  // namespace shimwright::spring
