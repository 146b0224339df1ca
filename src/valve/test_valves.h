#pragma once
#include <cmath>
#include <vector>

#include "valve/valve.h"

// Valves with lift curves written down by hand, so that the laws are tested apart from the plate solver.

namespace shimwright::valve {

/// A stack whose lift is proportional to pressure once it opens [m/Pa]; `opening` is its preload [Pa].
inline plate::LiftCurve straight_curve(double compliance, double p_max, double seat_radius,
                                       double opening = 0.0, double rest_lift = 0.0) {
  plate::LiftCurve curve;
  curve.seat_radius = seat_radius;
  curve.opening_pressure = opening;
  if (opening > 0.0) {
    // the kink drawn as two points a billionth apart
    const double gap = 1e-9 * opening;
    curve.pressure = {0.0, opening, opening + gap, p_max};
    curve.lift = {0.0, 0.0, compliance * gap, compliance * (p_max - opening)};
    curve.slope = {0.0, 0.0, compliance, compliance};
  } else {
    curve.pressure = {0.0, p_max};
    curve.lift = {rest_lift, rest_lift + compliance * p_max};
    curve.slope = {compliance, compliance};
  }
  return curve;
}

/// A stack that stiffens as it dishes: lift = c p0 ((1 + p / p0)^(1/2) - 1) * 2, sampled with its slope.
inline plate::LiftCurve stiffening_curve(double compliance, double p_max, double seat_radius) {
  plate::LiftCurve curve;
  curve.seat_radius = seat_radius;
  const double p0 = 0.2e6;
  for (int i = 0; i <= 40; ++i) {
    const double p = p_max * i * i / 1600.0;
    curve.pressure.push_back(p);
    curve.lift.push_back(2.0 * compliance * p0 * (std::sqrt(1.0 + p / p0) - 1.0));
    curve.slope.push_back(compliance / std::sqrt(1.0 + p / p0));
  }
  return curve;
}

/// A stand-in disc: the law reads the curve, the model only needs to say that a stack is there.
inline plate::Stack any_stack() {
  plate::Disc disc;
  disc.outer_radius = 17e-3;
  disc.bore_radius = 3e-3;
  disc.thickness = 0.2e-3;
  plate::Stack stack;
  stack.discs = {disc};
  stack.clamp_radius = 8e-3;
  stack.load.inner_radius = 8e-3;
  stack.load.outer_radius = 16e-3;
  stack.seat.radius = 16e-3;
  return stack;
}

/// A valve with a stack each way, and its curves.
struct TestValve {
  ValveModel model;
  ValveStacks stacks;
};

/// The valve of physics case 4.3: 120 mm2 of ports, curtain at 16 mm, 3 mm2 of bleed, 0.7 everywhere, both
/// ways.
inline TestValve benchmark_valve() {
  const flow::Discharge fixed = flow::fixed_discharge(0.7);
  TestValve valve;
  valve.model.compression = {
      .ports = flow::Orifice{.area = 120e-6, .hydraulic_diameter = 5e-3, .discharge = fixed},
      .stack = any_stack(),
      .curtain_discharge = fixed};
  valve.model.rebound = valve.model.compression;
  valve.model.bleeds = {
      {.passage = flow::Orifice{.area = 3e-6, .hydraulic_diameter = 1.9e-3, .discharge = fixed}}};
  valve.stacks.compression = straight_curve(3.729663e-9, 20e6, 16e-3);
  valve.stacks.rebound = valve.stacks.compression;
  return valve;
}

}  // namespace shimwright::valve
