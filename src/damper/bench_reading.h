#pragma once
#include <span>

#include "damper/motion.h"

// What a technician reads off bench loops.

namespace shimwright::damper {

/// Air that a loop points at.
struct AirEstimate {
  double lost_travel = 0.0;  // of the rod after the turn until the force has come up [m]
  double volume = 0.0;       // air at one atmosphere that would take it [m^3]
  Chamber chamber = Chamber::Rod;
  Outcome outcome;  // OutOfRange: no such delay in the loop beyond what clean oil and walls give
};

/// Air in the pressurised chamber from the delay after a turn of the rod.
///
/// Model:  while air is squeezed from the pressure at the turn to that of the grown force, the valve passes
///         little: air volume at one atmosphere = displaced volume / ((p0/p1)^(1/n) - (p0/p2)^(1/n)).
///         Travel is measured from the turn to the sample where the drop over the piston has reached
///         half of its largest; the same from `clean`, a run of the same damper without air, is taken off.
/// Valid:  loops of the same drive and sampling, last cycle settled; an estimate to some 20 percent.
/// Tested: bench_reading_test.cc
AirEstimate air_from_loop(std::span<const MotionSample> loop, std::span<const MotionSample> clean,
                          const MotionModel& model, Stroke stroke);

/// How much weaker the n-th cycle is than the first settled one [-]: 1 - energy(n) / energy(first).
double fade(const CycleFigures& first, const CycleFigures& last);

/// Reservoir pressure that keeps the chamber that runs short above release.
struct ReservoirNeed {
  double lowest = 0.0;    // pressure met now [Pa abs]
  double raise_by = 0.0;  // 0 when the margin holds [Pa]
  double pressure = 0.0;  // reservoir at travel 0 that holds it [Pa abs]
  Outcome outcome;        // Stalled: no pressure up to the limit is enough
};

/// Model:  root of the lowest pressure of the last cycle over the reservoir's pressure, run by run; the gas,
/// or the
///         spring's force on the free piston, is raised.
/// Tested: bench_reading_test.cc
ReservoirNeed reservoir_need(const MotionModel& model, const Drive& drive, double margin, double raise_max,
                             const MotionOptions& options = {});

/// The same damper with its reservoir set higher by a pressure.
MotionModel with_reservoir_raised(const MotionModel& model, double raise_by);

}  // namespace shimwright::damper
