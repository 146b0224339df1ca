#pragma once
#include <cmath>
#include <numbers>

#include "damper/damper.h"
#include "oil/oil.h"

// Dampers with lift curves written down by hand. All figures invented unless a case is named.

namespace shimwright::damper {

using oil::kAtmosphere;

inline double disc_area(double diameter) {
  return 0.25 * std::numbers::pi * diameter * diameter;
}

inline plate::LiftCurve straight_curve(double compliance, double p_max, double seat_radius) {
  plate::LiftCurve curve;
  curve.pressure = {0.0, p_max};
  curve.lift = {0.0, compliance * p_max};
  curve.slope = {compliance, compliance};
  curve.seat_radius = seat_radius;
  return curve;
}

/// Says that a stack is there; the law reads the curve.
inline plate::Stack any_stack() {
  plate::Stack stack;
  stack.discs.resize(1);
  return stack;
}

inline valve::DirectionModel stacked(double port_area) {
  return {.ports =
              flow::Orifice{
                  .area = port_area, .hydraulic_diameter = 4e-3, .discharge = flow::fixed_discharge(0.7)},
          .stack = any_stack(),
          .curtain_discharge = flow::fixed_discharge(0.7)};
}

inline valve::Bleed bore(double area) {
  return {.passage = flow::Orifice{
              .area = area, .hydraulic_diameter = 1e-3, .discharge = flow::fixed_discharge(0.7)}};
}

inline valve::Bleed needle(double clicks) {
  return {.passage = flow::Needle{.bore_diameter = 2.5e-3,
                                  .half_angle = 15 * std::numbers::pi / 180,
                                  .pitch = 1e-3,
                                  .clicks_per_turn = 8,
                                  .clicks = clicks}};
}

struct TestDamper {
  DamperModel model;
  SolvedDamper solved;
  oil::Liquid liquid{.density = 860.0, .viscosity = 0.012};
};

inline void solve(TestDamper& damper) {
  damper.solved.laws = damper_laws(damper.model, damper.solved.stacks, damper.liquid);
}

/// A cartridge with a soft piston valve and a firm foot valve that refills freely.
inline TestDamper cartridge() {
  TestDamper damper;
  damper.model.chambers = {.piston_area = disc_area(25e-3),
                           .rod_area = disc_area(12e-3),
                           .reservoir_pressure = 0.2e6,
                           .release_pressure = 20e3};
  damper.model.piston_valve = {.compression = stacked(50e-6), .rebound = stacked(30e-6)};
  damper.model.piston_valve.bleeds = {needle(10), bore(0.3e-6)};
  damper.model.piston_valve.leakage = flow::AnnularGap{.diameter = 25e-3, .clearance = 15e-6, .length = 8e-3};
  damper.model.foot_valve = valve::ValveModel{.compression = stacked(25e-6), .rebound = stacked(60e-6)};
  damper.model.foot_valve->bleeds = {needle(8)};
  damper.solved.stacks.piston = {straight_curve(5e-9, 20e6, 8e-3), straight_curve(0.6e-9, 20e6, 7e-3)};
  damper.solved.stacks.foot = {straight_curve(0.3e-9, 20e6, 6e-3), straight_curve(20e-9, 20e6, 8e-3)};
  solve(damper);
  return damper;
}

/// One orifice in the piston and a gas reservoir open to the compression chamber.
inline TestDamper orifice_damper(double piston_diameter, double rod_diameter, double area, double reservoir) {
  TestDamper damper;
  damper.liquid.density = 870.0;
  damper.model.chambers = {.piston_area = disc_area(piston_diameter),
                           .rod_area = disc_area(rod_diameter),
                           .reservoir_pressure = reservoir,
                           .release_pressure = 0.0};
  damper.model.piston_valve.bleeds = {bore(area)};
  solve(damper);
  return damper;
}

}  // namespace shimwright::damper
