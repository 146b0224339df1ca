#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/outcome.h"

// What each struct and each member means: document_describe_fill.cc

namespace shimwright::document {

struct ReleaseCase {
  std::string name;
  double air = 0;
  double seal_friction = 0;
  double push_force = 0;
  bool fully_out = false;
  double rest_travel = 0;
  bool arrived = false;
  double end_travel = 0;
  double time = 0;
  double half_time = 0;
  double top_speed = 0;
  std::optional<double> reads_as;
  Outcome outcome;
};

struct StopReading {
  bool pushed_out = false;
  double well_bled = 0;
  double accepted = 0;
  std::optional<double> hidden_air;
  double short_stop = 0;
  std::optional<double> short_stop_air;
};

struct ReleaseTest {
  double pushed_to = 0;
  double moving_mass = 0;
  double rod_area = 0;
  bool springs_in = false;
  double balance_travel = 0;
  std::vector<ReleaseCase> cases;
  std::string words;
  Outcome outcome;
};

}  // namespace shimwright::document
