#pragma once

namespace shimwright::spring {

/// Still air of the standard atmosphere.
struct Atmosphere {
  double temperature = 288.15;  // [K]
  double pressure = 101325.0;   // absolute [Pa]
  double density = 1.225;       // [kg/m^3]
};

/// The standard atmosphere at a geopotential altitude, from 2000 m below the sea to 11000 m.
///
/// Model:  temperature falls by 6.5 K per km, the air is in hydrostatic balance.
/// Units:  altitude [m]. Up to 5000 m it may be read as height above the sea: 0.05 % of the pressure.
/// Valid:  -2000 to 11000 m; SW_CHECK beyond.
/// Source: [iso2533]; checked against rows of the US Standard Atmosphere 1976 (rows from memory)
/// Tested: atmosphere_test.cc (AT-01, AT-02)
Atmosphere standard_atmosphere(double altitude);

/// Ambient pressure at an altitude [Pa absolute]; `standard_atmosphere`, pressure only.
double ambient_pressure(double altitude);

/// Geopotential altitude of a height above the sea [m].
double geopotential_altitude(double height);

}  // namespace shimwright::spring
