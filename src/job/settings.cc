#include "job/settings.h"
#include "job/run_header.h"

#include <fmt/core.h>

#include <algorithm>

#include "job/run_force.h"
#include "job/settings_steps.h"

namespace shimwright::job {
namespace internal {

std::vector<double> GuideDraft::speeds() const {
  return {models.judged.key[0], models.judged.key[1], models.judged.key[2]};
}

std::vector<document::ForceChange> effect_of_clicks(const GuideDraft& draft,
                                                    const resolve::AdjusterModel& adjuster, int change) {
  const resolve::DamperParts& parts = *draft.models.damper;
  const damper::SolvedDamper& solved = *draft.models.solved;
  const damper::DamperLaws after = laws_at_clicks(parts, solved, adjuster, adjuster.clicks + change);
  std::vector<document::ForceChange> effect;
  const auto add = [&](Stroke stroke) {
    for (const double speed : draft.speeds())
      effect.push_back({stroke, speed, damping_force(parts, solved.laws, stroke, speed),
                        damping_force(parts, after, stroke, speed)});
  };
  add(adjuster.stroke);
  // a needle that acts both ways changes the other stroke too, and that is told
  for (const resolve::AdjusterModel& other : parts.adjusters)
    if (other.adjuster == adjuster.adjuster && other.stroke != adjuster.stroke) add(other.stroke);
  return effect;
}

namespace {

std::string where_of(const GuideDraft& draft, const resolve::AdjusterModel& adjuster) {
  return draft.unit.name + ", " + word(adjuster.adjuster.valve);
}

void add_clickers(GuideDraft& draft) {
  for (const resolve::AdjusterModel& adjuster : draft.models.damper->adjusters) {
    // a needle that acts both ways is in the list once for each stroke
    const auto told = std::ranges::find(draft.guide.settings, adjuster.name, &document::Setting::name);
    if (told != draft.guide.settings.end()) continue;
    document::Setting setting{
        adjuster.name, where_of(draft, adjuster),
        document::counted_value(adjuster.clicks, adjuster.clicks == 1 ? "click out" : "clicks out"), ""};
    setting.words = adjuster.clicks_max > 0 ? fmt::format("{} clicks out from seated, of {}", adjuster.clicks,
                                                          adjuster.clicks_max)
                                            : fmt::format("{} clicks out from seated", adjuster.clicks);
    draft.guide.settings.push_back(std::move(setting));
    // one at its inner end is told by the click out
    const int change = adjuster.clicks > 0 ? -1 : 1;
    draft.guide.per_click.push_back({adjuster.name, change, effect_of_clicks(draft, adjuster, change)});
  }
}

void add_pressure(GuideDraft& draft, const char* name, const file::Quantity& pressure, const char* words) {
  if (pressure) draft.guide.settings.push_back({name, draft.unit.name, typed_value(pressure), words});
}

void add_springs(GuideDraft& draft) {
  const file::UnitSpec& spec = *draft.models.spec;
  if (spec.air_spring) {
    if (spec.air_spring->positive) {
      add_pressure(draft, "air, positive", spec.air_spring->positive->pressure, "leg fully out");
    }
    if (spec.air_spring->negative) {
      add_pressure(draft, "air, negative", spec.air_spring->negative->pressure, "leg fully out");
    }
  }
  for (const file::CoilSpringSpec& spring : spec.coil_springs) {
    if (spring.rate)
      draft.guide.settings.push_back({"spring rate", draft.unit.name, typed_value(spring.rate), ""});
    if (spring.preload) {
      draft.guide.settings.push_back(
          {"spring preload", draft.unit.name, typed_value(spring.preload), "unit fully out"});
    }
  }
  if (spec.reservoir) add_pressure(draft, "reservoir", spec.reservoir->pressure, "rod fully out");
}

}  // namespace
}  // namespace internal

document::SettingsGuide settings_guide(const file::JobSpec& job, const UnitModels& models,
                                       const document::UnitResult& unit, const SettingsRun& run) {
  document::SettingsGuide guide;
  guide.unit = unit.name;
  internal::GuideDraft draft{job, models, unit, run, guide};
  if (models.damper && models.solved) internal::add_clickers(draft);
  internal::add_springs(draft);
  if (models.damper && models.solved) {
    internal::add_feel_advice(draft);
    internal::add_oil_temperature(draft);
  }
  internal::add_air_conditions(draft);
  internal::add_rider_weights(draft);
  return guide;
}

}  // namespace shimwright::job
