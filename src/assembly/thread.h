#pragma once
#include <optional>

#include "base/problem.h"

namespace shimwright::assembly {

/// Metric (ISO 68-1) and unified (ASME B1.1) threads share one 60 degree profile; the stress area and the
/// tolerances differ.
enum class ThreadForm { Metric, Unified };

/// A thread by its nominal size.
struct Thread {
  double diameter = 0.0;                 // nominal major diameter [m]
  double pitch = 0.0;                    // axial distance of neighbouring turns [m]
  ThreadForm form = ThreadForm::Metric;  // decides stress area and tolerance class
};

/// An ISO metric thread, "M12 x 1.25" being nominal_thread(12e-3, 1.25e-3) [m].
Thread nominal_thread(double diameter, double pitch);

/// A unified thread from its major diameter [m] and turns per inch, 1/4-28 being unified_thread(6.35e-3, 28).
Thread unified_thread(double diameter, double turns_per_inch);

/// Pitch of the coarse series of [iso261] for "M12" written without one [m]; none for a size not listed.
std::optional<double> coarse_pitch(double diameter);

/// True for a diameter and pitch listed in ISO 261 (M2 to M30) or in the UNC/UNF series (No. 4 to 1 in).
/// A thread outside the list can be computed all the same; it is often a slip of the pen, not a real part.
bool is_listed(const Thread& thread);

/// What makes a thread impossible: sizes that are not positive, a pitch too coarse for the core to remain.
Problems problems_in(const Thread& thread);

/// Basic sizes of the profile, without tolerances.
///
/// Model:  H = sqrt(3)/2 P; d2 = d - 0.649519 P; D1 = d - 1.082532 P; d3 = d - 1.226869 P.
///         Stress diameter: (d2 + d3)/2 metric; d - 0.9743 P unified (sizes in the same unit as P).
/// Source: [iso68], [iso724], [iso898]; [asmeb11] for the unified stress area; from memory
/// Tested: thread_reference_test.cc
struct ThreadSizes {
  double triangle_height = 0.0;  // H, the sharp profile's height [m]
  double pitch_diameter = 0.0;   // d2 [m]
  double internal_minor = 0.0;   // D1, bore of the nut's thread [m]
  double root_diameter = 0.0;    // d3, core of the post's thread [m]
  double stress_diameter = 0.0;  // of the circle with the stress area [m]
};
ThreadSizes basic_sizes(const Thread& thread);

/// Area that carries the pull in the threaded part of a post with a through hole `bore` (0: solid) [m^2].
/// Errors: SW_CHECK when the bore leaves nothing.
double stress_area(const Thread& thread, double bore = 0.0);

/// Where a set of limits of size comes from.
enum class LimitSource {
  Table,    // the standard's own rounded table, from memory
  Formula,  // the standard's formula, not rounded: a size that the table does not list
};

/// Limits of size of an ordinary workshop fit: 6g/6H metric, 2A/2B unified.
///
/// Source: [iso965] (table for usual pitches, else its formulas); formulas of [asmeb11], engagement of one
///         diameter. From memory.
/// Tested: thread_reference_test.cc; table against formula in thread_test.cc
struct ThreadLimits {
  double external_major_max = 0.0, external_major_min = 0.0;  // d [m]
  double external_pitch_max = 0.0, external_pitch_min = 0.0;  // d2 [m]
  double internal_minor_min = 0.0, internal_minor_max = 0.0;  // D1 [m]
  double internal_pitch_min = 0.0, internal_pitch_max = 0.0;  // D2 [m]
  LimitSource source = LimitSource::Table;
};
ThreadLimits medium_fit_limits(const Thread& thread);

/// The metric limits by formula even where the table has the size; the check of the table.
ThreadLimits metric_formula_limits(const Thread& thread);

}  // namespace shimwright::assembly
