#pragma once
#include <array>
#include <cstdint>

#include "karman/pile.h"

namespace shimwright::karman {

inline constexpr int kMostActive = 96;

/// How far the layers bend, and who touches whom.
struct State {
  double pressure = 0.0;
  std::array<std::array<double, kModes>, kMostLayers> amplitude;  // of each layer's modes
  std::array<std::array<double, kModes>, kMostLayers> rate;       // their growth with pressure
  std::array<char, kMostPoints> active;
  std::array<double, kMostPoints> force, force_rate;  // by point [N], [N/Pa]
};

/// One pressure solved: the lift at the seat radius and how it grows.
struct Solved {
  bool ok = false;
  double lift = 0.0;   // of the face disc at the seat radius over the clamp plane [m]
  double slope = 0.0;  // d lift / d pressure [m/Pa]
  int steps = 0;
};

/// Von Karman's plates in one-sided contact, by Newton's rule on the amplitudes of the modes, the layers
/// condensed to their contact forces.
///
/// Model:  README.md.
class Newton {
 public:
  explicit Newton(const Pile& pile) : pile_(pile) {}
  Newton(const Newton&) = delete;

  /// Flat, only rims that lie on each other pressing, and the seat where it preloads.
  void begin(State& state) const;

  /// From `state` to equilibrium at its pressure.
  Solved solve(State& state);

  /// One step of the linear theory, contacts changed as it finds them.
  bool step_linear(State& state);

  /// From the state solved last to a guess at a higher pressure: amplitudes as powers of the pressure.
  void foresee(State& state, double pressure) const;

  /// Scales what the linear theory gives at this pressure to what stretching leaves of it, by the energies.
  void soften_start(State& state);

  /// To equilibrium at the pressure between the two at which the points of a run cease to press.
  Solved solve_release(State& state, int run, double lowest, double highest);

  /// The slope at the state solved last with the points of a run taken away [m/Pa].
  double slope_without(State& state, int run);

 private:
  bool step(State& state, int release_run, double lowest, double highest);
  void list_active(const State& state);
  void turn_layers(const State& state);
  void touch(const State& state, int layer, int active, int station, double sign, double arm);
  void assemble();
  void lay_out_columns();
  bool factor();
  void solve_factored(double* x) const;
  void find_loads();
  void spread(State& state);
  void finish(State& state);
  int flip(State& state, int release_run) const;

  struct Tangent {
    std::array<double, kModes * kModes> give;    // inverse of the modes' stiffness at unit bending stiffness
    std::array<double, kModes> rest, rest_rate;  // amplitudes without contact: at no pressure; by pressure
  };
  struct Touch {
    int active = 0;  // index among the active points
    int station = 0;
    double sign = 0.0;                // +1: pushes the layer up
    double rest = 0.0;                // lift of the surface there beside `lift` times the amplitudes [m]
    std::array<double, kModes> lift;  // of the surface there by the modes, about the present slope
  };

  const Pile& pile_;
  std::array<Tangent, kMostLayers> tangent_;
  std::array<std::array<Touch, kMostActive>, kMostLayers> touch_;
  std::array<int, kMostLayers> n_touch_;
  int n_active_ = 0;
  std::array<int, kMostActive> active_point_;
  std::array<int, kMostActive> row_first_;
  // lower half, column after column, as plate::factor_profile takes it
  std::array<int, kMostActive> column_end_, column_offset_;
  std::array<double, kMostActive * kMostActive> matrix_;
  std::array<double, kMostActive> over_pivot_;
  std::array<double, kMostActive> constant_, by_pressure_;  // what forces the active points, or forces
  std::array<double, kMostPoints> gap_;
  std::array<std::array<double, kMostStations>, kMostLayers> bottom_, top_;  // lift of the surfaces
  double seat_lift_ = 0.0;  // of the face layer's middle, its slope there counted [m]
  double slope_ = 0.0;
  double seat_loss_ = 0.0;  // of the lift at the seat, by slopes that are large [m]
  double change_ = 0.0;     // of the amplitudes in the last step, by energy
  double force_scale_ = 0.0;
};

}  // namespace shimwright::karman
