#pragma once
#include <string>

#include "base/problem.h"
#include "flow/flow_point.h"
#include "oil/liquid.h"

namespace shimwright::flow {

/// Thin ring gap past a piston band, a rod or a spool.
struct AnnularGap {
  double diameter = 0.0;      // [m]
  double clearance = 0.0;     // radial, when centred [m]
  double length = 0.0;        // along the flow [m]
  double eccentricity = 0.0;  // offset over clearance [-], 0 centred, 1 touching
};

/// Long round bores, laminar.
struct Capillary {
  int n_bores = 1;
  double diameter = 0.0;  // [m]
  double length = 0.0;    // [m]
};

/// Long flat gap, laminar.
struct Slot {
  double width = 0.0;   // across the flow [m]
  double height = 0.0;  // the thin way [m]
  double length = 0.0;  // along the flow [m]
};

/// Laminar, fully developed flow; no entry loss.
///
/// Model:  gap pi D c^3 drop (1 + 1.5 e^2) / (12 mu L), the factor exact for a thin gap; capillary n pi d^4
/// drop /
///         (128 mu L); slot w h^3 drop / (12 mu L).
/// Valid:  Reynolds number below about 2000 (see mean_reynolds).
/// Source: [merritt1967] ch. 3, from memory
/// Tested: laminar_test.cc (OR-12, OR-15, OR-16)
FlowPoint gap_flow(const AnnularGap& gap, const oil::Liquid& liquid, double drop);
FlowPoint capillary_flow(const Capillary& capillary, const oil::Liquid& liquid, double drop);
FlowPoint slot_flow(const Slot& slot, const oil::Liquid& liquid, double drop);

/// Flow dragged through the gap by one wall that moves along it [m^3/s]: pi D c U / 2.
double dragged_flow(const AnnularGap& gap, double wall_speed);

/// Centred gap without the thin-gap simplification, from the radii [m^3/s].
double concentric_gap_flow(double outer_radius, double inner_radius, double length, double viscosity,
                           double drop);

/// Reynolds number on mean speed and hydraulic diameter of a flow through it [-].
double mean_reynolds(const AnnularGap& gap, const oil::Liquid& liquid, double q);
double mean_reynolds(const Capillary& capillary, const oil::Liquid& liquid, double q);

void find_problems(const AnnularGap& gap, const std::string& field, Problems& problems);
void find_problems(const Capillary& capillary, const std::string& field, Problems& problems);
void find_problems(const Slot& slot, const std::string& field, Problems& problems);

}  // namespace shimwright::flow
