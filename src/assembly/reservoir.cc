#include "assembly/reservoir.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "base/check.h"

namespace shimwright::assembly {
namespace {

/// Of its volume: with less left the leg or shock is full of oil.
constexpr double kLeastGas = 0.02;

bool has_gas(const Reservoir& reservoir) {
  return reservoir.gas_volume > 0.0;
}

}  // namespace

Problems problems_in(const Reservoir& reservoir) {
  Problems problems;
  const auto require = [&](bool holds, const char* field, double got, const char* allowed) {
    if (!holds) problems.push_back({field, got, 0.0, allowed});
  };
  require(reservoir.rod_area > 0.0, "rod_area", reservoir.rod_area, "larger than zero");
  require(reservoir.leg_area >= 0.0, "leg_area", reservoir.leg_area, "zero or larger");
  require(has_gas(reservoir) || reservoir.piston_area > 0.0, "gas_volume", reservoir.gas_volume,
          "larger than zero, or a piston on a spring");
  require(reservoir.gas_pressure > 0.0, "gas_pressure", reservoir.gas_pressure, "larger than zero");
  require(reservoir.set_temperature > 0.0, "set_temperature", reservoir.set_temperature,
          "above absolute zero");
  require(reservoir.spring_force >= 0.0, "spring_force", reservoir.spring_force, "zero or larger");
  require(reservoir.spring_rate >= 0.0, "spring_rate", reservoir.spring_rate, "zero or larger");
  require(reservoir.capacity >= 0.0, "capacity", reservoir.capacity, "zero or larger");
  return problems;
}

ReservoirState reservoir_at(const Reservoir& reservoir, double travel, double growth, double temperature) {
  SW_CHECK(problems_in(reservoir).empty(), reservoir.rod_area, reservoir.gas_volume, reservoir.piston_area);
  SW_CHECK(temperature > 0.0 && std::isfinite(travel) && std::isfinite(growth), temperature, travel, growth);
  ReservoirState state;
  state.taken = reservoir.rod_area * travel + growth;
  state.room_left = reservoir.capacity - state.taken;
  if (has_gas(reservoir)) {
    const double left = reservoir.gas_volume - state.taken - reservoir.leg_area * travel;
    const double least = kLeastGas * reservoir.gas_volume;
    state.locked = left < least;
    state.room_left = std::min(state.room_left, left);
    state.gas_volume = std::max(left, 0.0);
    state.pressure = reservoir.gas_pressure * (temperature / reservoir.set_temperature) *
                     reservoir.gas_volume / std::max(left, least);
    return state;
  }
  const double force = reservoir.spring_force + reservoir.spring_rate * state.taken / reservoir.piston_area;
  state.pressure = reservoir.outside_pressure + force / reservoir.piston_area;
  return state;
}

double set_pressure_for(const Reservoir& reservoir, double wanted, double growth, double temperature) {
  const double now = reservoir_at(reservoir, 0.0, growth, temperature).pressure;
  if (has_gas(reservoir)) return wanted / now * reservoir.gas_pressure;
  // the preload adds the same pressure cold and warm
  const double set = reservoir.outside_pressure + reservoir.spring_force / reservoir.piston_area;
  return set + (wanted - now);
}

}  // namespace shimwright::assembly
