#pragma once
#include <span>
#include <vector>

#include "base/problem.h"

namespace shimwright::assembly {

// ---------------------------------------------------------------- volumes

/// Volume that a rod pushes out over a stroke, or air that a stop `stroke` short hides [m^3].
double rod_volume(double rod_diameter, double stroke);

/// A closed tube full of oil with a rod in it, at one stated rod position.
struct CartridgeFill {
  double bore = 0.0;          // [m]
  double length = 0.0;        // inside, foot valve to seal head [m]
  double rod_diameter = 0.0;  // [m]
  double rod_bore = 0.0;      // of a hollow rod that fills with oil [m]; 0: solid or sealed
  double rod_inside = 0.0;    // length of rod in the tube at the stated position [m]
  double solids = 0.0;        // piston, valves, nut, springs [m^3]
  double elsewhere = 0.0;     // oil outside the tube that belongs to it: reservoir, bladder, hose [m^3]
};
Problems problems_in(const CartridgeFill& fill);

/// Oil it takes [m^3].
double oil_volume(const CartridgeFill& fill);

/// A body in an outer tube that takes room from the oil.
struct Standing {
  double diameter = 0.0;  // outer, of a closed body [m]
  double bottom = 0.0;    // height above the tube's floor [m]
  double top = 0.0;       // [m]
};

/// A leg's outer tube, upright, at the position in which the level is measured.
struct OuterTube {
  double bore = 0.0;    // [m]
  double height = 0.0;  // floor to the rim that the level is measured from [m]
  std::vector<Standing> standing;
};
Problems problems_in(const OuterTube& tube);

/// Oil below a level `air_gap` under the rim [m^3].
/// Source: plain areas. Tested: fill_reference_test.cc
double oil_at_air_gap(const OuterTube& tube, double air_gap);

/// Air gap that `oil` leaves [m]; exact inverse. Negative: it runs over, as if the bore went on.
double air_gap_at_oil(const OuterTube& tube, double oil);

/// Air above the oil, rim to level, without the bodies in it [m^3].
double air_at_air_gap(const OuterTube& tube, double air_gap);

// ---------------------------------------------------------------- warming up

/// From the bench to the trail.
struct Warming {
  double oil_volume = 0.0;      // at fill [m^3]
  double oil_expansion = 0.0;   // volumetric [1/K]; or 0 with both densities given
  double fill_density = 0.0;    // [kg/m^3]
  double work_density = 0.0;    // [kg/m^3]
  double body_expansion = 0.0;  // linear [1/K]: steel 12e-6, aluminium 23e-6
  double rise = 0.0;            // temperature difference [K]
};
Problems problems_in(const Warming& warming);

/// Room the oil needs beyond what its body grows [m^3].
///
/// Model:  V (beta - 3 alpha) dT; from densities V (rho_fill/rho_work - 1) - 3 alpha V dT.
double oil_growth(const Warming& warming);

// ---------------------------------------------------------------- what the compensator can take, what is
// purged

/// A cartridge's give: bladder, free piston on a spring, or gas.
struct PurgeCase {
  double rod_diameter = 0.0;  // [m]
  double stroke = 0.0;        // full travel of the rod [m]
  double capacity = 0.0;      // oil that the compensator takes before it vents or stops [m^3]
  double extra_oil = 0.0;     // poured in beyond the right fill [m^3], negative: short
  double growth = 0.0;        // oil_growth() to working temperature [m^3]
};
Problems problems_in(const PurgeCase& purge_case);

/// What goes out over the purge port in the first full stroke cold, and later warm.
///
/// Model:  everything that the rod and the growth push in beyond the capacity leaves.
struct Purge {
  double first_stroke = 0.0;  // cold [m^3]
  double when_warm = 0.0;     // further, on the way to working temperature [m^3]
  double spare = 0.0;  // capacity left when warm and fully in [m^3]; negative: too little, it vents or locks
};
Purge expected_purge(const PurgeCase& purge_case);

/// How to stroke the air out. Common practice, no source: strokes of some 125-150 mm for 5-10 minutes.
struct BleedPlan {
  double stroke_low = 0.0, stroke_high = 0.0;    // [m], no longer than the travel
  double seconds_low = 0.0, seconds_high = 0.0;  // [s]
  double purge_accepted = 0.0;                   // a correct fill purges no more [m^3]
};
BleedPlan bleed_plan(double rod_diameter, double stroke);

}  // namespace shimwright::assembly
