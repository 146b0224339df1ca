#pragma once
#include <string>

#include "base/problem.h"
#include "flow/discharge.h"
#include "oil/liquid.h"

namespace shimwright::flow {

/// The opening under the rim of a lifted disc: a cylinder of the seat's perimeter and the lift's height.
struct Curtain {
  double seat_radius = 0.0;   // where the disc seals [m]
  double arc_fraction = 1.0;  // share of the circle that the ports open onto [-], 0 < f <= 1
  double land_width =
      0.0;  // radial width of the seat land; its film acts in series with the edge [m]; 0: no land

  Discharge discharge = sharp_discharge(0.7, Discharge::Laminar::WuestSlot);  // of the edge
};

struct CurtainPoint {
  double q = 0.0;         // [m^3/s]
  double dq_ddp = 0.0;    // at constant lift [m^3/(s.Pa)]
  double dq_dlift = 0.0;  // at constant drop [m^2/s]
};

/// 2 pi r arc lift [m^2].
double curtain_area(const Curtain& curtain, double lift);

/// Flow under a lifted disc for the drop over it.
///
/// Model:  edge of hydraulic diameter 2 lift. With a land, a parallel film 12 mu w Q / (2 pi r arc lift^3)
/// takes
///         its part of the drop first; inertia inside the film is neglected.
/// Units:  lift [m] >= 0 at the seat; drop [Pa], either sign.
/// Tested: curtain_test.cc
CurtainPoint curtain_flow(const Curtain& curtain, const oil::Liquid& liquid, double lift, double drop);

void find_problems(const Curtain& curtain, const std::string& field, Problems& problems);

}  // namespace shimwright::flow
