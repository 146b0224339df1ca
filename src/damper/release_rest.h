#pragma once
#include <optional>

#include "damper/motion_model.h"

// The end of the try by hand by the balance of forces alone. Oil that drags changes when the rod gets there,
// never where it stops: so none of this knows a valve or a temperature of the oil.

namespace shimwright::damper {

/// The stretch in which the seals hold a rod that nobody holds.
struct RestBand {
  double inner =
      0.0;  // a rod that comes out stops here; 0: fully out; the pushed travel: it never starts [m]
  double outer = 0.0;  // springs that pull near fully out bring a rod back in to here; 0 without them [m]
};

/// Model:  a rod comes out as long as gas, reservoir and springs push harder than its seals rub. The seal of
/// a free
///         piston rubs too: its pressure is lost on the way to the rod. Friction is dry: as large at rest as
///         in motion. The gas keeps its exponent.
/// Valid:  a model without problems at rest; 0 < pushed_to <= model.travel.
/// Source: balance of forces. Tested: release_rest_test.cc
RestBand rest_band(const MotionModel& model, double pushed_to);

/// Air, at one atmosphere and in place of oil, with which a rod that comes out stops at a travel [m^3]: the
/// try by hand read backwards. Zero where it stops there, or further in, without any; empty where no air that
/// the damper has room for holds it there.
///
/// Model:  that of rest_band; the model's own trapped air is left out. Oil that is missing is air in its
/// place.
std::optional<double> air_that_stops_at(const MotionModel& model, double travel);

}  // namespace shimwright::damper
