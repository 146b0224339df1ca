#pragma once
#include <span>

#include "damper/motion.h"

// What a technician reads off bench loops.

namespace shimwright::damper {

/// Air that a measured loop points at.
struct AirEstimate {
  Chamber chamber = Chamber::Compression;  // compression or rod: where air explains the loop better
  double air = 0.0;                        // at one atmosphere [m^3]; 0 where no air explains it best
  double misfit = 0.0;                     // of force with that air, rms over the loop's half height [-]
  double misfit_clean = 0.0;               // without any
  int n_steps = 0;                         // of all runs together
  bool stopped = false;                    // by `proceed`: the rest says nothing
  Outcome outcome;                         // OutOfRange: the most that was tried fits best
};

/// Air in a damper from its measured loop: the volume with which the model's loop lies nearest.
///
/// Model:  the air that leaves the least rms of force over the cycle, sought between zero and `air_max` in
/// either
///         pressure chamber. A constant offset and a seal friction of another size are taken out first.
/// Shape:  `force`: evenly spaced over one settled cycle of the drive, from the cycle's start, its end left
/// out
///         (n >= 20).
/// Valid:  a model whose valves are those of the damper, and with the springs that were in. A loop that the
/// model cannot follow shows in `misfit`. Tested: bench_reading_test.cc (the air put in comes back, with
/// valves and friction a little off too)
AirEstimate air_from_loop(std::span<const double> force, const MotionModel& model, const Drive& drive,
                          double air_max, const MotionOptions& options = {});

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
