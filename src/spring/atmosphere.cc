#include "spring/atmosphere.h"

#include <cmath>

#include "base/check.h"

namespace shimwright::spring {
namespace {

// constants of the standard atmosphere ([iso2533])
constexpr double kSeaTemperature = 288.15;  // [K]
constexpr double kSeaPressure = 101325.0;   // [Pa]
constexpr double kLapse = 0.0065;           // [K/m]
constexpr double kGravity = 9.80665;        // [m/s^2]
constexpr double kGasConstant = 287.05287;  // of dry air [J/(kg K)]
constexpr double kEarthRadius = 6356766.0;  // [m]
constexpr double kLowest = -2000.0;         // [m]
constexpr double kHighest = 11000.0;        // where the lapse ends [m]

}  // namespace

Atmosphere standard_atmosphere(double altitude) {
  SW_CHECK(altitude >= kLowest && altitude <= kHighest, altitude);
  Atmosphere air;
  air.temperature = kSeaTemperature - kLapse * altitude;
  air.pressure =
      kSeaPressure * std::pow(air.temperature / kSeaTemperature, kGravity / (kGasConstant * kLapse));
  air.density = air.pressure / (kGasConstant * air.temperature);
  return air;
}

double ambient_pressure(double altitude) {
  return standard_atmosphere(altitude).pressure;
}

double geopotential_altitude(double height) {
  return kEarthRadius * height / (kEarthRadius + height);
}

}  // namespace shimwright::spring
