#pragma once
#include <functional>
#include <vector>

#include "base/outcome.h"
#include "damper/drive.h"
#include "damper/motion_model.h"
#include "damper/release_rest.h"

namespace shimwright::damper {

enum class Chamber { Compression, Rod, Reservoir };

/// The damper at one moment. Forces act on the rod, positive outwards, as in SteadyPoint.
struct MotionSample {
  double time = 0.0;    // [s]
  double travel = 0.0;  // [m]
  double speed = 0.0;   // positive in compression [m/s]

  double force = 0.0;            // all parts together [N]
  double force_hydraulic = 0.0;  // chambers and atmosphere on piston and rod [N]
  double force_friction = 0.0;   // seals [N]
  double force_lock = 0.0;       // restrictions: oil lock, bottoming cone [N]
  double force_air = 0.0;        // outer air, and reservoir gas on its travel area [N]
  double force_springs = 0.0;    // springs beside the damper [N]

  double force_of_damper() const { return force - force_springs; }  // [N]

  double p_compression = 0.0;  // [Pa abs]
  double p_rod = 0.0;          // [Pa abs]
  double p_reservoir = 0.0;    // oil side [Pa abs]
  double p_lock = 0.0;  // highest in a restriction; its outside pressure at rest, 0 without one [Pa abs]

  double gas_compression = 0.0;  // free air, trapped and released, at the chamber's pressure [m^3]
  double gas_rod = 0.0;          // [m^3]
  double released = 0.0;         // air out of solution, all chambers, at one atmosphere [m^3]

  double piston_travel = 0.0;  // of the free piston [m]
  double piston_speed = 0.0;   // [m/s]
  double float_lift = 0.0;     // of the floating valve [m]
  double temperature = 0.0;    // [K]
};

struct Peak {
  double value = 0.0;   // force [N] or pressure [Pa abs]
  double time = 0.0;    // [s]
  double travel = 0.0;  // [m]
  double speed = 0.0;   // [m/s]
};

/// One cycle of the drive.
struct CycleFigures {
  double t_begin = 0.0;  // [s]
  double t_end = 0.0;    // [s]

  double energy_in = 0.0;      // work of the bench: the area of the loop [J]
  double heat = 0.0;           // made in valves, seals, locks and by air going in and out [J]
  double stored_change = 0.0;  // in oil, air, walls, springs and moving parts [J]
  double energy_error = 0.0;   // |energy_in - heat - stored_change| over the larger of energy_in and heat [-]

  Peak peak_compression;    // largest force against the way in
  Peak peak_rebound;        // most negative force
  Peak damper_compression;  // the same of the damper alone, springs taken off
  Peak damper_rebound;
  double speed_compression = 0.0;  // largest speed in [m/s]
  double speed_rebound = 0.0;      // largest speed out, negative [m/s]

  double phase_lag = 0.0;  // of the damper's first harmonic of force behind the speed's [rad]: 0 damper,
                           // pi/2 spring; springs beside it are taken off

  Peak lowest;  // pressure of any oil chamber
  Chamber lowest_chamber = Chamber::Rod;
  double released_air = 0.0;       // most there was at once, at one atmosphere [m^3]
  double piston_travel_min = 0.0;  // of the free piston [m]
  double piston_travel_max = 0.0;
  double lock_pressure = 0.0;    // highest in any restriction [Pa abs]; 0 without one
  double oil_lost = 0.0;         // through the relief port [m^3]
  double temperature_end = 0.0;  // [K]
};

enum class MotionEventKind {
  PistonValveReverses,  // its drop changes sign: one side seats, the other opens
  FootValveReverses,
  CompressionAtRelease,  // falls below the release pressure, or comes back
  RodAtRelease,
  FreePistonAtInnerStop,  // oil is missing; or leaves it
  FreePistonAtOuterStop,
  PortUncovered,       // or covered again
  RestrictionEntered,  // or left

