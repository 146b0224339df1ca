#pragma once
#include "file/spec.h"

namespace shimwright::resolve {

/// The weather of the job in numbers. What the file leaves out: 40 degC oil, 20 degC bench and air, sea level
/// (common practice, no source).
struct Conditions {
  double oil_temperature = 313.15;     // working [K]
  double fill_temperature = 293.15;    // at the bench [K]
  double air_temperature = 293.15;     // of the air springs, working [K]
  double altitude = 0.0;               // [m]
  double ambient_pressure = 101325.0;  // absolute [Pa]
};

Conditions resolve_conditions(const file::JobSpec& job);

/// A pressure as written, absolute: a gauge reading has the air of the place added [Pa].
double absolute_pressure(const file::Quantity& written, double ambient_pressure);

}  // namespace shimwright::resolve
