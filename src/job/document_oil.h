#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/document_value.h"

namespace shimwright::job {

struct OilPoint {
  double temperature = 0;          // [K]
  double kinematic_viscosity = 0;  // [m2/s]
  double dynamic_viscosity = 0;    // [Pa s]
  double density = 0;              // [kg/m3]
  bool extrapolated = false;       // outside the two measured viscosities
};

/// One oil over temperature.
struct OilResult {
  std::string name;                  // as in the parts file
  std::vector<std::string> used_in;  // names of units
  OilPoint working;                  // at the job's oil temperature
  std::vector<OilPoint>
      table;  // ascending in temperature, from 0 degC to 100 degC and the working temperature
  std::optional<double> viscosity_index;  // empty where ASTM D2270 does not define one
  double bulk_modulus = 0;                // with its entrained air at the pressure below [Pa]
  double bulk_pressure = 0;               // absolute [Pa]
  double air_release_pressure = 0;        // absolute [Pa]
  Outcome outcome;
};

}  // namespace shimwright::job
