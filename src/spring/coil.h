#pragma once
#include <optional>
#include <span>
#include <vector>

namespace shimwright::spring {

/// A coil spring as drawn or measured.
struct CoilGeometry {
  double wire_diameter = 0.0;  // d [m]
  double mean_diameter = 0.0;  // D, middle of the wire to middle of the wire [m]
  double active_coils = 0.0;   // n, coils that twist [-]
  double total_coils = 0.0;    // with the end coils, counted at block length [-]
  double free_length = 0.0;    // [m]
  double shear_modulus = 0.0;  // G [Pa]; 78.5 to 81.5e9 for spring steel wire (from memory)
};

/// Rate of a coil spring, G d^4 / (8 D^3 n) [N/m].
///
/// Model:  round wire, small coil angle, axial load.
/// Source: [shigley2008] ch. 10, from memory; [en13906] uses the same
/// Tested: coil_test.cc (SP-01 to SP-04)
double coil_rate(const CoilGeometry& coil);

/// D / d.
double spring_index(const CoilGeometry& coil);

/// Length with all coils touching [m]: total coils times wire, for ends ground flat. Ends left round are up
/// to one wire longer: measure them.
double solid_length(const CoilGeometry& coil);

/// Compression from free length at which the coils touch [m].
double bind_compression(const CoilGeometry& coil);

/// Correction of the shear stress for the curvature of the wire, by spring index. Both are common; they
/// differ by 1.3 % at an index of 5. Source: [wahl1963]; [shigley2008] ch. 10, from memory
double wahl_factor(double index);
double bergstraesser_factor(double index);  // the one EN 13906-1 uses (from memory)

/// Greatest shear stress in the wire, factor x 8 F D / (pi d^3) [Pa]. A factor of 1 leaves curvature out.
double shear_stress(const CoilGeometry& coil, double force, double factor);

double rate_in_parallel(std::span<const double> rates);
double rate_in_series(std::span<const double> rates);

/// One spring, or one winding of a spring, of constant rate.
struct Coil {
  double rate = 0.0;                       // [N/m]
  std::optional<double> bind_compression;  // from free length until its coils touch or a stop takes over [m]
};

/// Coils stacked end to end, carrying the same force: one main spring, a dual-rate pair with its cross-over,
/// or a progressive spring as a chain of windings. The one that binds first drops out; the rest go on.
struct CoilStack {
  std::vector<Coil> in_series;  // order is of no matter (n >= 1)
  double preload = 0.0;         // compression at zero travel [m]; negative is a gap before it acts
};

/// What a spring element gives at one place of the travel.
struct ElementForce {
  double force = 0.0;   // pushing the leg apart [N]
  double rate = 0.0;    // d force / d travel [N/m]
  double energy = 0.0;  // work it has taken up since zero travel [J]
};

/// Force of the stack at a travel. Pushes only. Past its block length it goes on at the last rate: ask
/// `bind_travel` whether that is so.
/// Tested: coil_test.cc, spring_property_test.cc
ElementForce coil_force(const CoilStack& stack, double travel);

/// Travel at which every coil of the stack has bound; empty while one of them has no limit.
std::optional<double> bind_travel(const CoilStack& stack);

/// Travels at which coils drop out, rising; the last of them may be the block of the whole stack.
std::vector<double> crossover_travels(const CoilStack& stack);

}  // namespace shimwright::spring
