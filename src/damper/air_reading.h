#pragma once
#include <optional>
#include <span>

#include "damper/motion.h"
#include "num/curve.h"

// Air read off a measured loop, told apart from what the bench itself gives.

namespace shimwright::damper {

/// A loop as a bench measured it.
struct MeasuredLoop {
  std::span<const double> force;  // evenly spaced over one settled cycle of the drive, from the cycle's
                                  // start, its end left out [N] (n >= 20)
  std::optional<double> give;  // of all that the travel was measured through: frame, mounts, load cell [m/N];
                               // empty: it is fitted
  num::Curve force_over_time;  // the same force, for what the give takes off the drive [s], [N]; not asked
                               // for where the give is known to be zero
};

/// Air that a measured loop points at.
struct AirEstimate {
  Chamber chamber = Chamber::Compression;  // compression or rod: where air explains the loop better
  double air = 0.0;                        // at one atmosphere [m^3]; 0 where no air explains it best
  double uncertainty = 0.0;                // standard error of it [m^3]
  double give = 0.0;                       // of the bench, known or fitted [m/N]
  bool significant = false;   // more than kAirSignificant standard errors: the loop cannot do without it
  double misfit = 0.0;        // of force with that air, rms over the loop's half height [-]
  double misfit_clean = 0.0;  // without any, the give fitted anew
  int n_steps = 0;            // of all runs together
  bool stopped = false;       // by `proceed`: the rest says nothing
  Outcome outcome;            // OutOfRange: the most that was tried fits best
};

/// Standard errors that air must exceed before a bleed is blamed: nineteen times in twenty a clean damper
/// does not (normal distribution).
inline constexpr double kAirSignificant = 2.0;

/// Air in a damper from its measured loop: the volume with which the model's loop lies nearest.
///
/// Model:  the air that leaves the least rms of force over the cycle, sought between zero and `air_max` in
/// either
///         pressure chamber, together with the give of the bench where that is not known: what the bench
///         gives is taken off the travel of the drive. A constant offset and a seal friction of another size
///         are taken out first. Gauss-Newton with bounds. The standard error is that of the linear fit at the
///         best point, with neighbouring residuals counted by how much they repeat each other.
/// Valid:  a model whose valves are those of the damper, and with the springs that were in. A loop that the
/// model
///         cannot follow shows in `misfit`, and widens `uncertainty`.
/// Source: least squares; effective number of samples n (1 - r) / (1 + r), r between neighbours, from memory
/// Tested: air_reading_test.cc (the air put in comes back, with valves, friction and give of the bench a
/// little off)
AirEstimate air_from_loop(const MeasuredLoop& loop, const MotionModel& model, const Drive& drive,
                          double air_max, const MotionOptions& options = {});

}  // namespace shimwright::damper
