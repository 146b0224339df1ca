#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/document_value.h"

namespace shimwright::job {

/// A point where the hand stops and measures.
struct HoldPoint {
  std::string what;        // "height from shoulder to nut seat"
  bool yes_or_no = false;  // a look or a feel described by `what`; the numbers below are then of no meaning
  Value expected;
  std::optional<Value> low;   // accepted from
  std::optional<Value> high;  // accepted up to
};

/// One step at the vice. Numbers run on without a break over all sections.
struct BuildStep {
  int number = 0;
  std::string section;  // "Prepare", "Piston valve", "Fill", "Bleed", "Accept"
  std::string text;     // what to do
  std::string why;      // then why; empty when plain
  std::string caution;  // stands before the step; empty when none
  std::optional<HoldPoint> hold;
  std::optional<Value> torque;  // [N m], for the large print with both units
  std::string picture;  // "stack:piston:compression", "post:piston", "direction:piston:0"; empty when none
};

/// Ordered work for one unit.
struct BuildPlan {
  std::string unit;
  std::vector<std::string> before;  // manual first, what this sheet is not
  std::vector<BuildStep> steps;
};

/// One line of the pick list.
struct PickLine {
  std::string part;               // "shim 20 x 0.15 mm"
  std::string where;              // "fork leg, piston valve, compression"
  double count = 0;               // pieces over all equal units; 0 for a fluid
  std::optional<double> volume;   // of a fluid, over all equal units [m3]
  std::optional<double> in_hand;  // empty: not stated
  double short_by = 0;            // pieces missing, all lines of this part taken together
  std::optional<double> price;    // each (or a litre), in the shop's own currency
  std::optional<double> cost;     // of the line
};

struct PickList {
  std::vector<PickLine> lines;
  std::optional<double> total;  // of the lines that have a price
  int n_without_price = 0;
};

/// One thing that is set.
struct Setting {
  std::string name;   // "compression needle"
  std::string where;  // "fork leg, foot valve"
  Value value;        // clicks, pressure, turns
  std::string words;  // "12 clicks out from seated, of 24"
};

/// What one turn does.
struct ForceChange {
  Stroke stroke = Stroke::Compression;
  double speed = 0;   // [m/s]
  double before = 0;  // [N]
  double after = 0;   // [N]
};

/// "If it feels so, turn this".
struct FeelAdvice {
  std::string feel;  // "dives on the brakes"
  std::string turn;  // "compression needle 2 clicks in (to 10)"
  std::string why;
  std::string adjuster;
  int clicks_change = 0;            // negative: in
  std::vector<ForceChange> effect;  // at three speeds, of the unit
  bool complaint = false;           // one of the rider's own
};

/// Other weather, height, rider.
struct OtherCondition {
  std::string condition;            // "10 K colder", "1000 m higher", "rider 5 kg heavier"
  std::string effect;               // one sentence with the numbers
  std::string action;               // what restores it
  std::vector<NamedValue> numbers;  // the same as data
};

/// What one click does, everything else as set.
struct ClickEffect {
  std::string adjuster;
  int clicks_change = -1;           // one click in
  std::vector<ForceChange> effect;  // at three speeds, in the stroke it acts in
};

struct SettingsGuide {
  std::string unit;
  std::vector<Setting> settings;
  std::vector<FeelAdvice> advice;
  std::vector<ClickEffect> per_click;
  std::vector<OtherCondition> other;
};

}  // namespace shimwright::job
