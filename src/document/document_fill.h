#pragma once
#include <optional>
#include <string>
#include <vector>

#include "document/document_release.h"
#include "document/document_value.h"

// What each struct and each member means: document_describe_fill.cc

namespace shimwright::document {

/// Where oil is poured.
enum class FillRoom { Cartridge, Outer, Reservoir };
std::string word(FillRoom room);  // "cartridge", "outer", "reservoir"

struct FillChamber {
  FillRoom room = FillRoom::Cartridge;
  std::optional<Value> stated;
  std::optional<double> volume;
  double pour = 0;
  double growth = 0;
  double purge = 0;
};

struct LikelyCause {
  std::string cause;
  std::string evidence;
  std::string remedy;
  std::optional<double> volume;
};

struct Symptom {
  std::string seen;
  bool observed = false;
  std::vector<LikelyCause> causes;
};

struct FillResult {
  std::string rod_at;
  double fill_temperature = 0;
  double working_temperature = 0;
  std::vector<FillChamber> chambers;
  std::optional<double> level;
  bool comes_out = false;
  bool purge_port = false;
  std::optional<bool> accepted;
  double bleed_stroke_low = 0;
  double bleed_stroke_high = 0;
  double bleed_time_low = 0;
  double bleed_time_high = 0;
  double purge_accepted = 0;
  double rod_area = 0;
  std::optional<StopReading> stop;
  std::vector<Symptom> symptoms;
  std::optional<ReleaseTest> release;
};

}  // namespace shimwright::document
