#pragma once
#include <optional>
#include <string>
#include <vector>

#include "document/document_cure.h"
#include "document/document_value.h"

// What each struct and each member means: document_describe_plan.cc

namespace shimwright::document {

struct HoldPoint {
  std::string what;
  bool yes_or_no = false;
  Value expected;
  std::optional<Value> low;
  std::optional<Value> high;
};

/// What is shown beside a step: a post with all that is on it, or one stack of it.
struct StepPicture {
  ValvePlace valve = ValvePlace::Piston;
  std::optional<Stroke> stack;

  auto operator<=>(const StepPicture&) const = default;
};

/// What a part is. A part of a kind that a unit may have more than once has an index in its place.
enum class PartKind {
  Piece,        // on a post; index of its line in the ledger
  Shims,        // of one entry of a stack; index of that entry
  Spacers,      // of one size; index of their line in the ledger
  Nut,          // index of its line in the ledger
  SlideSpring,  // of a stack that floats
  BackSpring,   // on the back of a stack
  MainSpring,   // index in the list of the unit's springs
  TopOutSpring,
  BumpStop,
  FreePiston,
  Bladder,
  CompensatorSpring,
  Oil,     // index of its chamber in the fill
  AirOil,  // of an air chamber; 0 the positive, 1 the negative
};

struct PartRef {
  PartKind kind = PartKind::Piece;
  std::optional<ValvePlace> valve;
  std::optional<Stroke> stroke;
  int index = 0;

  auto operator<=>(const PartRef&) const = default;
};

/// What the work has brought a unit to. A step needs some of these and makes others.
enum class UnitState {
  PressureOut,
  SpringOut,
  ThreadsClean,
  PartsClean,
  HeadOnRod,
  PistonValveTight,
  FootValveTight,
  SealsGreased,
  GasSideReady,  // free piston or bladder in its place, no pressure yet
  FootValveIn,
  RodInTube,
  OilIn,  // of the damper itself
  Bled,
  Closed,         // the damper is shut
  CompensatorIn,  // a piston on a spring is at work
  GasIn,
  DamperInLeg,
  OuterOilIn,
  OuterAirOut,  // pumped out of the outer oil
  LevelSet,
  SpringIn,
  LegClosed,
  Tried,  // the rod comes out by itself, or is drawn out by hand
  AirSet,
  ClicksSet,
  SagMeasured,
};

struct BuildStep {
  int number = 0;
  std::string section;
  std::string text;
  std::string why;
  std::string caution;
  std::optional<HoldPoint> hold;
  std::optional<Value> torque;
  std::optional<StepPicture> picture;
  std::vector<PartRef> parts;
  std::vector<PartRef> needs_parts;
  std::vector<UnitState> needs;
  std::vector<UnitState> makes;
};

struct BuildPlan {
  std::string unit;
  std::vector<std::string> before;
  std::vector<BuildStep> steps;
};

struct PickLine {
  std::string part;
  std::string unit;
  std::vector<PartRef> parts;
  std::string where;
  double count = 0;
  std::optional<double> volume;
  std::optional<double> in_hand;
  double short_by = 0;
  std::optional<double> price;
  std::optional<double> cost;
};

struct PickList {
  std::vector<PickLine> lines;
  std::optional<double> total;
  int n_without_price = 0;
};

struct Setting {
  std::string name;
  std::string where;
  Value value;
  std::string words;
};

struct ForceChange {
  Stroke stroke = Stroke::Compression;
  double speed = 0;
  double before = 0;
  double after = 0;
};

struct FeelAdvice {
  std::string feel;
  std::string turn;
  std::string why;
  std::string adjuster;
  int clicks_change = 0;
  std::vector<ForceChange> effect;
  bool complaint = false;
  Stroke stroke = Stroke::Compression;
};

struct OtherCondition {
  std::string condition;
  std::string effect;
  std::string action;
  std::vector<NamedValue> numbers;
  std::optional<KeyChange> when;
  std::optional<Cure> cure;
};

struct ClickEffect {
  std::string adjuster;
  int clicks_change = -1;
  std::vector<ForceChange> effect;
};

struct SettingsGuide {
  std::string unit;
  std::vector<Setting> settings;
  std::vector<FeelAdvice> advice;
  std::vector<ClickEffect> per_click;
  std::vector<OtherCondition> other;
};

}  // namespace shimwright::document
