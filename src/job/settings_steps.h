#pragma once
#include <vector>

#include "job/settings.h"

namespace shimwright::job::internal {

/// The guide while it grows.
struct GuideDraft {
  const JobSpec& job;
  const UnitModels& models;
  const UnitResult& unit;
  const SettingsRun& run;
  SettingsGuide& guide;

  /// The three speeds at which an effect is told: slow, middle, quick.
  std::vector<double> speeds() const;
};

/// Forces before and after turning one adjuster by so many clicks (negative: in).
std::vector<ForceChange> effect_of_clicks(const GuideDraft& draft, const AdjusterModel& adjuster, int change);

void add_feel_advice(GuideDraft& draft);
void add_oil_temperature(GuideDraft& draft);
void add_air_conditions(GuideDraft& draft);
void add_rider_weights(GuideDraft& draft);

}  // namespace shimwright::job::internal
