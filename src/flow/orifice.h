#pragma once
#include <string>

#include "base/problem.h"
#include "flow/discharge.h"
#include "flow/flow_point.h"
#include "oil/liquid.h"

namespace shimwright::flow {

/// One opening, or several equal ones side by side: a port, a bored bleed, the gap of a needle, a notch.
struct Orifice {
  double area = 0.0;                // of all of them together [m^2]; 0 is a closed opening
  double hydraulic_diameter = 0.0;  // of one of them, 4 area / perimeter [m]
  double length = 0.0;              // along the flow [m]; used by the tube laws only

  Discharge discharge;
};

/// Below this drop a fixed coefficient is replaced by a smooth odd polynomial, so that its slope stays
/// finite.
inline constexpr double kSmoothDrop = 1e-3;  // [Pa]

/// Equal round holes.
Orifice round_holes(int n_holes, double diameter, double length, const Discharge& discharge);

/// Flow through an opening for a drop: q = cd area sqrt(2 drop / rho).
///
/// Model:  quasi-steady, incompressible; the kinetic energy upstream is neglected.
/// Units:  drop [Pa], either sign; q [m^3/s].
/// Valid:  any drop. With a fixed coefficient |drop| < kSmoothDrop uses q_1 (5 x - x^3) / 4, x = drop /
/// kSmoothDrop. Tested: orifice_test.cc, flow_property_test.cc
FlowPoint orifice_flow(const Orifice& orifice, const oil::Liquid& liquid, double drop);

/// The drop that drives a flow through an opening [Pa]: the inverse of orifice_flow to rounding.
/// Infinite for a flow through a closed opening.
double orifice_drop(const Orifice& orifice, const oil::Liquid& liquid, double q);

struct DropPoint {
  double drop = 0.0;    // [Pa]
  double ddp_dq = 0.0;  // its derivative with the flow [Pa.s/m^3]
};

/// The same with its derivative, for a flow >= 0.
DropPoint orifice_drop_point(const Orifice& orifice, const oil::Liquid& liquid, double q);

/// Area of one opening that passes as much as several in a row, equal constant coefficients [m^2].
double series_area(double area_a, double area_b);

/// Steady force of a jet on the disc or spool that turns it, along the axis [N]: 2 cd cv A drop cos(angle).
/// Source: [merritt1967] ch. 5, angle 69 degrees for a sharp spool edge; from memory
double jet_force(double cd, double velocity_coefficient, double area, double drop, double angle);

void find_problems(const Orifice& orifice, const std::string& field, Problems& problems);

}  // namespace shimwright::flow
