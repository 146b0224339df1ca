#pragma once
#include <optional>
#include <string>
#include <vector>

#include "document/document_value.h"

// What each struct and each member means: document_describe_oil.cc

namespace shimwright::document {

struct OilPoint {
  double temperature = 0;
  double kinematic_viscosity = 0;
  double dynamic_viscosity = 0;
  double density = 0;
  bool extrapolated = false;
};

struct OilResult {
  std::string name;
  std::vector<std::string> used_in;
  OilPoint working;
  std::vector<OilPoint> table;
  std::optional<double> viscosity_index;
  double bulk_modulus = 0;
  double bulk_pressure = 0;
  double air_release_pressure = 0;
  Outcome outcome;
};

struct OilSwapForce {
  Stroke stroke = Stroke::Compression;
  double speed = 0;
  double before = 0;
  double after = 0;
};

struct OilSwapClicks {
  std::string adjuster;
  int change = 0;
};

struct OilSwap {
  std::string unit;
  std::string from;
  std::string to;
  double kinematic_ratio = 1;
  double density_ratio = 1;
  double same_viscosity_at = 0;
  std::vector<OilSwapForce> forces;
  std::vector<OilSwapClicks> clicks;
  Outcome outcome;
};

}  // namespace shimwright::document
