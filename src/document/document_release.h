#pragma once
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
  double time = 0;
  double half_time = 0;
  double top_speed = 0;
  double reads_as = 0;
  Outcome outcome;
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
