#pragma once
#include <optional>
#include <string>
#include <vector>

#include "document/document_post.h"
#include "document/document_stack.h"
#include "document/document_value.h"

// What each struct and each member means: document_describe_valve.cc

namespace shimwright::document {

/// What carries most of the flow, or holds most of the pressure back.
enum class Carrier { Bleed, Stack, Port };

struct LawPoint {
  double flow = 0;
  double drop = 0;
  double speed = 0;
  double lift_at_seat = 0;
  double bleed_flow = 0;
  double stack_flow = 0;
  double port_drop = 0;
  bool beyond_table = false;
  Carrier carrier = Carrier::Bleed;
};

struct DirectionResult {
  Stroke stroke = Stroke::Compression;
  bool check = false;
  std::optional<StackResult> stack;
  std::vector<LawPoint> law;
  double bleed_area = 0;
  double port_area = 0;
  std::optional<double> opening_speed;
  std::optional<double> choking_speed;
  Outcome outcome;
};

struct BleedResult {
  std::string name;
  std::string kind;
  bool acts_in_compression = true;
  bool acts_in_rebound = true;
  std::optional<int> clicks;
  std::optional<int> clicks_max;
  double area = 0;
  std::vector<double> area_by_click;
  std::optional<double> full_area_clicks;
};

struct ValveResult {
  ValvePlace place = ValvePlace::Piston;
  std::vector<DirectionResult> directions;
  std::vector<BleedResult> bleeds;
  std::optional<PostResult> post;
};

std::string word(Carrier carrier);  // "bleed", "stack", "port"

}  // namespace shimwright::document
