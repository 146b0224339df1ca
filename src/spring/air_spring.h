#pragma once
#include <optional>

#include "spring/coil.h"

namespace shimwright::spring {

/// Where and how warm the springs work.
struct Conditions {
  double temperature = 293.15;         // of the air in the chambers [K]
  double ambient_pressure = 101325.0;  // around the leg, absolute [Pa]; see `ambient_pressure` of an altitude
};

/// A sealed volume of air behind a piston.
struct AirChamber {
  double area = 0.0;                   // of the piston face it works on [m^2]
  double empty_volume = 0.0;           // leg fully out, without oil [m^3]
  double oil_volume = 0.0;             // oil standing in it [m^3]
  double pressure = 101325.0;          // when sealed, leg fully out, absolute [Pa]
  double sealed_temperature = 293.15;  // [K]
  double exponent = 1.2;  // 1 slow (heat flows off) to 1.4 fast (none flows off); 1.2 between them is
                          // common practice, no source
};

/// A positive chamber that shrinks with travel, and where there is one a negative chamber that grows.
/// The air over the oil of an open fork, and a gas reservoir acting on the rod's area, are positive chambers.
struct AirSpring {
  AirChamber positive;
  std::optional<AirChamber> negative;    // its pressure counts only without a transfer port
  std::optional<double> balance_travel;  // where a transfer port makes both pressures equal [m]
};

/// Force of the air over what surrounds the leg: (p+ - p0) A+ - (p- - p0) A-.
///
/// Model:  polytropic chambers, p V^n constant over travel; sealed pressure moves with absolute temperature.
///         A transfer port sets the negative pressure so that both are equal there, whatever the temperature.
/// Valid:  the positive chamber keeps at least 1/50 of its volume (`air_end_travel`). Beyond that travel the
///         force stays what it was there: a leg full of oil moves no further.
/// Source: ideal gas; common to every text on air springs
/// Tested: air_spring_test.cc (SP-06, SP-07, SP-09, SP-10, HY-01, AR-02), spring_property_test.cc
ElementForce air_force(const AirSpring& spring, const Conditions& conditions, double travel);

struct AirPressures {
  double positive = 0.0;           // absolute [Pa]
  std::optional<double> negative;  // absolute [Pa]
};
AirPressures air_pressures(const AirSpring& spring, const Conditions& conditions, double travel);

/// Air in the chamber with the leg fully out [m^3].
inline double air_volume(const AirChamber& chamber) {
  return chamber.empty_volume - chamber.oil_volume;
}

/// What a gauge reads on the positive chamber with the leg fully out, here and now [Pa above ambient].
/// A gauge set elsewhere reads otherwise although no air was lost.
double gauge_reading(const AirSpring& spring, const Conditions& conditions);

/// Travel at which the air of the positive chamber is down to 1/50 of its volume [m]: the leg is full of oil.
double air_end_travel(const AirSpring& spring);

/// Temperature of air after a quick change of pressure, no heat flowing [K].
/// Source: [rabie2009] eqs 2.86 to 2.89
/// Tested: air_spring_test.cc (AR-02)
double adiabatic_temperature(double temperature, double pressure_ratio, double heat_ratio = 1.4);

}  // namespace shimwright::spring
