#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/document.h"
#include "job/document_release.h"

namespace shimwright::job {

inline constexpr const char* kBenchSchema = "shimwright.bench/1";

/// The last finished cycle of a run, evenly spaced in time. Forces push the rod out when positive.
struct BenchLoop {
  std::vector<double> time;      // from the start of the run [s]
  std::vector<double> travel;    // [m] (as time, and so all that follow)
  std::vector<double> speed;     // positive in compression [m/s]
  std::vector<double> force;     // all parts together [N]
  std::vector<double> friction;  // of the seals, part of force [N]
  std::vector<double> lock;      // of oil locks and cones, part of force [N]
  std::vector<double>
      springs;  // of main spring, air spring and stops, part of force; 0 where they are out [N]
  std::vector<double> compression_pressure;  // absolute [Pa]
  std::vector<double> rod_pressure;          // absolute [Pa]
  std::vector<double> reservoir_pressure;    // absolute [Pa]
  std::vector<double> released_air;          // out of solution, at one atmosphere [m3]
  std::vector<double> piston_travel;         // of the free piston [m]
  std::vector<double> temperature;           // of the oil [K]
};

/// One cycle in figures.
struct BenchCycle {
  int number = 1;
  double energy_in = 0;                 // area of the loop [J]
  double heat = 0;                      // [J]
  double stored_change = 0;             // in oil, air, walls and springs [J]
  double energy_error = 0;              // of the balance of these three, relative
  double compression_force = 0;         // largest [N]
  double compression_travel = 0;        // there [m]
  double rebound_force = 0;             // most negative [N]
  double rebound_travel = 0;            // there [m]
  double damper_compression_force = 0;  // largest of the damper alone, springs taken off [N]
  double damper_rebound_force = 0;      // most negative of the damper alone [N]
  double compression_speed = 0;         // largest [m/s]
  double rebound_speed = 0;             // largest outwards, negative [m/s]
  double phase_lag =
      0;  // of the damper's first harmonic of force behind the speed's: 0 damper, pi/2 spring [rad]
  double lowest_pressure = 0;      // of an oil chamber, absolute [Pa]
  std::string lowest_chamber;      // "rod chamber"
  double lowest_travel = 0;        // there [m]
  double lowest_speed = 0;         // there [m/s]
  double released_air = 0;         // most at once, at one atmosphere [m3]
  double piston_travel_least = 0;  // of the free piston [m]
  double piston_travel_most = 0;   // [m]
  double lock_pressure = 0;        // highest in an oil lock, absolute; 0 without one [Pa]
  double oil_lost = 0;             // through the relief port [m3]
  double temperature_end = 0;      // [K]
};

/// Something that happened.
struct BenchEvent {
  double time = 0;    // from the start of the run [s]
  double travel = 0;  // of the rod [m]
  double force = 0;   // all parts together [N]
  std::string what;   // "the rod chamber falls below the release pressure"
};

/// How far the rod moves after it turns until half of the stroke's force has come up.
struct TurnLag {
  Stroke stroke = Stroke::Compression;  // that begins there
  double travel = 0;                    // [m]
  std::optional<double> clean;          // the same without air [m]; empty: there is no air in this run
};

/// Air that a loop points at.
struct AirReading {
  std::string chamber;      // "rod chamber"
  double air = 0;           // at one atmosphere [m3]; 0: none explains it best
  double misfit = 0;        // rms of force with that air, over the loop's half height
  double misfit_clean = 0;  // the same with none
  Outcome outcome;
};

/// A measured force beside the computed one, over the record.
struct MeasuredLoop {
  std::vector<double> time;      // evenly spaced [s]
  std::vector<double> travel;    // [m] (as time)
  std::vector<double> force;     // measured [N] (as time)
  std::vector<double> computed;  // [N] (as time)
};

/// One motion of the rod, from rest.
struct BenchRun {
  std::string name;       // "sine 50 mm, 1.6 Hz"
  std::string kind;       // "sine", "triangle", "step", "recorded"
  double stroke = 0;      // from end to end [m]
  double middle = 0;      // [m]
  double frequency = 0;   // [Hz]; 0 for a step or a record
  double top_speed = 0;   // of the drive [m/s]
  int n_cycles = 0;       // asked
  bool finished = false;  // false: stopped on the way, and what is there is of the cycles done

