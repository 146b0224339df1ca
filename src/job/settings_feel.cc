#include <fmt/core.h>

#include <algorithm>
#include <cstdlib>

#include "job/adjuster_choice.h"
#include "job/run_force.h"
#include "job/settings_steps.h"

namespace shimwright::job::internal {
namespace {

/// What a rider says, and which way the clicker of its stroke is turned. Common practice, no source.
struct FeelRule {
  file::Feel feel;
  const char* words;
  Stroke stroke;
  int change;  // clicks at the least; negative: in
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

/// Another complaint of the rider that asks for the opposite turn of the same stroke; null when there is
/// none.
const FeelRule* opposite_complaint(const file::JobSpec& job, const FeelRule& rule) {
  if (!is_complaint(job, rule)) return nullptr;
  const auto found = std::ranges::find_if(kRules, [&](const FeelRule& other) {
    return other.stroke == rule.stroke && (other.change < 0) != (rule.change < 0) && is_complaint(job, other);
  });
  return found == std::end(kRules) ? nullptr : &*found;
}

/// The clicks that a rider feels, those of the rule where they do and no more than the adjuster has left; 0
/// when all that it has left is not felt.
int felt_clicks(const GuideDraft& draft, const FeelRule& rule, const resolve::AdjusterModel& adjuster) {
  const resolve::DamperParts& parts = *draft.models.damper;
  const damper::SolvedDamper& solved = *draft.models.solved;
  const StrokeForces now = stroke_forces(parts, solved.laws, draft.speeds());
  const int step = rule.change < 0 ? -1 : 1;
  const int left = rule.change < 0 ? adjuster.clicks : most_clicks(adjuster) - adjuster.clicks;
  for (int n = std::min(std::abs(rule.change), left); n > 0 && n <= left; ++n) {
    const damper::DamperLaws laws = laws_at_clicks(parts, solved, adjuster, adjuster.clicks + step * n);
    if (change_share(now, stroke_forces(parts, laws, draft.speeds()), rule.stroke) >= kFeltShare)
      return step * n;
  }
  return 0;
}

/// What to do instead where no clicker answers, in the words of one who opens the unit.
std::string valving_words(const FeelRule& rule) {
  return fmt::format("fit a {} {} stack", rule.change < 0 ? "stiffer" : "softer", word(rule.stroke));
}

void turn(const GuideDraft& draft, const resolve::AdjusterModel& adjuster, int change,
          document::FeelAdvice& advice) {
  advice.adjuster = adjuster.name;
  advice.clicks_change = change;
  advice.turn =
      fmt::format("{} {} {} (to {})", adjuster.name, document::counted(std::abs(change), "click", "clicks"),
                  change < 0 ? "in" : "out", adjuster.clicks + change);
  advice.effect = effect_of_clicks(draft, adjuster, change);
}

/// Why no clicker answers a complaint; empty when one does, which is then in the advice.
std::string no_turn(const GuideDraft& draft, const FeelRule& rule, document::FeelAdvice& advice) {
  if (const FeelRule* other = opposite_complaint(draft.job, rule))
    return fmt::format(
        "no clicker answers this together with \"{}\", which asks for the opposite: {}", other->words,
        rule.stroke == Stroke::Compression ? "close the bleed a little and fit a softer stack"
                                           : "find out at which speed each happens, then change the "
                                             "stack");
  const auto* adjuster =
      adjuster_for(rule.stroke, *draft.models.damper, *draft.models.solved, draft.speeds());
  if (adjuster == nullptr)
    return fmt::format("no clicker acts mainly in {} here: {}", word(rule.stroke), valving_words(rule));
  const int change = felt_clicks(draft, rule, *adjuster);
  if (change == 0)
    return fmt::format("what the {} has left is too little to feel: {}", adjuster->name, valving_words(rule));
  turn(draft, *adjuster, change, advice);
  return "";
}

}  // namespace

void add_feel_advice(GuideDraft& draft) {
  for (const FeelRule& rule : kRules) {
    document::FeelAdvice advice;
    advice.feel = rule.words;
    advice.stroke = rule.stroke;
    advice.why = rule.why;
    advice.complaint = is_complaint(draft.job, rule);
    const std::string instead = no_turn(draft, rule, advice);
    if (!instead.empty() && !advice.complaint) continue;
    if (!instead.empty()) advice.turn = instead;
    draft.guide.advice.push_back(std::move(advice));
  }
  // the rider's own words first
  std::ranges::stable_partition(draft.guide.advice,
                                [](const document::FeelAdvice& advice) { return advice.complaint; });
}

}  // namespace shimwright::job::internal
