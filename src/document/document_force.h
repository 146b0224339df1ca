#pragma once
#include <optional>
#include <string>
#include <vector>

#include "document/document_cure.h"
#include "document/document_valve.h"

// What each struct and each member means: document_describe_valve.cc

namespace shimwright::document {

struct ForcePoint {
  double speed = 0;
  double force = 0;
  double damping = 0;
  double friction = 0;
  double compression_pressure = 0;
  double rod_pressure = 0;
  double reservoir_pressure = 0;
  double piston_flow = 0;
  double foot_flow = 0;
  double margin = 0;
  bool cavitated = false;
  Carrier piston_carrier = Carrier::Bleed;
  Carrier foot_carrier = Carrier::Bleed;
};

struct ForceCurve {
  Stroke stroke = Stroke::Compression;
  std::vector<ForcePoint> points;
  Outcome outcome;
};

struct FamilyMember {
  int clicks = 0;
  bool present = false;
  std::vector<double> force;
  std::vector<bool> cavitated;
};

struct ClickFamily {
  std::string adjuster;
  ValvePlace place = ValvePlace::Foot;
  Stroke stroke = Stroke::Compression;
  std::vector<double> speed;
  std::vector<FamilyMember> members;
};

struct CavitationResult {
  Stroke stroke = Stroke::Compression;
  std::string chamber;
  double release_pressure = 0;
  double working_speed = 0;
  double margin_at_working_speed = 0;
  double top_speed = 0;
  double margin_at_top_speed = 0;
  std::optional<double> speed_lost;
  std::optional<ValvePlace> stiffen;
  double missing_drop = 0;
  double margin_wanted = 0;
  double foot_drop = 0;
  double piston_drop = 0;
  std::optional<double> needed_reservoir_pressure;
  std::string advice;
  std::vector<Cure> cures;
};

struct KeyForce {
  double speed = 0;
  double compression = 0;
  double rebound = 0;
  bool compression_cavitated = false;
  bool rebound_cavitated = false;
};

struct ForceResult {
  double temperature = 0;
  double static_rod_force = 0;
  double seal_friction = 0;
  std::vector<ForceCurve> curves;
  std::vector<ClickFamily> families;
  std::vector<CavitationResult> cavitation;
  std::vector<KeyForce> key_forces;
  Outcome outcome;
};

}  // namespace shimwright::document