  BenchLoop loop;
  std::vector<BenchCycle> cycles;
  std::vector<BenchEvent> events;  // what valves do only of a step: elsewhere they turn at each stroke
  std::vector<TurnLag> turns;      // of a sine or triangle
  std::optional<AirReading> air;
  std::optional<MeasuredLoop> measured;
  double fade = 0;     // how much less the last cycle takes up than the second
  double settled = 0;  // change of the loop's area from the last cycle but one, relative
  int n_steps = 0;
  Outcome outcome;
};

/// What of the unit's springs is on the bench with the damper.
struct BenchSprings {
  bool in = false;                 // in the force of every run
  std::vector<std::string> names;  // of those that are in, or would be: "coil", "air", "top-out"
  double force_out = 0;            // of them all, rod fully out [N]
  double force_in = 0;             // rod fully in [N]
  std::string words;               // what the force of the runs holds, in one or two sentences
};

/// The rod let go, over time: one state of the try by hand. Samples stand denser at the beginning.
struct ReleaseTrace {
  std::string name;                          // as its case
  std::vector<double> time;                  // since it was let go [s]
  std::vector<double> travel;                // [m] (as time, and so all that follow)
  std::vector<double> speed;                 // positive in compression [m/s]
  std::vector<double> force;                 // that speeds the rod up, outwards: all parts together [N]
  std::vector<double> springs;               // part of force; 0 where they are out [N]
  std::vector<double> compression_pressure;  // absolute [Pa]
  std::vector<double> rod_pressure;          // absolute [Pa]
  std::vector<BenchEvent> events;
};

/// The reservoir pressure that keeps all chambers above the release pressure.
struct ReservoirAdvice {
  std::string run;      // that needs it most
  double lowest = 0;    // pressure met now, absolute [Pa]
  double margin = 0;    // wanted above release [Pa]
  double raise_by = 0;  // [Pa]
  double pressure = 0;  // with the rod fully out, absolute [Pa]
  Outcome outcome;
};

/// One unit on the bench.
struct BenchUnit {
  std::string name;
  std::string kind;
  std::string layout;
  std::string oil;
  double travel = 0;       // [m]
  double piston_area = 0;  // [m2]
  double rod_area = 0;     // [m2]

  double oil_temperature = 0;            // at the start [K]
  double reservoir_pressure = 0;         // rod fully out, absolute [Pa]
  double release_pressure = 0;           // absolute [Pa]
  double compression_volume = 0;         // rod fully out [m3]
  double rod_volume = 0;                 // rod fully out [m3]
  double air_compression = 0;            // left by the bleed, at one atmosphere [m3]
  double air_rod = 0;                    // [m3]
  double air_reservoir = 0;              // [m3]
  double heat_capacity = 0;              // [J/K]; 0: the temperature stays
  double piston_travel_in = 0;           // of the free piston to its inner stop [m]; 0: no free piston
  double piston_travel_out = 0;          // to its outer stop [m]
  std::vector<std::string> assumptions;  // for what the job does not say
  BenchSprings springs;

  std::vector<BenchRun> runs;
  std::optional<ReservoirAdvice> reservoir;  // empty: the margin holds
  std::optional<ReleaseTest> release;
  std::vector<ReleaseTrace> release_traces;  // as the cases of release
};

/// Everything one bench job gives. SI throughout; the faces show parts of it and compute no physics.
struct BenchDocument {
  Header header;
  ConditionSummary conditions;
  double tolerance = 0;  // relative, of each step in time
  int n_runs = 0;        // asked
  int n_finished = 0;
  bool stopped = false;           // by the user: what was finished is here
  std::vector<Finding> findings;  // stop first, then look, then fine
  std::vector<BenchUnit> units;
};

}  // namespace shimwright::job
