#pragma once
#include <optional>

#include "assembly/reservoir.h"
#include "file/spec.h"
#include "oil/oil.h"
#include "resolve/resolve_conditions.h"

namespace shimwright::resolve {

// what a job need not say: assumptions that the result names (common practice, no source)
inline constexpr double kSpareLength = 30e-3;   // of oil beyond the piston at each end of its travel [m]
inline constexpr double kReservoirOil = 50e-6;  // on the reservoir's side of the foot valve [m^3]

/// How a fork or shock makes room for the oil of its rod, as it is set at the bench, and the oil in it.
struct ReservoirModel {
  assembly::Reservoir reservoir;
  double travel = 0.0;           // of the rod [m]; 0: not stated
  double oil_volume = 0.0;       // that grows with heat and pushes on it [m^3]
  bool oil_assumed = false;      // neither the fill nor the motion table tells it
  bool gas_assumed = false;      // the volume of its gas is not stated
  double body_expansion = 0.0;   // by length [1/K]
  double set_temperature = 0.0;  // [K]
  bool follows_oil = true;       // the gas is as warm as the oil; false: as the air over an open leg
};

/// What the oil grows by from the bench to a temperature, beyond its body [m^3].
double growth_at(const ReservoirModel& model, const oil::OilModel& oil, double temperature);

/// At rest, with the oil at a temperature and the rod at a travel.
assembly::ReservoirState reservoir_at(const ReservoirModel& model, const oil::OilModel& oil, double travel,
                                      double temperature);

/// Pressure to set at the bench, rod fully out, so that `wanted` stands in it at a temperature [Pa abs].
double set_pressure_for(const ReservoirModel& model, const oil::OilModel& oil, double wanted,
                        double temperature);

/// The oil that one closed unit holds [m^3]: from the space of its fill, what its fill states, or its motion
/// table; else the bore over the travel, with kSpareLength to spare at each end and kReservoirOil.
struct OilInUnit {
  double volume = 0.0;
  bool assumed = false;
};
OilInUnit oil_in_unit(const file::UnitSpec& unit);

/// Nothing where no pressure or spring is stated, or no rod.
///
/// Model:  gas of a volume that is not stated takes three times the rod's volume. The air over an open leg is
///         the one of [trapped_air]; its oil is not made to grow.
/// Tested: resolve_reservoir_test.cc
std::optional<ReservoirModel> resolve_reservoir(const file::UnitSpec& unit, const Conditions& conditions);

}  // namespace shimwright::resolve
