#pragma once
#include <vector>

#include "job/settings.h"

namespace shimwright::job::internal {

/// The guide while it grows.
struct GuideDraft {
  const file::JobSpec& job;
  const UnitModels& models;
  const document::UnitResult& unit;
  const SettingsRun& run;
  document::SettingsGuide& guide;

  /// The three speeds at which an effect is shown: slow, middle, quick.
  std::vector<double> speeds() const;
};

/// Forces before and after turning one adjuster by so many clicks (negative: in).
std::vector<document::ForceChange> effect_of_clicks(const GuideDraft& draft,
                                                    const resolve::AdjusterModel& adjuster, int change);

void add_feel_advice(GuideDraft& draft);
void add_oil_temperature(GuideDraft& draft);
void add_air_conditions(GuideDraft& draft);
void add_rider_weights(GuideDraft& draft);

}  // namespace shimwright::job::internal
