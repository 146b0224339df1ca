#include <fmt/core.h>

#include <algorithm>
#include <cstdlib>

#include "job/run_force.h"
#include "job/settings_steps.h"

namespace shimwright::job::internal {
namespace {

/// What a rider says, and which clicker it asks for. Common practice, no source.
struct FeelRule {
  file::Feel feel;
  const char* words;
  Stroke stroke;
  int change;  // clicks; negative: in
  const char* why;
};

constexpr FeelRule kRules[] = {
    {file::Feel::Dives, "dives on the brakes", Stroke::Compression, -2,
     "More compression damping at low speed makes the dive slower, but not smaller. Only the spring makes it "
     "smaller."},
    {file::Feel::Harsh, "harsh on sharp or braking bumps", Stroke::Compression, 2,
     "Less compression damping lets the wheel move out of the way."},
    {file::Feel::Bottoms, "uses all its travel and hits the end", Stroke::Compression, -3,
     "More compression damping absorbs energy before the end. If the sag is too large, correct the spring "
     "first."},
    {file::Feel::PacksDown, "packs down in a row of bumps", Stroke::Rebound, 2,
     "With less rebound damping it comes back before the next bump."},
    {file::Feel::KicksBack, "bounces or kicks back", Stroke::Rebound, -2,
     "More rebound damping slows the push of the spring."},
    {file::Feel::LosesGrip, "loses grip on small bumps", Stroke::Rebound, 2,
     "Less rebound damping keeps the tyre on the ground behind each bump."},
};

bool is_complaint(const file::JobSpec& job, const FeelRule& rule) {
  return job.rider && std::ranges::any_of(job.rider->feels, [&](const file::Choice<file::Feel>& feel) {
           return feel.value == rule.feel;
         });
}

/// The clicks of the wanted change that the adjuster has left.
int clicks_left(const resolve::AdjusterModel& adjuster, int wished) {
  return std::clamp(adjuster.clicks + wished, 0, most_clicks(adjuster)) - adjuster.clicks;
}

document::FeelAdvice advice_of(const GuideDraft& draft, const FeelRule& rule,
                               const resolve::AdjusterModel& adjuster, int change) {
  document::FeelAdvice advice;
  advice.feel = rule.words;
  advice.adjuster = adjuster.name;
  advice.clicks_change = change;
  advice.turn =
      fmt::format("{} {} {} (to {})", adjuster.name, document::counted(std::abs(change), "click", "clicks"),
                  change < 0 ? "in" : "out", adjuster.clicks + change);
  advice.why = rule.why;
  advice.effect = effect_of_clicks(draft, adjuster, change);
  return advice;
}

}  // namespace

void add_feel_advice(GuideDraft& draft) {
  for (const FeelRule& rule : kRules) {
    const bool complaint = is_complaint(draft.job, rule);
    const auto& adjusters = draft.models.damper->adjusters;
    const auto adjuster = std::ranges::find(adjusters, rule.stroke, &resolve::AdjusterModel::stroke);
    const int change = adjuster == adjusters.end() ? 0 : clicks_left(*adjuster, rule.change);
    if (change != 0) {
      draft.guide.advice.push_back(advice_of(draft, rule, *adjuster, change));
    } else if (complaint) {
      document::FeelAdvice advice;
      advice.feel = rule.words;
      advice.turn = adjuster == adjusters.end()
                        ? fmt::format("no clicker acts in {} here: change the shims", word(rule.stroke))
                        : fmt::format("the {} is at its end: change the shims", adjuster->name);
      advice.why = rule.why;
      draft.guide.advice.push_back(std::move(advice));
    } else {
      continue;
    }
    draft.guide.advice.back().complaint = complaint;
  }
  // the rider's own words first
  std::ranges::stable_partition(draft.guide.advice,
                                [](const document::FeelAdvice& advice) { return advice.complaint; });
}

}  // namespace shimwright::job::internal
