#pragma once
#include <array>
#include <cstdint>

#include "karman/disc_table.h"

namespace shimwright::karman {

inline constexpr int kMostLayers = 12;
inline constexpr int kMostStations = 20;
inline constexpr int kMostPoints = kMostLayers * kMostStations;
inline constexpr int kSeatRun = 0;  // the first of the runs is the seat's, where there is one
inline constexpr int kSeat = -1;    // as the lower body of a contact

/// Equal neighbours, which bend as one of n-fold stiffness.
struct Layer {
  const Disc* disc = nullptr;
  int n_equal = 1;
  double thickness = 0.0;    // of one disc [m]
  double z_bottom = 0.0;     // underside at rest over the clamp plane [m]
  int n = 0;                 // stations of the stack on it: the first so many
  double stiffness = 0.0;    // in bending, of all discs together [N m]
  double give = 0.0;         // its inverse
  double stretch = 0.0;      // E t over the bending stiffness [1/m^2]
  double shear_give = 0.0;   // of all discs together [m/N]
  double offset = 0.0;       // of the lowest disc from the middle of the layer [m]
  double half_height = 0.0;  // [m]
  int first = 0;             // of its rows in `remainder` of the pile
};

struct Point {
  int lower = 0;  // layer, or kSeat
  int upper = 0;  // layer
  int station = 0;
  double gap = 0.0;  // at rest; negative preloads [m]
};

/// Points of one pair of bodies at stations that follow each other: first..last.
struct Run {
  int lower = 0;
  int upper = 0;
  int first = 0;
  int last = 0;
};

/// A stack as the solver sees it: a few stations out of the table, what its layers are there, and where they
/// can touch. Points are ordered by lower layer, then upper, then station; a seat comes first.
struct Pile {
  int n_layers = 0, n_stations = 0, n_points = 0, n_runs = 0;
  int seat_station = 0;
  bool has_seat = false;
  double seat_height = 0.0;  // [m]
  std::array<Layer, kMostLayers> layers;
  std::array<int, kMostStations> station;  // in the table
  std::array<Point, kMostPoints> points;
  std::array<Run, kMostPoints> runs;
  // by layer and station: rows of what remains of the lift by unit force, shear included
  std::array<double, kMostLayers * kMostStations * kMostStations> remainder;
  // by layer and station: the modes' lift and slope; and by layer, mode and station
  std::array<double, kMostLayers * kMostStations * kModes> lift, slope, lift_by_mode, slope_by_mode;
  std::array<double, kMostStations> pressure_lift;  // of the face layer: what remains at unit pressure

  const double* lift_at(int layer, int station_at) const {
    return &lift[(layer * kMostStations + station_at) * kModes];
  }
  const double* slope_at(int layer, int station_at) const {
    return &slope[(layer * kMostStations + station_at) * kModes];
  }
  const double* lift_of(int layer, int mode) const {
    return &lift_by_mode[(layer * kModes + mode) * kMostStations];
  }
  const double* slope_of(int layer, int mode) const {
    return &slope_by_mode[(layer * kModes + mode) * kMostStations];
  }
};

/// Piles up a stack that the table covers.
void pile_up(const DiscTable& table, const plate::Stack& stack, Pile& pile);

/// Whether a disc ends under the clamp and adds its height alone.
bool is_spacer(const Valve& valve, const plate::Disc& disc);

/// Whether two discs beyond the clamp bend alike.
bool are_equal(const plate::Disc& a, const plate::Disc& b);

/// The disc of this rim; none when the table has none.
const Disc* find_disc(const DiscTable& table, double radius);

}  // namespace shimwright::karman
