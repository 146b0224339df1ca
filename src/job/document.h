#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "job/document_comparison.h"
#include "job/document_fill.h"
#include "job/document_finding.h"
#include "job/document_force.h"
#include "job/document_oil.h"
#include "job/document_plan.h"
#include "job/document_post.h"
#include "job/document_spring.h"
#include "job/document_stack.h"
#include "job/document_value.h"
#include "job/document_valve.h"

namespace shimwright::job {

/// Version of the result document's schema, as its JSON says it.
inline constexpr const char* kResultSchema = "shimwright.result/1";
inline constexpr const char* kComparisonSchema = "shimwright.comparison/1";

/// A file that the result rests on.
struct FileHash {
  std::string name;  // as the user named it
  std::string hash;  // of its bytes, 16 hex digits
};

/// Whose numbers these are, and how far to trust them.
struct Header {
  std::string program_version;
  std::string job_hash;         // of the job file and all its parts files, 16 hex digits
  std::vector<FileHash> files;  // job file first

  std::string title;
  std::string scenario;  // "Invented for the manual"; empty for a real job
  std::string revision;
  std::string date;  // as typed

  Theory theory = Theory::Large;
  Outcome outcome;                    // the worst of everything in the document
  std::vector<std::string> warnings;  // one sentence each: what was not computed and why
};

struct RiderSummary {
  std::string name;
  std::optional<Value> mass;  // in riding gear
  std::string pace;
  std::string terrain;
  std::vector<std::string> complaints;
};

struct MachineSummary {
  std::string name;
  std::vector<NamedValue> values;  // masses, shares, head angle, as typed
};

struct ConditionSummary {
  Value oil_temperature;
  Value fill_temperature;
  Value air_temperature;  // of the air springs, working
  Value altitude;
  double ambient_pressure = 0;  // of the standard atmosphere at that altitude, absolute [Pa]
};

/// One leg or shock.
struct UnitResult {
  std::string name;          // "fork leg"
  std::string kind;          // "fork leg", "shock"
  std::string layout;        // "closed cartridge", "open bath", "reservoir shock"
  int count = 1;             // alike units on the machine
  double travel = 0;         // [m]
  double piston_radius = 0;  // [m]; 0: no damper stated
  double rod_radius = 0;     // [m]
  std::string oil;           // name

  std::vector<ValveResult> valves;  // piston valve, foot valve
  std::optional<ForceResult> force;
  std::optional<SpringResult> springs;
  std::optional<FillResult> fill;
  std::optional<BuildPlan> plan;
  std::optional<SettingsGuide> settings;
};

/// Everything one job gives. The faces (tables, JSON, CSV, packet, page) show parts of it and compute no
/// physics. SI throughout; what is absent was not asked for or could not be computed, and Header::warnings
/// says which.
struct ResultDocument {
  Header header;
  std::optional<RiderSummary> rider;
  std::optional<MachineSummary> machine;
  ConditionSummary conditions;

  std::vector<Finding> findings;  // stop first, then look, then fine
  std::vector<UnitResult> units;
  std::optional<StackResult> stack;  // the lone stack of a file, beside its units
  std::vector<OilResult> oils;
  std::vector<OilSwap> oil_swaps;
  PickList pick_list;
};

/// How many findings have this severity.
int n_findings(const ResultDocument& document, Severity severity);

/// True when nothing in it says stop.
bool fit_to_build(const ResultDocument& document);

}  // namespace shimwright::job
