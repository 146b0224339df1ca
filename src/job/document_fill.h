#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/document_release.h"
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
  std::string cause;             // "air left in the cartridge"
  std::string evidence;          // what speaks for it and against it
  std::string remedy;            // one sentence
  std::optional<double> volume;  // of air or missing oil that it stands for [m3]
};

/// The acceptance test read backwards: what is seen, and why that would be, likeliest first.
struct Symptom {
  std::string seen;       // "the rod stops 12 mm short"
  bool observed = false;  // the job says that this was seen
  std::vector<LikelyCause> causes;
};

struct FillResult {
  std::string rod_at;              // "fully out"
  double fill_temperature = 0;     // [K]
  double working_temperature = 0;  // [K]
  std::vector<FillChamber> chambers;
  std::optional<double> level;   // of the outer oil below the rim [m]
  double spare_capacity = 0;     // of the compensator, warm and fully in; negative: it vents or locks [m3]
  bool capacity_known = false;   // the job says what the compensator takes
  std::optional<bool> accepted;  // of the hand test that the job describes; empty: none described
  double bleed_stroke_low = 0;   // how to stroke the air out [m]
  double bleed_stroke_high = 0;  // [m]
  double bleed_time_low = 0;     // [s]
  double bleed_time_high = 0;    // [s]
  double purge_accepted = 0;     // a correct fill purges no more in its last full stroke [m3]
  double rod_area = 0;           // [m2]
  double short_stop_volume = 0;  // air or missing oil behind 10 mm of stopping short [m3]
  std::vector<Symptom> symptoms;
  std::optional<ReleaseTest> release;  // empty: the damper is not known, or has no travel
};

}  // namespace shimwright::job
