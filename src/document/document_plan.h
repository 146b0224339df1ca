#pragma once
#include <optional>
#include <string>
#include <vector>

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

struct BuildStep {
  int number = 0;
  std::string section;
  std::string text;
  std::string why;
  std::string caution;
  std::optional<HoldPoint> hold;
  std::optional<Value> torque;
  std::optional<StepPicture> picture;
};

struct BuildPlan {
  std::string unit;
  std::vector<std::string> before;
  std::vector<BuildStep> steps;
};

struct PickLine {
  std::string part;
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
};

struct OtherCondition {
  std::string condition;
  std::string effect;
  std::string action;
  std::vector<NamedValue> numbers;
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
