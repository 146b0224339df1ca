#pragma once
#include <string>

#include "base/problem.h"
#include "flow/orifice.h"

namespace shimwright::flow {

/// Notches in the rim of a face disc: each a window as wide as the notch and as high as the disc.
struct Notches {
  int n_notches = 0;
  double width = 0.0;      // [m]
  double thickness = 0.0;  // of the notched disc [m]
  double length = 0.0;     // along the flow, the land crossed [m]; used by the tube laws only

  Discharge discharge = sharp_discharge(0.7, Discharge::Laminar::WuestSlot);
};

/// The notches as one opening: area n w t, hydraulic diameter 2 w t / (w + t).
Orifice notch_opening(const Notches& notches);

void find_problems(const Notches& notches, const std::string& field, Problems& problems);

}  // namespace shimwright::flow
