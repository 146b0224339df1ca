#pragma once
#include <optional>
#include <string>
#include <vector>

#include "document/document_value.h"

// What each struct and each member means: document_describe_fill.cc

namespace shimwright::document {

enum class RodAt { FullyOut, FullyIn };
std::string word(RodAt rod_at);  // "fully out"

struct ReservoirState {
  RodAt rod_at = RodAt::FullyOut;
  double temperature = 0;
  double pressure = 0;
  std::optional<double> gas_volume;
  double rod_force = 0;
  double room_left = 0;
  bool locked = false;
};

struct ReservoirResult {
  double oil_volume = 0;
  bool oil_assumed = false;
  bool gas_assumed = false;
  double rod_volume = 0;
  double growth = 0;
  bool room_known = false;
  std::vector<ReservoirState> states;
};

}  // namespace shimwright::document
