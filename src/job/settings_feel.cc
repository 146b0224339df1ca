#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdlib>

#include "job/run_force.h"
#include "job/settings_steps.h"

namespace shimwright::job::internal {
namespace {

/// What a rider says, and which clicker it asks for. Common practice, no source.
struct FeelRule {
  const char* feel;
  std::array<const char*, 4> words;  // any of these in a complaint means this feel; "" is none
  Stroke stroke;
  int change;  // clicks; negative: in
  const char* why;
};

constexpr std::array kRules = {
    FeelRule{"dives on the brakes",
             {"dive", "diving", "", ""},
             Stroke::Compression,
             -2,
             "More compression damping at low speed slows the dive; it does not make it smaller: that is the "
             "spring."},
    FeelRule{"harsh on sharp or braking bumps",
             {"harsh", "braking bump", "spike", "beats"},
             Stroke::Compression,
             2,
             "Less compression damping lets the wheel get out of the way."},
    FeelRule{"uses all its travel and hits the end",
             {"bottom", "hits the end", "too soft", ""},
             Stroke::Compression,
             -3,
             "More compression damping takes energy out before the end. If sag is too deep, the spring comes "
             "first."},
    FeelRule{"packs down in a row of bumps",
             {"pack", "rides low", "stays down", ""},
             Stroke::Rebound,
             2,
             "Less rebound damping lets it come back before the next bump."},
    FeelRule{"bounces or kicks back",
             {"bounce", "kick", "pogo", "tops out"},
             Stroke::Rebound,
             -2,
             "More rebound damping takes the spring's push out."},
    FeelRule{"loses grip on small bumps",
             {"grip", "skip", "deflect", "chatter"},
             Stroke::Rebound,
             2,
             "Less rebound damping keeps the tyre on the ground behind each bump."},
};

bool names(const std::string& complaint, const FeelRule& rule) {
  std::string lower = complaint;
  std::ranges::transform(lower, lower.begin(),
                         [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return std::ranges::any_of(rule.words, [&](const char* sought) {
    return *sought != '\0' && lower.find(sought) != std::string::npos;
  });
}

bool is_complaint(const JobSpec& job, const FeelRule& rule) {
  return job.rider && std::ranges::any_of(job.rider->complaints, [&](const Text& complaint) {
           return names(complaint.value, rule);
         });
}

/// As many of the wished clicks as the adjuster has left.
int clicks_left(const AdjusterModel& adjuster, int wished) {
  return std::clamp(adjuster.clicks + wished, 0, most_clicks(adjuster)) - adjuster.clicks;
}

FeelAdvice advice_of(const GuideDraft& draft, const FeelRule& rule, const AdjusterModel& adjuster,
                     int change) {
  FeelAdvice advice;
  advice.feel = rule.feel;
  advice.adjuster = adjuster.name;
  advice.clicks_change = change;
  advice.turn = fmt::format("{} {} {} (to {})", adjuster.name, counted(std::abs(change), "click", "clicks"),
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
    const auto adjuster = std::ranges::find(adjusters, rule.stroke, &AdjusterModel::stroke);
    const int change = adjuster == adjusters.end() ? 0 : clicks_left(*adjuster, rule.change);
    if (change != 0) {
      draft.guide.advice.push_back(advice_of(draft, rule, *adjuster, change));
    } else if (complaint) {
      FeelAdvice advice;
      advice.feel = rule.feel;
      advice.turn = adjuster == adjusters.end()
                        ? fmt::format("no clicker acts in {} here: it takes other shims", word(rule.stroke))
                        : fmt::format("the {} is at its end: it takes other shims", adjuster->name);
      advice.why = rule.why;
      draft.guide.advice.push_back(std::move(advice));
    } else {
      continue;
    }
    draft.guide.advice.back().complaint = complaint;
  }
  // the rider's own words first
  std::ranges::stable_partition(draft.guide.advice,
                                [](const FeelAdvice& advice) { return advice.complaint; });
}

}  // namespace shimwright::job::internal
