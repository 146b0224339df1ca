#pragma once
#include <string>

#include "base/problem.h"
#include "flow/orifice.h"

namespace shimwright::flow {

/// An adjuster's cone in a sharp-edged bore, drawn back by a thread with clicks.
struct Needle {
  double bore_diameter = 0.0;     // [m]
  double half_angle = 0.0;        // of the cone [rad], 0 < a < pi/2
  double pitch = 0.0;             // of the adjuster's thread [m per turn]
  double clicks_per_turn = 0.0;   // [-]
  double seated_clearance = 0.0;  // gap that is left at the cone with 0 clicks [m]

  double clicks = 0.0;  // the setting, counted out from seated [-]; part clicks are allowed

  Discharge discharge = sharp_discharge(0.7, Discharge::Laminar::WuestSlot);
};

/// Distance of the cone from its seat at the setting [m].
double needle_travel(const Needle& needle);

/// Opening between a cone and its bore when drawn back by `travel` [m^2].
///
/// Model:  frustum pi x sin(a) (d - x sin(a) cos(a)), the shortest surface from edge to cone; never more than
/// the bore. Tested: needle_test.cc (three values of physics case OR-18 and the bore limit)
double needle_area(const Needle& needle, double travel);

/// Travel at which the bore takes over and turning further out changes nothing [m].
double needle_full_travel(const Needle& needle);

/// The needle at its setting as an opening.
Orifice needle_opening(const Needle& needle);

void find_problems(const Needle& needle, const std::string& field, Problems& problems);

}  // namespace shimwright::flow
