#pragma once
#include "oil/oil.h"

namespace shimwright::flow {

/// What the reference cases of this module flow with: 870 kg/m3, 10 mPa s.
inline constexpr oil::Liquid kOil{.density = 870.0, .viscosity = 0.010};

}  // namespace shimwright::flow
