#pragma once
#include <span>

namespace shimwright::plate {

/// An annular plate as the closed forms need it: free outside; inside held flat, or a free ring that may only
/// not move at its bore (its rigid lift is an unknown of the stack).
struct Annulus {
  double inner = 0.0;            // [m]
  double outer = 0.0;            // [m]
  double stiffness = 0.0;        // D = E t^3 / (12 (1 - nu^2)), of all equal discs together [N m]
  double poisson_ratio = 0.0;    // [-]
  double shear_stiffness = 0.0;  // kappa G t of all together [N/m]; infinite for a thin plate
  bool ring = false;
};

/// Lift at station i by a unit ring force (1 N around the circle) at station j, linear theory [m/N].
///
/// Model:  Reissner-Mindlin plate, closed form. The shear force follows from equilibrium alone, so the
/// rotation is that of
///         the thin plate and shear adds ln(min(r_i, r_j) / inner) / (2 pi kappa G t).
/// Shape:  radius ascending from `inner` (n); log_radius their logarithms (n); flexibility symmetric, row
/// after row (n x n). Source: D L(theta) = -S, L = r d2/dr2 + d/dr - 1/r, solved by r, 1/r and r ln r; same
/// content as [young2002] table 11.2
///         case 1l (physics reference, section 1.1), derived again here with a free ring as well.
/// Tested: annulus_test.cc
void ring_flexibility(const Annulus& plate, std::span<const double> radius,
                      std::span<const double> log_radius, std::span<double> flexibility);

struct AnnulusShape {
  std::span<double> lift;       // over the inner edge [m]
  std::span<double> slope;      // rotation of the section [rad]
  std::span<double> curvature;  // d slope / dr [1/m]
};

/// Shape under an axisymmetric axial load, linear theory, closed form.
///
/// Shape:  radius ascending from inner to outer (n); between stations k and k + 1 the load outside r, per
/// radian, is
///         constant[k] + square[k] r^2 [N]; results at the stations (n).
/// Tested: annulus_test.cc
void loaded_shape(const Annulus& plate, std::span<const double> radius, std::span<const double> log_radius,
                  std::span<const double> constant, std::span<const double> square,
                  const AnnulusShape& shape);

}  // namespace shimwright::plate
