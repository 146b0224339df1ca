#pragma once
#include "plate/disc_element.h"

namespace shimwright::plate {

/// One element's contributions; dofs are phi and psi of its inner, middle and outer node.
struct DiscElements::Local {
  double residual[6];
  double tangent[6][6];
  double by_force[6];     // minus d residual / dS
  double by_pressure[6];  // minus d residual / d pressure
  double lift;            // over the element
  double travel;          // over the element
  double energy;          // per radian
};

}  // namespace shimwright::plate
