#pragma once
#include <vector>

#include "plate/stack.h"

namespace shimwright::plate {

/// Bodies that are no layer, as `ContactPoint` names them: the seat and boss below; washer and spring above.
inline constexpr int kBelow = -1;

/// A run of equal neighbouring discs, which bend as one of n-fold stiffness.
struct Layer {
  int first_disc = 0;
  int n_equal = 1;
  bool ring = false;       // nothing clamps it
  double inner = 0.0;      // clamp edge, or the ring's bore [m]
  double outer = 0.0;      // [m]
  double thickness = 0.0;  // of one disc [m]
  double youngs_modulus = 0.0;
  double poisson_ratio = 0.0;
  RimNotches notches;
  double z_bottom = 0.0;  // underside at rest over the clamp plane [m]
  int begin = 0;          // station of the inner edge
  int end = 0;            // station of the outer edge

  int n_stations() const { return end - begin + 1; }
  double height() const { return n_equal * thickness; }
  double offset() const { return 0.5 * (n_equal - 1) * thickness; }  // of its last disc from its middle [m]
  double spread() const {  // mean square of how far its discs lie from its middle [m^2]
    return (n_equal * n_equal - 1) * thickness * thickness / 12.0;
  }
};

/// A place where two bodies can touch.
struct ContactPoint {
  int lower = 0;  // layer, or kBelow
  int upper = 0;  // layer; n_layers for the washer, n_layers + 1 for the back spring
  int station = 0;
  double gap = 0.0;         // at rest; negative preloads [m]
  double compliance = 0.0;  // of the body itself: a back spring's [m/N]
};

/// Contact points of one pair of bodies at stations that follow each other.
struct ContactRun {
  int lower = 0;
  int upper = 0;
  int first_point = 0;
  int n = 0;
  int station = 0;  // of the first
};

/// The stack as the solver sees it: radial stations shared by all layers, the layers, the contact points
/// between them (ordered by lower layer, then upper, then station) and the load.
struct Layout {
  std::vector<double> radius;  // stations, ascending from the edge of the clamp [m]
  std::vector<Layer> layers;
  std::vector<ContactPoint> points;
  std::vector<int>
      first_point;  // n_layers + 2: points with lower == l are first_point[l + 1] .. first_point[l + 2]
  std::vector<ContactRun> runs;  // all points, in their order
  std::vector<std::vector<int>> runs_below,
      runs_above;  // by layer: runs that it is the upper, the lower body of

  // axial load outside r, per radian, at unit pressure: load_constant[k] + load_square[k] r^2 between
  // stations k, k + 1
  std::vector<double> load_constant;
  std::vector<double> load_square;
  double load_force = 0.0;  // whole, at unit pressure [N/Pa]
  int seat_station = 0;
  int n_layers() const { return static_cast<int>(layers.size()); }
};

/// Builds the layout; `stack` must be without problems.
void lay_out(const Stack& stack, int refinement, Layout& layout);

}  // namespace shimwright::plate
