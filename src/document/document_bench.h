#pragma once
#include <optional>
#include <string>
#include <vector>

#include "document/document.h"
#include "document/document_release.h"

// What each struct and each member means: document_describe_bench.cc

namespace shimwright::document {

/// How the rod is moved.
enum class RunKind { Sine, Triangle, Step, Recorded };
std::string word(RunKind kind);  // "sine"

/// A room of the damper that oil fills.
enum class OilChamber { Compression, Rod, Reservoir };
std::string word(OilChamber chamber);  // "rod chamber"

inline constexpr const char* kBenchSchema = "shimwright.bench/1";

struct BenchLoop {
  std::vector<double> time;
  std::vector<double> travel;
  std::vector<double> speed;
  std::vector<double> force;
  std::vector<double> friction;
  std::vector<double> lock;
  std::vector<double> springs;
  std::vector<double> compression_pressure;
  std::vector<double> rod_pressure;
  std::vector<double> reservoir_pressure;
  std::vector<double> released_air;
  std::vector<double> piston_travel;
  std::vector<double> temperature;
};

struct BenchCycle {
  int number = 1;
  double energy_in = 0;
  double heat = 0;
  double stored_change = 0;
  double energy_error = 0;
  double compression_force = 0;
  double compression_travel = 0;
  double rebound_force = 0;
  double rebound_travel = 0;
  double damper_compression_force = 0;
  double damper_rebound_force = 0;
  double compression_speed = 0;
  double rebound_speed = 0;
  double phase_lag = 0;
  double lowest_pressure = 0;
  OilChamber lowest_chamber = OilChamber::Compression;
  double lowest_travel = 0;
  double lowest_speed = 0;
  double released_air = 0;
  double piston_travel_least = 0;
  double piston_travel_most = 0;
  double lock_pressure = 0;
  double oil_lost = 0;
  double temperature_end = 0;
};

struct BenchEvent {
  double time = 0;
  double travel = 0;
  double force = 0;
  std::string what;
};

struct TurnLag {
  Stroke stroke = Stroke::Compression;
  double travel = 0;
  std::optional<double> clean;
};

struct AirReading {
  OilChamber chamber = OilChamber::Compression;
  double air = 0;
  double uncertainty = 0;
  bool significant = false;
  std::optional<double> stiffness;
  bool stiffness_fitted = false;
  double misfit = 0;
  double misfit_clean = 0;
  Outcome outcome;
};

struct MeasuredLoop {
  std::vector<double> time;
  std::vector<double> travel;
  std::vector<double> force;
  std::vector<double> computed;
};

struct BenchRun {
  std::string name;
  RunKind kind = RunKind::Sine;
  double stroke = 0;
  double middle = 0;
  double frequency = 0;
  double top_speed = 0;
  int n_cycles = 0;
  bool finished = false;

  BenchLoop loop;
  std::vector<BenchCycle> cycles;
  std::vector<BenchEvent> events;
  std::vector<TurnLag> turns;
  std::optional<AirReading> air;
  std::optional<MeasuredLoop> measured;
  double fade = 0;
  double settled = 0;
  int n_steps = 0;
  Outcome outcome;
};

struct BenchSprings {
  bool in = false;
  std::vector<std::string> names;
  double force_out = 0;
  double force_in = 0;
  std::string words;
};

struct ReleaseTrace {
  std::string name;
  std::vector<double> time;
  std::vector<double> travel;
  std::vector<double> speed;
  std::vector<double> force;
  std::vector<double> springs;
  std::vector<double> compression_pressure;
  std::vector<double> rod_pressure;
  std::vector<BenchEvent> events;
};

struct ReservoirAdvice {
  std::string run;
  double lowest = 0;
  double margin = 0;
  double raise_by = 0;
  double pressure = 0;
  Outcome outcome;
};

struct BenchUnit {
  std::string name;
  std::string kind;
  std::string layout;
  std::string oil;
  double travel = 0;
  double piston_area = 0;
  double rod_area = 0;

  double oil_temperature = 0;
  double reservoir_pressure = 0;
  double release_pressure = 0;
  double compression_volume = 0;
  double rod_volume = 0;
  double air_compression = 0;
  double air_rod = 0;
  double air_reservoir = 0;
  double heat_capacity = 0;
  double piston_travel_in = 0;
  double piston_travel_out = 0;
  std::vector<std::string> assumptions;
  BenchSprings springs;

  std::vector<BenchRun> runs;
  std::optional<ReservoirAdvice> reservoir;
  std::optional<ReleaseTest> release;
  std::vector<ReleaseTrace> release_traces;
  std::vector<PlotSpec> plots;
};

struct BenchDocument {
  Header header;
  ConditionSummary conditions;
  double tolerance = 0;
  int n_runs = 0;
  int n_finished = 0;
  bool stopped = false;
  std::vector<Finding> findings;
  std::vector<BenchUnit> units;
};

}  // namespace shimwright::document
