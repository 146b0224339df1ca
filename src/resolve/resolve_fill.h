#pragma once
#include <optional>
#include <vector>

#include "assembly/acceptance.h"
#include "assembly/fill.h"
#include "file/spec.h"
#include "oil/oil.h"
#include "resolve/resolve_conditions.h"
#include "resolve/resolve_places.h"
#include "resolve/resolve_report.h"
#include "resolve/resolve_reservoir.h"

namespace shimwright::resolve {

/// What is poured into one unit, and what was seen when it was tried.
struct FillModel {
  const file::FillSpec* spec = nullptr;
  std::optional<assembly::CartridgeFill> cartridge;
  std::optional<assembly::OuterTube> tube;
  std::optional<double> level;  // of the outer oil, from the rim down [m]
  double rod_diameter = 0.0;    // [m]
  double stroke = 0.0;          // [m]
  std::optional<ReservoirModel> reservoir;
  bool has_purge_port = false;       // the compensator lets too much oil out
  double fill_density = 0.0;         // of the oil [kg/m3]; 0: oil not known
  double work_density = 0.0;         // [kg/m3]
  double body_expansion = 0.0;       // by length [1/K]
  double fill_temperature = 0.0;     // [K]
  double working_temperature = 0.0;  // [K]
  double return_force = 0.0;         // that pushes the rod out [N]; 0: drawn by hand
  double seal_drag = 0.0;            // [N]
  std::optional<assembly::Observation> observation;
  FieldPlaces places;
};

/// Tested: resolve_test.cc
std::optional<FillModel> resolve_fill(const file::JobSpec& job, const file::UnitSpec& unit,
                                      const Conditions& conditions, const oil::OilModel* oil,
                                      ResolveReport& report);

}  // namespace shimwright::resolve