  // found between two steps from what the rod or a drop does; no step ends at them
  PistonOpensInCompression,  // its drop passes what its stack opens at, 1 kPa at least; or shuts
  PistonOpensInRebound,
  FootOpensInCompression,
  FootOpensInRebound,
  BumpStopTouched,  // or left
  RodFullyIn,       // within kEndTouch of its travel; or leaves it
  RodFullyOut,
};

/// A rod this close to an end of its travel is at the end [m]: no bench and no eye sees less.
inline constexpr double kEndTouch = 0.05e-3;

struct MotionEvent {
  double time = 0.0;  // [s]
  MotionEventKind kind = MotionEventKind::PistonValveReverses;
  bool rising = true;   // true: valve drop turns to compression, pressure comes back, stop or port is reached
  double travel = 0.0;  // of the rod [m]
  double force = 0.0;   // all parts together [N]
};

/// Steps of the integrator between two questions whether to go on: about half a millisecond.
inline constexpr int kStepsBetweenAsks = 200;

struct MotionOptions {
  double tolerance = 1e-6;      // relative, of every state in one step
  int samples_per_cycle = 200;  // evenly spaced in time, the cycle's start included; 0: figures only
  bool last_cycle_only =
      false;  // samples of the cycles before it are let go: memory does not grow with cycles
  bool keep_events = true;
  double step_max = 0.0;  // [s]; 0: what the drive allows, `DriveClock::longest_step`

  /// Told how much is done (0 to 1) after each cycle and every kStepsBetweenAsks steps; false stops the run,
  /// and what is finished is kept.
  std::function<bool(double)> proceed;
};

struct MotionResult {
  std::vector<MotionSample> samples;
  std::vector<CycleFigures> cycles;  // finished ones
  std::vector<MotionEvent> events;

  int n_steps = 0;  // accepted
  int n_rejected = 0;
  bool stopped = false;  // by `proceed`
  double settled = 0.0;  // relative change of energy_in from the last cycle but one to the last; infinite
                         // with one cycle
  Outcome outcome;  // OutOfRange: a valve beyond its table, rod or springs beyond their travel, temperature
                    // beyond the laws; Stalled: the integrator gave up, what is there ends where it did
};

/// Moves the rod as the drive says, from rest.
///
/// Model:  two compressible chambers and the reservoir's oil, joined by the quasi-steady valve laws;
/// pressures,
///         released air, free piston, floating valve and temperature are states. The inertia of the oil is
///         left out; air does not pass the valves. Springs beside the damper add force and stored work to
///         what is reported of a driven rod and change no step of it.
/// Valid:  a model and a drive without problems (SW_CHECK).
/// Source: [merritt1967] ch. 1, 3 (continuity with compressible oil); [hairer1996] for the integrator
/// Tested: motion_reference_test.cc, motion_property_test.cc, motion_oracle_test.cc
MotionResult run_motion(const MotionModel& model, const Drive& drive, const MotionOptions& options = {});

/// Push the rod in, wait, let go.
struct ReleaseSetup {
  double pushed_to = 0.0;    // travel where it is held until all is at rest [m]
  double moving_mass = 0.0;  // rod, piston and what hangs on it [kg]
  double time_max = 5.0;     // [s]
};

/// A rod this close to where it comes to rest has come to rest [m]: what a rule shows (common practice, no
/// source).
inline constexpr double kRestSeen = 0.5e-3;

struct ReleaseResult {
  std::vector<MotionSample> samples;  // denser at first: time grows with the cube; the last where it ended
  std::vector<MotionEvent> events;    // of the passes with samples only
  RestBand rest;                      // where the balance of forces lets it rest
  bool arrived = false;               // it was there before time_max
  bool fully_out = false;             // it comes to travel 0, however long that takes
  double rest_travel = 0.0;           // where it comes to rest, however long that takes [m]
  double end_travel = 0.0;            // where it is when the run ends [m]
  double time = 0.0;                  // until it is within kRestSeen of its rest, or time_max [s]
  double time_to_half = 0.0;          // until half of the push came back; infinite when it never did [s]
  double peak_speed = 0.0;            // outwards, positive [m/s]
  RestPoint before;                   // at the pushed travel
  double balance =
      0.0;  // where springs that pull near fully out hold a rod without friction; 0: fully out [m]
  int n_steps = 0;
  bool stopped = false;  // by `proceed`; what is there ends where it did

  // Stalled as above; OutOfRange: a valve beyond its table, springs at their end
  Outcome outcome;
};

/// The acceptance test of an assembled cartridge, made physical. Springs beside it push too.
///
/// Model:  where it stops follows from the balance of forces (rest_band), unless it is carried past into the
///         stretch where its seals hold it; the run tells how long that takes. Seals rub in full down to a
///         hundredth of a millimetre a second, so that a slow rod is not let off its friction.
/// Tested: release_test.cc
ReleaseResult rod_release(const MotionModel& model, const ReleaseSetup& setup,
                          const MotionOptions& options = {});

}  // namespace shimwright::damper
