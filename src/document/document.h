#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "document/document_comparison.h"
#include "document/document_figures.h"
#include "document/document_fill.h"
#include "document/document_finding.h"
#include "document/document_force.h"
#include "document/document_oil.h"
#include "document/document_plan.h"
#include "document/document_plot.h"
#include "document/document_post.h"
#include "document/document_reservoir.h"
#include "document/document_spring.h"
#include "document/document_stack.h"
#include "document/document_value.h"
#include "document/document_valve.h"

// What each struct and each member means: document_describe_whole.cc

namespace shimwright::document {

/// Version of the result document's schema, as its JSON says it.
inline constexpr const char* kResultSchema = "shimwright.result/1";
inline constexpr const char* kComparisonSchema = "shimwright.comparison/1";

struct FileHash {
  std::string name;
  std::string hash;
};

struct Header {
  std::string program_version;
  std::string job_hash;
  std::vector<FileHash> files;

  std::string title;
  std::string scenario;
  std::string revision;
  std::string date;

  Theory theory = Theory::Large;
  Outcome outcome;
  std::vector<std::string> warnings;
};

struct RiderSummary {
  std::string name;
  std::optional<Value> mass;
  std::string pace;
  std::string terrain;
  std::vector<std::string> complaints;
};

struct MachineSummary {
  std::string name;
  std::vector<NamedValue> values;
};

struct ConditionSummary {
  Value oil_temperature;
  Value fill_temperature;
  Value air_temperature;
  Value altitude;
  double ambient_pressure = 0;
};

struct UnitResult {
  std::string name;
  std::string kind;
  std::string layout;
  int count = 1;
  double travel = 0;
  double piston_radius = 0;
  double rod_radius = 0;
  std::string oil;

  std::vector<ValveResult> valves;
  std::optional<ForceResult> force;
  std::optional<SpringResult> springs;
  std::optional<ReservoirResult> reservoir;
  std::optional<FillResult> fill;
  std::optional<BuildPlan> plan;
  std::optional<SettingsGuide> settings;
  std::optional<KeyFigures> key_figures;
  std::vector<PlotSpec> plots;  // of what is here: force, pressures in each stroke, springs
};

struct ResultDocument {
  Header header;
  std::optional<RiderSummary> rider;
  std::optional<MachineSummary> machine;
  ConditionSummary conditions;

  std::vector<Finding> findings;
  std::vector<UnitResult> units;
  std::optional<StackResult> stack;
  std::optional<KeyFigures> key_figures;
  std::vector<OilResult> oils;
  std::vector<OilSwap> oil_swaps;
  PickList pick_list;
};

/// How many findings have this severity.
int n_findings(const ResultDocument& document, Severity severity);

/// True when nothing in it says stop.
bool fit_to_build(const ResultDocument& document);

}  // namespace shimwright::document
