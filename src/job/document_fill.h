#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/document_value.h"

namespace shimwright::job {

struct FillChamber {
  std::string name;              // "cartridge", "outer", "reservoir"
  std::optional<Value> stated;   // what the job says to pour
  std::optional<double> volume;  // computed from geometry at the stated rod position [m3]
  double growth = 0;             // from fill to working temperature [m3]
  double purge = 0;              // what the last stroke should push out [m3]
};

/// One likely reason for a failed acceptance test.
struct LikelyCause {
  std::string cause;
  std::string evidence;  // what would show it
  std::string remedy;
};

/// The acceptance test read backwards: what is seen, and why that would be, likeliest first.
struct Symptom {
  std::string seen;  // "the rod stops 12 mm short"
  std::vector<LikelyCause> causes;
};

struct FillResult {
  std::string rod_at;              // "fully out"
  double fill_temperature = 0;     // [K]
  double working_temperature = 0;  // [K]
  std::vector<FillChamber> chambers;
  double rod_area = 0;           // [m2]
  double short_stop_volume = 0;  // air or missing oil behind 10 mm of stopping short [m3]
  std::vector<Symptom> symptoms;
};

}  // namespace shimwright::job
