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

/// What one stroke feels of another oil.
struct OilSwapForce {
  Stroke stroke = Stroke::Compression;
  double speed = 0;   // [m/s]
  double before = 0;  // [N]
  double after = 0;   // [N]
};

/// Clicks of one adjuster that bring the force at the slow speed back.
struct OilSwapClicks {
  std::string adjuster;
  int change = 0;  // negative: in
};

/// One unit with another oil of the parts files in place of its own, at the working temperature.
struct OilSwap {
  std::string unit;
  std::string from;
  std::string to;
  double kinematic_ratio = 1;  // of the other to its own
  double density_ratio = 1;    // the same
  double same_viscosity_at =
      0;  // temperature at which the other is as thin as its own at the working one [K]
  std::vector<OilSwapForce> forces;   // both strokes at three speeds
  std::vector<OilSwapClicks> clicks;  // of each adjuster
  Outcome outcome;
};

}  // namespace shimwright::job
