#pragma once
#include <optional>
#include <vector>

#include "document/document.h"
#include "document/document_phrase.h"
#include "job/run.h"
#include "job/run_spring.h"
#include "resolve/resolve_damper.h"
#include "resolve/resolve_fill.h"
#include "resolve/resolve_post.h"
#include "resolve/resolve_springs.h"

namespace shimwright::job {

/// A stack of a unit with its place in the damper.
struct PlacedStack {
  ValvePlace place = ValvePlace::Piston;
  Stroke stroke = Stroke::Compression;
  resolve::StackModel model;
};

/// The post of one valve.
struct PlacedPost {
  ValvePlace place = ValvePlace::Piston;
  resolve::PostModel model;
};

/// Everything of one unit that could be made into models, and what is wanting. Solved once, read by force,
/// stacks, findings, plan and guide.
struct UnitModels {
  const file::UnitSpec* spec = nullptr;
  file::JudgedSpeeds judged;
  std::optional<oil::OilModel> oil;
  std::optional<resolve::DamperParts> damper;
  std::optional<damper::SolvedDamper> solved;
  std::optional<resolve::SpringModel> springs;
  std::vector<PlacedStack> stacks;
  std::vector<PlacedPost> posts;
  std::optional<resolve::FillModel> fill;
  std::optional<resolve::ReservoirModel> reservoir;
};

/// Which models the requested sections need.
struct Needs {
  bool stacks = false;
  bool damper = false;
  bool damper_if_any = false;  // for the drops at which stacks work and where the rod rests; wanting nothing
                               // where it cannot be had
  bool springs = false;
  bool posts = false;
  bool fill = false;
  bool oils = false;
};
Needs needs_of(const Sections& sections);

UnitModels resolve_unit(const file::JobSpec& job, const file::UnitSpec& unit,
                        const resolve::Conditions& conditions, const Needs& needs,
                        resolve::ResolveReport& report);

struct UnitRun {
  const file::JobSpec* job = nullptr;
  resolve::Conditions conditions;
  Sections sections;
  Theory theory = Theory::Large;
  document::Phrase phrase;
  std::vector<double> speeds;     // of the curves; empty: by the kind of unit
  std::vector<double> pressures;  // of the stacks; empty: the drops at the key speeds
  RunMemo* memo = nullptr;        // null: everything is computed
  Executor run_all;               // empty: one after the other
};

/// Solves the damper (into `models`) and calculates the requested sections; sag, plan and guide are added by
/// run_job.
document::UnitResult unit_result(UnitModels& models, const UnitRun& run, plate::Workspace& workspace);

/// `n` speeds from 0.01 m/s to `top`, close together where the bleeds carry.
std::vector<double> curve_speeds(double top, int n = 60);

}  // namespace shimwright::job
