// What a finding, the advice or the guide tells to turn or to change is done, and the job computed again.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "apply_cure.h"
#include "file/schema.h"
#include "laws.h"
#include "units/format.h"

namespace shimwright::laws {
namespace {

/// Half of the last of three printed digits.
constexpr double kPrinted = 5e-4;
constexpr double kNothing = 1e-9;  // of any kind in SI: what rounding leaves of a zero

std::string text_of(const document::Value& value) {
  if (!value.typed.empty()) return value.typed;
  return units::format_plain(value.si, value.kind, units::System::Metric);
}

const document::UnitResult* unit_called(const document::ResultDocument& document, const std::string& name) {
  const auto found = std::ranges::find(document.units, name, &document::UnitResult::name);
  return found == document.units.end() ? nullptr : &*found;
}

std::optional<double> force_at(const document::UnitResult& unit, Stroke stroke, double speed) {
  if (!unit.force) return std::nullopt;
  for (const document::ForceCurve& curve : unit.force->curves)
    if (curve.stroke == stroke)
      for (const document::ForcePoint& point : curve.points)
        if (std::abs(point.speed - speed) < 1e-9 * speed) return point.force;
  return std::nullopt;
}

/// The least margin of a stack at a drop.
std::optional<double> margin_at(const document::UnitResult& unit, const document::CureEffect& effect) {
  std::optional<double> least;
  for (const document::ValveResult& valve : unit.valves) {
    if (valve.place != effect.valve) continue;
    for (const document::DirectionResult& direction : valve.directions) {
      if (direction.stroke != effect.stroke || !direction.stack) continue;
      for (const document::StackPoint& point : direction.stack->points) {
        if (std::abs(point.pressure - effect.drop.value()) > 1e-6 * point.pressure) continue;
        for (const document::DiscStress& disc : point.discs) {
          const auto& margin =
              effect.goal == document::CureGoal::YieldMargin ? disc.yield_margin : disc.fatigue_margin;
          if (margin) least = std::min(least.value_or(1e300), *margin);
        }
      }
    }
  }
  return least;
}

/// What a document says of the number that a cure names.
std::optional<double> found(const document::ResultDocument& document, const std::string& unit_name,
                            const document::CureEffect& effect) {
  const document::UnitResult* unit = unit_called(document, unit_name);
  if (unit == nullptr) return std::nullopt;
  switch (effect.goal) {
    case document::CureGoal::Force:
      return force_at(*unit, effect.stroke.value(), effect.speed.value());
    case document::CureGoal::CavitationMargin:
      if (unit->force)
        for (const document::CavitationResult& result : unit->force->cavitation)
          if (result.stroke == effect.stroke) return result.margin_at_working_speed;
      return std::nullopt;
    case document::CureGoal::Sag:
      if (unit->springs)
        for (const document::SagResult& sag : unit->springs->sag)
          if (sag.under == effect.under) return sag.wheel_travel;
      return std::nullopt;
    case document::CureGoal::YieldMargin:
    case document::CureGoal::FatigueMargin:
      return margin_at(*unit, effect);
  }
  return std::nullopt;
}

/// A drop that a stack sees and nobody may ask for: behind a rod that is locked.
bool beyond_asking(const document::CureEffect& effect) {
  const file::KeySchema* key = file::key_at(file::job_schema(), "stack.pressures");
  return effect.drop && *effect.drop > key->bounds.high;
}

/// The speeds that the effects of a cure name: the curve is asked for them.
job::RunOptions options_for(const document::Cure& cure) {
  job::RunOptions options;
  options.sections.plan = options.sections.settings = options.sections.oils =
      false;  // for which nobody looks here
  options.sections.stack_details = false;
  for (const document::CureEffect& effect : cure.effects)
    if (effect.goal == document::CureGoal::Force && effect.speed)
      options.speeds.push_back(*effect.speed);
    else if (effect.drop && !beyond_asking(effect))
      options.pressures.push_back(*effect.drop);
  return options;
}

/// Findings that say stop, by code and place.
std::vector<std::string> stops_of(const document::ResultDocument& document) {
  std::vector<std::string> stops;
  for (const document::Finding& finding : document.findings)
    if (finding.severity == Severity::Stop || finding.code == "F207" || finding.code == "F208")
      stops.push_back(finding.code + " " + finding.place.unit + " " + finding.place.path);
  return stops;
}

void check_effects(const document::ResultDocument& after, const document::Cure& cure,
                   const std::string& where, std::vector<std::string>& broken) {
  for (const document::CureEffect& effect : cure.effects) {
    if (beyond_asking(effect)) continue;
    const std::optional<double> is = found(after, cure.unit, effect);
    if (!is) {
      broken.push_back(where + ": what it moves is gone");
      continue;
    }
    const double step = std::max(std::abs(effect.after.si), std::abs(effect.before.si));
    if (std::abs(*is - effect.after.si) > kPrinted * step + kNothing)
      broken.push_back(fmt::format("{}: told {}, it becomes {}", where, text_of(effect.after),
                                   units::format_plain(*is, effect.after.kind, units::System::Metric)));
    if ((*is - effect.before.si) * (effect.after.si - effect.before.si) < -kPrinted * kPrinted * step * step)
      broken.push_back(where + ": it moves the other way");
  }
}

std::string told(const document::Cure& cure) {
  std::string words;
  for (const document::KeyChange& change : cure.changes)
    words += fmt::format("{}{} from {} to {}", words.empty() ? "" : ", ", change.path, text_of(change.from),
                         text_of(change.to));
  return words;
}

/// Each cure alone.
void check_each(const LawCase& at, const std::vector<document::Cure>& cures, const std::string& whose,
                std::vector<std::string>& broken) {
  for (const document::Cure& cure : cures) {
    const std::string where = whose + ", " + told(cure);
    Tree changed = at.tree;
    const auto after =
        apply(cure, changed) ? at.run(changed, options_for(cure)) : std::optional<document::ResultDocument>{};
    if (!after) {
      broken.push_back(where + ": refused, " + at.why_refused(changed, options_for(cure)));
      continue;
    }
    check_effects(*after, cure, where, broken);
    // at what the job itself asks for: a pressure that was asked for bends the other stacks too
    const auto plain = at.run(changed, options_for({}));
    std::vector<std::string> before = stops_of(at.document);
    // a stack past its yield is past its fatigue strength too, and that is told once the yield is kept
    for (std::size_t i = before.size(); i-- > 0;)
      if (before[i].starts_with("F301 ")) before.push_back("F302 " + before[i].substr(5));
    for (const std::string& stop : plain ? stops_of(*plain) : std::vector<std::string>{})
      if (std::ranges::find(before, stop) == before.end()) broken.push_back(where + " brings " + stop);
  }
}

/// The condition, and all that is told to be changed in it.
void check_condition(const LawCase& at, const document::OtherCondition& other,
                     std::vector<std::string>& broken) {
  if (!other.when || !other.cure) return;
  Tree changed = at.tree;
  const bool taken = apply(*other.when, changed) && apply(*other.cure, changed);
  const auto after =
      taken ? at.run(changed, options_for(*other.cure)) : std::optional<document::ResultDocument>{};
  if (after)
    check_effects(*after, *other.cure, other.condition + ", " + told(*other.cure), broken);
  else
    broken.push_back(other.condition + ", " + told(*other.cure) + ": the job does not take it");
}

/// Forces that the guide tells of a turn.
void check_turn(const LawCase& at, const std::string& unit_name, const std::string& adjuster, int change,
                const std::vector<document::ForceChange>& effect, std::vector<std::string>& broken) {
  for (const document::UnitResult& unit : at.document.units) {
    if (unit.name != unit_name) continue;
    for (const document::ValveResult& valve : unit.valves) {
      for (const document::BleedResult& bleed : valve.bleeds) {
        if (bleed.name != adjuster || !bleed.clicks) continue;
        job::RunOptions options;
        options.sections = {.force = true};
        options.clicks = {{job::name_in_unit(unit_name, adjuster), *bleed.clicks + change}};
        for (const document::ForceChange& one : effect) options.speeds.push_back(one.speed);
        const auto after = at.run(options);
        const std::string where = fmt::format("{}, {} by {}", unit_name, adjuster, change);
        if (!after) {
          broken.push_back(where + ": the job does not take it");
          return;
        }
        for (const document::ForceChange& one : effect) {
          const auto is = force_at(*unit_called(*after, unit_name), one.stroke, one.speed);
          if (!is || std::abs(*is - one.after) > kPrinted * std::max(one.after, 1.0))
            broken.push_back(fmt::format("{}: told {:.4f} N in {} at {} m/s, it becomes {:.4f} N", where,
                                         one.after, word(one.stroke), one.speed, is.value_or(0.0)));
        }
      }
    }
  }
}

}  // namespace

std::vector<std::string> broken_by_cures(const LawCase& at) {
  std::vector<std::string> broken;
  for (const document::Finding& finding : at.document.findings)
    check_each(at, finding.cures, finding.code, broken);
  for (const document::UnitResult& unit : at.document.units) {
    if (!unit.settings) continue;
    for (const document::OtherCondition& other : unit.settings->other) check_condition(at, other, broken);
    for (const document::FeelAdvice& advice : unit.settings->advice)
      if (!advice.adjuster.empty())
        check_turn(at, unit.name, advice.adjuster, advice.clicks_change, advice.effect, broken);
    for (const document::ClickEffect& click : unit.settings->per_click)
      check_turn(at, unit.name, click.adjuster, click.clicks_change, click.effect, broken);
  }
  return broken;
}

}  // namespace shimwright::laws
