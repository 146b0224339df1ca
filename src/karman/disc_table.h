#pragma once
#include <array>
#include <span>
#include <vector>

#include "plate/stack.h"

namespace shimwright::karman {

/// Shapes in which a disc stretches as it dishes.
inline constexpr int kModes = 4;
inline constexpr int kPairs = kModes * (kModes + 1) / 2;  // of two of them, the order left out

/// Radii closer than this share of the largest are one.
inline constexpr double kSameRadius = 1e-6;

inline constexpr int kMostRadii = 256;  // stations of a table

/// What all stacks of a search have in common.
struct Valve {
  double clamp_radius = 0.0;  // edge of boss and washer [m]
  plate::Load load;
  double seat_radius = 0.0;       // where the lift is read, and where a seat presses [m]
  double youngs_modulus = 206e9;  // of every disc [Pa]
  double poisson_ratio = 0.3;     // of every disc [-]

  bool operator==(const Valve&) const = default;
};

/// A clamped disc of one rim radius and unit bending stiffness, free at its rim. Its lift under ring forces
/// is that in the modes plus what remains: `remainder` x force.
struct Disc {
  double radius = 0.0;                 // rim [m]
  int n = 0;                           // stations up to the rim, which is the last
  std::vector<double> remainder;       // lift by unit force, n x n
  std::vector<double> lift;            // of the modes, at each station (n x kModes)
  std::vector<double> slope;           // of the modes, likewise
  std::vector<double> pressure_lift;   // what remains of the lift at unit pressure (n)
  std::vector<double> pressure_shear;  // lift at unit pressure by shear, times the shear stiffness (n)
  std::array<double, kModes> pressure_force{};  // work of unit pressure on each mode
  // second derivatives of the stretching energy at unit E t: by products of amplitudes (k, l), k <= l, one
  // after the other, each with what it adds to (i, j), i <= j
  std::array<double, kPairs * kPairs> stretch{};

  // what large slopes add, where the disc is the face: row i times the products of amplitudes (k, l)
  std::array<double, kModes * kPairs> pressure_turn{};  // force on mode i at unit pressure
  std::array<double, kModes * kPairs> seat_bow{};  // d/d amplitude i of what the lift at the seat loses [m]
  // force on the modes at unit pressure by a disc that lies a unit below the middle, times the amplitudes
  std::array<double, kModes * kModes> pressure_arm{};
};

/// Discs of all rims that a search may use, on one valve. Thickness enters by t^3 and t alone, so it is not
/// in here.
struct DiscTable {
  Valve valve;
  std::vector<double> radius;      // stations: rims, seat, fills; ascending, beyond the clamp [m]
  std::vector<double> shear_lift;  // by station: ln(r / clamp) / (2 pi)
  int seat_station = 0;
  std::vector<Disc> discs;  // ascending
};

/// Builds the table: some milliseconds.
///
/// Model:  the bending of a thin plate in closed form (plate/annulus.h), its leading modes those of the
///         flexibility at the stations; the radial forces of von Karman's plate by its stress function.
/// Units:  rims [m], each beyond the clamp; order and repeats do not matter.
/// Valid:  not more than some 200 different rims (SW_CHECK).
/// Source: [timoshenko1959] art. 100 and 101 for the plate that stretches (from memory); the modes and their
///         energies are worked out in README.md.
/// Tested: textbook_test.cc, full_solver_test.cc
DiscTable table_of_discs(const Valve& valve, std::span<const double> rims);

}  // namespace shimwright::karman
