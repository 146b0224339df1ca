#pragma once
#include <optional>
#include <vector>

#include "plate/stack.h"

namespace shimwright::plate {

/// Lift at the seat over pressure as a monotone piecewise cubic: solved at a few pressures with its slope
/// there.
struct LiftCurve {
  std::vector<double> pressure;   // ascending, from 0 [Pa]
  std::vector<double> lift;       // at each [m]
  std::vector<double> slope;      // d lift / d pressure at each [m/Pa]
  double opening_pressure = 0.0;  // below it the stack seals [Pa]
  double seat_radius = 0.0;       // [m]
  double arc_fraction = 1.0;      // [-]
  double error = 0.0;             // largest misfit met while building, relative to the largest lift [-]
  Outcome outcome;                // the worst of the solved points; its iterations are pressures solved
};

/// The first piece of the curve is no longer, however little the stack moves in it [Pa].
inline constexpr double kCurveStart = 65536.0;

/// The lift up to p_max / kCurveGrowth is to the last bit the same for every larger p_max (Large theory),
/// when p_max lies at least kCurveStart above the opening.
inline constexpr double kCurveGrowth = 1.75;

/// The lift of a stack from zero to p_max, cheap to evaluate afterwards.
///
/// Model:  `stack_response` at pressures chosen so that the cubic between them keeps
/// `options.curve_tolerance`;
///         the opening, the ends of the float and every kink in Linear theory are points of the curve.
/// Units:  p_max > 0 [Pa].
/// Tested: lift_curve_test.cc
LiftCurve lift_curve(const Stack& stack, double p_max, const Options& options, Workspace& workspace);

/// Where the face disc leaves its seat, in the theory of the options [Pa]: 0 when nothing seals at rest; none
/// when it is still shut at p_max, or was not found.
/// Tested: lift_curve_test.cc
std::optional<double> opening_pressure(const Stack& stack, double p_max, const Options& options,
                                       Workspace& workspace);

/// Lift at a pressure [m]; never negative, never falling. Beyond the last pressure the curve goes on
/// straight; below zero it is the lift at rest.
double lift_at(const LiftCurve& curve, double pressure);

/// d lift / d pressure [m/Pa], continuous except at the points where the response itself has a kink.
double lift_slope_at(const LiftCurve& curve, double pressure);

/// 2 pi r_seat arc_fraction lift [m^2].
double opening_area_at(const LiftCurve& curve, double pressure);

}  // namespace shimwright::plate
