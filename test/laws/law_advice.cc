#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "laws.h"

namespace shimwright::laws {
namespace {

/// What a rider feels: a twentieth of the force (common practice, no source).
constexpr double kFelt = 0.05;

double share_in(const std::vector<document::ForceChange>& effect, Stroke stroke) {
  double share = 0.0;
  for (const document::ForceChange& one : effect)
    if (one.stroke == stroke && one.before > 0.0)
      share = std::max(share, std::abs(one.after - one.before) / one.before);
  return share;
}

void check_turn(const document::FeelAdvice& advice, std::vector<std::string>& broken) {
  const Stroke other = advice.stroke == Stroke::Compression ? Stroke::Rebound : Stroke::Compression;
  const double felt = share_in(advice.effect, advice.stroke);
  if (felt < kFelt)
    broken.push_back(fmt::format("\"{}\": {} changes {} by {:.1f} %, which nobody feels", advice.feel,
                                 advice.turn, word(advice.stroke), 100.0 * felt));
  for (const document::ForceChange& one : advice.effect)
    if (one.stroke == advice.stroke && (one.after - one.before) * advice.clicks_change > 1e-9 * one.before)
      broken.push_back(
          fmt::format("\"{}\": {} moves {} the wrong way", advice.feel, advice.turn, word(one.stroke)));
  // three clicks to each side decide, the advice may be another number of them: a little room
  if (share_in(advice.effect, other) > 1.5 * felt)
    broken.push_back(fmt::format("\"{}\": {} acts more in {}", advice.feel, advice.turn, word(other)));
}

/// The rider's own complaints ask for one turn of an adjuster.
void check_contradictions(const document::SettingsGuide& guide, std::vector<std::string>& broken) {
  std::map<std::string, int> turned;
  for (const document::FeelAdvice& advice : guide.advice) {
    if (!advice.complaint || advice.adjuster.empty()) continue;
    const int direction = advice.clicks_change < 0 ? -1 : 1;
    const auto [known, is_new] = turned.emplace(advice.adjuster, direction);
    if (!is_new && known->second != direction)
      broken.push_back(fmt::format("{} is told to be turned in and out", advice.adjuster));
  }
  for (const document::OtherCondition& other : guide.other) {
    if (!other.cure) continue;
    std::map<std::string, int> times;
    for (const document::KeyChange& change : other.cure->changes)
      if (++times[change.path] > 1)
        broken.push_back(fmt::format("{}: {} is told twice", other.condition, change.path));
  }
}

}  // namespace

std::vector<std::string> broken_by_advice(const LawCase& at) {
  std::vector<std::string> broken;
  for (const document::UnitResult& unit : at.document.units) {
    if (!unit.settings) continue;
    for (const document::FeelAdvice& advice : unit.settings->advice)
      if (!advice.adjuster.empty()) check_turn(advice, broken);
    check_contradictions(*unit.settings, broken);
  }
  return broken;
}

}  // namespace shimwright::laws
