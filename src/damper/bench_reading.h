#pragma once

#include "damper/motion.h"

// What a technician reads off bench loops.

namespace shimwright::damper {

/// How much less energy a later cycle absorbs than an earlier, settled one of the same drive [-].
double fade(const CycleFigures& first, const CycleFigures& last);

/// Reservoir pressure that keeps the chamber that runs short above release.
struct ReservoirNeed {
  double lowest = 0.0;    // pressure met now [Pa abs]
  double raise_by = 0.0;  // 0 when the margin holds [Pa]
  double pressure = 0.0;  // reservoir at travel 0 that holds it [Pa abs]
  int n_steps = 0;        // of all runs together
  bool stopped = false;   // by `proceed`: the rest says nothing
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
