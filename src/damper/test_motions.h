#pragma once
#include "damper/motion.h"
#include "damper/test_dampers.h"

// Dampers in motion for the tests. All figures invented unless a case is named.

namespace shimwright::damper {

inline MotionModel motion_of(const TestDamper& damper) {
  MotionModel model;
  model.piston_area = damper.model.chambers.piston_area;
  model.rod_area = damper.model.chambers.rod_area;
  model.atmospheric_pressure = damper.model.chambers.atmospheric_pressure;
  model.travel = 0.2;
  model.compression.volume = model.piston_area * 0.24;
  model.rod.volume = 20e-6;
  model.reservoir.oil.volume = 40e-6;
  model.oil.release_pressure = 20e3;
  model.laws = {{293.15, damper.liquid.density, damper.solved.laws}};
  return model;
}

/// A cartridge with a spring-loaded free piston, seals, and heat.
inline MotionModel sprung_cartridge() {
  MotionModel model = motion_of(cartridge());
  model.seal_friction = 15.0;
  model.reservoir.piston = FreePiston{.area = disc_area(26e-3),
                                      .mass = 0.03,
                                      .friction = 6.0,
                                      .spring_force = 90.0,
                                      .spring_rate = 3000.0,
                                      .travel_in = 5e-3,
                                      .travel_out = 85e-3};
  model.heat = HeatModel{.capacity = 300.0, .loss = 2.0};
  return model;
}

/// Everything at once: gas behind a free piston with a port, a floating mid-valve, an oil lock, a position
/// bleed, outer air, warmth in the laws, air in both chambers.
inline MotionModel crowded_cartridge() {
  MotionModel model = sprung_cartridge();
  TestDamper warm = cartridge();
  warm.liquid.viscosity *= 0.5;
  warm.liquid.density *= 0.97;
  solve(warm);
  model.laws.push_back({333.15, warm.liquid.density, warm.solved.laws});
  model.temperature = 313.15;
  model.reservoir.gas = GasCushion{.pressure = 0.15e6, .volume = 90e-6, .exponent = 1.3};
  model.reservoir.piston->port = ReliefPort{.position = 30e-3, .area = 4e-6};
  model.float_valve =
      FloatingValve{.swept_area = 200e-6, .gap = 0.3e-3, .opening_drop = 5e3, .full_drop = 15e3};
  model.restrictions = {
      {.start = 0.17, .end = 0.2, .area = 300e-6, .opening_start = 30e-6, .opening_end = 3e-6}};
  model.position_bleed = PositionBleed{.travel = {0.05, 0.1, 0.12}, .area = {0.0, 3e-6, 1e-6}};
  model.outer_air = OuterAir{.area = 800e-6, .volume = 250e-6};
  model.compression.trapped_air = 1e-6;
  model.rod.trapped_air = 0.5e-6;
  model.compression.compliance = model.rod.compliance = 2e-15;
  return model;
}

/// A main spring that changes its rate, air both ways, a top-out spring and a bump stop.
inline SpringsBeside springs_of_a_leg(double travel) {
  spring::AirSpring air;
  air.positive = {.area = 500e-6, .empty_volume = 500e-6 * (travel + 0.1), .pressure = 3e5};
  air.negative = spring::AirChamber{.area = 450e-6, .empty_volume = 40e-6, .pressure = 3e5};
  return {{travel,
           {{"coil", spring::CoilStack{{{3000.0, 0.05}, {6000.0, std::nullopt}}, 0.01}},
            {"air", air},
            {"top-out", spring::TopOutSpring{9000.0, 0.012}},
            {"bump stop", spring::BumpStop{travel - 0.03, 20e3, 1e8}}}},
          {}};
}

/// A passage for which flow is proportional to the drop, in both ways [m^3/(s.Pa)].
inline valve::ValveLaw linear_law(double conductance, double drop_max = 50e6) {
  valve::DirectionLaw way;
  const double root = std::sqrt(drop_max);
  for (const double r : {0.0, 0.01 * root, 0.1 * root, root}) {
    valve::LawNode node;
    node.root_drop = r;
    node.q = conductance * r * r;
    node.q_slope = 2.0 * conductance * r;
    way.nodes.push_back(node);
  }
  way.leakage_conductance = conductance;
  return {way, way};
}

/// Piston with a linear passage, no foot valve, gas in line with the oil: a linear damper with gas force.
inline MotionModel linear_damper(double conductance, double gas_pressure, double gas_volume) {
  MotionModel model;
  model.piston_area = disc_area(36e-3);
  model.rod_area = disc_area(12e-3);
  model.travel = 0.1;
  model.compression.volume = model.piston_area * 0.12;
  model.rod.volume = 30e-6;
  model.reservoir.gas = GasCushion{.pressure = gas_pressure, .volume = gas_volume};
  model.laws = {{293.15, 870.0, {linear_law(conductance), std::nullopt}}};
  model.oil.bunsen = 0.0;
  return model;
}

inline const CycleFigures& last_cycle(const MotionResult& result) {
  return result.cycles.back();
}

}  // namespace shimwright::damper
