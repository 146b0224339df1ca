#pragma once
#include "base/problem.h"

namespace shimwright::assembly {

/// What makes room for the oil that the rod and the heat push out: gas, or a piston on a spring with the air
/// outside behind it. All as it is set: rod fully out, everything at one temperature.
struct Reservoir {
  double rod_area = 0.0;  // [m^2]
  double leg_area = 0.0;  // gas that an open leg squeezes by itself, per travel and beside the rod [m^2]

  double gas_volume = 0.0;               // [m^3]; 0: no gas
  double gas_pressure = 101325.0;        // absolute [Pa]
  double set_temperature = 293.15;       // [K]
  double piston_area = 0.0;              // of a piston on a spring [m^2]
  double spring_force = 0.0;             // [N]
  double spring_rate = 0.0;              // [N/m]
  double outside_pressure = 101325.0;    // behind a piston on a spring, absolute [Pa]
  double capacity = kUnlimitedCapacity;  // oil it takes from here on before it reaches a stop or vents [m^3]

  static constexpr double kUnlimitedCapacity = 1e9;
};
Problems problems_in(const Reservoir& reservoir);

/// The reservoir at rest.
struct ReservoirState {
  double taken = 0.0;       // oil that it took in since it was set [m^3]
  double gas_volume = 0.0;  // [m^3]; 0 without gas
  double pressure = 0.0;    // absolute [Pa]
  double room_left = 0.0;   // oil that it could still take [m^3]; below zero: it locks or vents
  bool locked = false;      // next to no gas is left: the pressure is a lower bound
};

/// Where the reservoir stands with the rod at a travel, when the oil has grown by `growth` [m^3] and the gas
/// is at `temperature` [K].
///
/// Model:  ideal gas of a fixed amount at rest, p V / T constant; oil that gives no room. The gas has the
///         temperature of the oil: at rest, after some minutes. A quick stroke squeezes it further.
/// Valid:  below 1/50 of its volume the gas is taken as locked, and its pressure stays what it is there.
/// Source: ideal gas law; a spring of constant rate
/// Tested: reservoir_test.cc
ReservoirState reservoir_at(const Reservoir& reservoir, double travel, double growth, double temperature);

/// Pressure to set, rod fully out and cold, so that `wanted` stands in it later with the rod fully out, the
/// oil grown and the gas warm, all absolute [Pa]. Of a piston on a spring: the pressure of the stiffer
/// preload. Tested: reservoir_test.cc
double set_pressure_for(const Reservoir& reservoir, double wanted, double growth, double temperature);

}  // namespace shimwright::assembly
