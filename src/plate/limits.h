#pragma once
#include <span>
#include <vector>

#include "plate/disc_element.h"
#include "plate/solver.h"
#include "plate/stack.h"

namespace shimwright::plate {

/// Share of the load at which a disc may leave axial symmetry and go wavy; above 1 it may [-].
///
/// Model:  Rayleigh quotient of the flat disc alone under the membrane forces found: deflection f(r) cos(m
/// theta) with
///         f = ((r - inner) / width)^k for a clamped disc, r^k for a ring, the worst of k = 2..6 and any m
///         >= 2. Radial tension holds, radial compression pushes as the hoop's does. Its dished shape and its
///         neighbours, which both steady it, are left out, so the real load is higher; the one trial shape
///         makes the load of this simplified disc 7 to 24 % too high under hoop compression alone, by a
///         series of eight terms, and 26 to 31 % too high where its rim is pressed inwards, by finite
///         elements. Two errors against each other: it marks no result, it only asks to look.
/// Shape:  radius and sections at the stations (n).
/// Source: energy of a plate under membrane forces, [timoshenko1961], from memory; derived here for
///         the annulus.
/// Tested: limits_test.cc
double buckling_ratio(std::span<const double> radius, std::span<const Section> sections, const Disc& disc,
                      bool ring);

/// The same for one disc again and again: all that its sections do not change.
class WavyRim {
 public:
  void set_up(std::span<const double> radius, const Disc& disc, bool ring);
  double ratio(std::span<const Section> sections) const;

 private:
  static constexpr int kPowers =
      5;  // the wave grows from the inner edge with the 2nd to 6th power of the radius
  /// What a section's membrane forces push and hold, for every power.
  struct Weight {
    double push[kPowers];  // by hoop force
    double hold[kPowers];  // by radial force
  };
  std::vector<Weight> weights_;  // by station
  double bend_[3][kPowers];      // energy of bending as a polynomial in the square of the number of waves
};

/// Fatigue margin of a stress that goes from zero to `stress` and back: amplitude and mean are half of it,
/// and the straight (Goodman) line joins the endurance amplitude and the ultimate strength; the yield
/// strength stands in for an unknown ultimate (Soderberg). 0 when the fatigue strength is not known.
double fatigue_margin(const Disc& disc, double stress);

/// Fills the margins of one disc and carries its rim, slope and yield into the limits of the point.
void judge_disc(const Disc& disc, int index, std::span<const Section> sections, double buckling,
                StackPoint& point);

/// Sets the outcome of a solved point from its limits.
void judge_point(const Stack& stack, const Options& options, StackPoint& point);

}  // namespace shimwright::plate
