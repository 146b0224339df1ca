#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "judge/findings_rules.h"
#include "judge/stack_limits.h"

namespace shimwright::judge::internal {
namespace {

constexpr double kLinearLift = 0.5;  // lift over thickness up to which the linear theory is taken

/// A stack with where it was written; the lone stack of a file has no unit and no valve.
struct JudgedStack {
  const document::StackResult& stack;
  const file::DirectionSpec* spec;
  document::Finding place;                     // with its place filled in
  const document::PostResult* post = nullptr;  // that carries it; null when the job states none
};

std::string disc_name(const document::StackResult& stack, int number) {
  const auto index = static_cast<std::size_t>(number - 1);
  return fmt::format("disc {} ({})", number,
                     index < stack.geometry.discs.size() ? stack.geometry.discs[index].label : "");
}

document::Finding begin(const Judging& judging, const JudgedStack& judged, const char* code,
                        Severity severity) {
  document::Finding finding =
      begin_finding(judging, code, severity, judged.spec != nullptr ? judged.spec->origin : file::Origin{});
  finding.place.unit = judged.place.place.unit;
  finding.place.valve = judged.place.place.valve;
  finding.place.stroke = judged.place.place.stroke;
  return finding;
}

/// The disc with the least of a margin over all points, and the pressure there.
struct Least {
  const document::DiscStress* disc = nullptr;
  double pressure = 0.0;
  double margin = std::numeric_limits<double>::infinity();
};

Least least_margin(const document::StackResult& stack, std::optional<double> document::DiscStress::* margin) {
  Least least;
  for (const document::StackPoint& point : stack.points) {
    for (const document::DiscStress& disc : point.discs) {
      if ((disc.*margin) && *(disc.*margin) < least.margin) least = {&disc, point.pressure, *(disc.*margin)};
    }
  }
  return least;
}

void add_numbers(const Least& least, document::Finding& finding) {
  finding.numbers = {{"stress", document::computed(least.disc->stress, units::Kind::Stress)},
                     {"at a drop of", document::computed(least.pressure, units::Kind::PressureDifference)},
                     {"margin", document::counted_value(least.margin, "")},
                     {"at a radius of", document::computed(least.disc->radius, units::Kind::Length)}};
}

/// The key of the job file that holds just these discs; null when no one entry does.
const file::DiscSpec* entry_of(const file::DirectionSpec* spec, int first, int last) {
  if (spec == nullptr) return nullptr;
  int number = 1;
  for (const file::DiscSpec& entry : spec->stack) {
    const int end = number + entry.count.value_or(1) - 1;
    if (number == first && end == last) return &entry;
    number = end + 1;
  }
  return nullptr;
}

/// True when an entry says nothing that a plain text of diameter and thickness would lose.
bool is_plain(const file::DiscSpec& entry) {
  return !entry.bore && !entry.material && !entry.notches && !entry.part && entry.outer_diameter;
}

/// The least of a margin over the discs at a drop.
std::optional<double> margin_at(const document::StackResult& stack, double drop,
                                std::optional<double> document::DiscStress::* margin) {
  std::optional<double> least;
  for (const document::StackPoint& point : stack.points)
    if (point.pressure == drop)
      for (const document::DiscStress& disc : point.discs)
        if (disc.*margin)
          least = std::min(least.value_or(std::numeric_limits<double>::infinity()), *(disc.*margin));
  return least;
}

/// The cure as a change of the one entry that holds these discs.
document::Cure cure_of(const JudgedStack& judged, const document::StackRelief& relief,
                       const file::DiscSpec& entry, double thickness) {
  const auto text = [&](int count, double thick) {
    document::Value value;
    value.typed = fmt::format("{} x {:.6g} x {:.6g} mm", count, 1e3 * entry.outer_diameter.si, 1e3 * thick);
    return value;
  };
  document::Cure cure{judged.place.place.unit,
                      {{entry.origin.path, "", text(relief.last_disc - relief.first_disc + 1, thickness),
                        text(relief.count, relief.thickness)}},
                      {}};
  const auto add = [&](document::CureGoal goal, std::optional<double> before, std::optional<double> after) {
    if (!before || !after) return;
    document::CureEffect effect{.goal = goal, .drop = relief.drop};
    effect.stroke =
        judged.place.place.stroke == word(Stroke::Compression) ? Stroke::Compression : Stroke::Rebound;
    effect.valve =
        judged.place.place.valve == word(ValvePlace::Piston) ? ValvePlace::Piston : ValvePlace::Foot;
    effect.before = document::counted_value(*before, "");
    effect.after = document::counted_value(*after, "");
    cure.effects.push_back(std::move(effect));
  };
  add(document::CureGoal::YieldMargin,
      margin_at(judged.stack, relief.drop, &document::DiscStress::yield_margin), relief.yield_margin);
  add(document::CureGoal::FatigueMargin,
      margin_at(judged.stack, relief.drop, &document::DiscStress::fatigue_margin), relief.fatigue_margin);
  return cure;
}

/// Thinner shims in the place of those that bend too far.
void relieve(const Judging& judging, const JudgedStack& judged, document::Finding& finding) {
  const auto& relief = judged.stack.relief;
  if (!relief) {
    finding.remedy +=
        "Fit a stiffer stack, which bends less at this pressure, or shims of a stronger material.";
    return;
  }
  const double thickness =
      judged.stack.geometry.discs[static_cast<std::size_t>(relief->first_disc - 1)].thickness;
  const int old_count = relief->last_disc - relief->first_disc + 1;
  finding.remedy += fmt::format(
      "Fit {} shims of {} in the place of {} of {}: together they are as stiff, and each bears less stress.",
      document::count_word(relief->count), judging.phrase.thickness(relief->thickness),
      old_count == 1 ? "the one" : "the " + document::count_word(old_count),
      judging.phrase.thickness(thickness));
  const double growth = relief->count * relief->thickness - old_count * thickness;
  const bool has_thread = judged.post != nullptr && judged.post->thread;
  if (has_thread)
    finding.remedy += fmt::format(" The pile is then {} higher: choose the spacers again.",
                                  judging.phrase.thickness(growth));
  // as a change of one key only where the nut keeps its thread without another one
  const bool stays_tight = !has_thread || judged.post->thread->protrusion >= growth;
  const file::DiscSpec* entry = entry_of(judged.spec, relief->first_disc, relief->last_disc);
  if (stays_tight && entry != nullptr && is_plain(*entry) && !judged.place.place.unit.empty())
    finding.cures.push_back(cure_of(judged, *relief, *entry, thickness));
}

void past_yield(const Judging& judging, const JudgedStack& judged) {
  const Least least = least_margin(judged.stack, &document::DiscStress::yield_margin);
  if (least.disc == nullptr || least.margin >= 1.0) return;
  document::Finding finding = begin(judging, judged, "F301", Severity::Stop);
  finding.title = fmt::format("{} stays bent: {} at a drop of {} is above its yield strength.",
                              document::sentence_case(disc_name(judged.stack, least.disc->number)),
                              judging.phrase.stress(least.disc->stress), judging.phrase.drop(least.pressure));
  add_numbers(least, finding);
  relieve(judging, judged, finding);
  judging.findings.push_back(std::move(finding));
}

void past_fatigue(const Judging& judging, const JudgedStack& judged) {
  const Least least = least_margin(judged.stack, &document::DiscStress::fatigue_margin);
  if (least.disc == nullptr || least.margin >= kFatigueSpare) return;
  // a disc that stays bent has said the worse thing
  if (least_margin(judged.stack, &document::DiscStress::yield_margin).margin < 1.0) return;
  const bool past = least.margin < 1.0;
  document::Finding finding =
      begin(judging, judged, past ? "F302" : "F303", past ? Severity::Stop : Severity::Look);
  finding.title = fmt::format("{} {}: its stress reaches {} again and again, at a drop of {}.",
                              document::sentence_case(disc_name(judged.stack, least.disc->number)),
                              past ? "will crack" : "is near its fatigue limit",
                              judging.phrase.stress(least.disc->stress), judging.phrase.drop(least.pressure));
  add_numbers(least, finding);
  if (!past) finding.remedy = "Replace this shim at each service. ";
  relieve(judging, judged, finding);
  judging.findings.push_back(std::move(finding));
}

/// The lift without an idle disc, where leaving it out would change it: it then only holds others apart.
std::optional<double> lift_without(const document::StackResult& stack, int number) {
  if (!stack.influence) return std::nullopt;
  const auto& discs = stack.influence->discs;
  const auto disc = std::ranges::find(discs, number, &document::DiscInfluence::number);
  if (disc == discs.end() || disc->could_be_left_out) return std::nullopt;
  return disc->lift_without;
}

void carries_nothing(const Judging& judging, const JudgedStack& judged) {
  if (judged.stack.idle_discs.empty()) return;
  document::Finding finding = begin(judging, judged, "F304", Severity::Note);
  std::string names, spacing;
  for (const int number : judged.stack.idle_discs) {
    names += (names.empty() ? "" : ", ") + disc_name(judged.stack, number);
    finding.numbers.push_back({"disc", document::counted_value(number, "")});
    if (const auto lift = lift_without(judged.stack, number)) {
      spacing += fmt::format(
          "Disc {} holds its neighbours apart: without it the lift at {} would be {}, not {}. ", number,
          judging.phrase.drop(judged.stack.influence->pressure), judging.phrase.thickness(*lift),
          judging.phrase.thickness(judged.stack.influence->lift_at_seat));
    }
  }
  finding.title = fmt::format("{} {} no load at any of the pressures.", document::sentence_case(names),
                              judged.stack.idle_discs.size() == 1 ? "carries" : "carry");
  finding.remedy = spacing.empty()
                       ? "Keep it only for the height of the pile; otherwise leave it out and fit a spacer."
                       : spacing + "Leave such a disc in.";
  judging.findings.push_back(std::move(finding));
}

const document::StackPoint* worst_point(const document::StackResult& stack,
                                        double document::StackPoint::* ratio) {
  const auto worst = std::ranges::max_element(stack.points, {}, ratio);
  return worst == stack.points.end() || (*worst).*ratio <= 1.0 ? nullptr : &*worst;
}

void too_steep(const Judging& judging, const JudgedStack& judged) {
  if (judged.stack.theory == Theory::Linear) return;  // which ends at the lift, far below this slope
  const document::StackPoint* point = worst_point(judged.stack, &document::StackPoint::slope_ratio);
  if (point == nullptr) return;
  document::Finding finding = begin(judging, judged, "F305", Severity::Look);
  finding.title = fmt::format("At a drop of {} the shims slope more than the plate theory allows.",
                              judging.phrase.drop(point->pressure));
  finding.numbers = {{"slope", document::computed(point->largest_slope, units::Kind::Angle)},
                     {"slope over the limit of the theory", document::counted_value(point->slope_ratio, "")},
                     {"at a drop of", document::computed(point->pressure, units::Kind::PressureDifference)}};
  finding.remedy =
      "Treat the lift there as an estimate. If the damper reaches this speed when ridden, make the stack "
      "stiffer.";
  judging.findings.push_back(std::move(finding));
}

void rim_may_buckle(const Judging& judging, const JudgedStack& judged) {
  const document::StackPoint* point = worst_point(judged.stack, &document::StackPoint::buckling_ratio);
  if (point == nullptr) return;
  document::Finding finding = begin(judging, judged, "F306", Severity::Look);
  finding.title =
      fmt::format("By a rough estimate, the rim of {} may go wavy at a drop of {}.",
                  disc_name(judged.stack, point->buckling_disc), judging.phrase.drop(point->pressure));
  finding.numbers = {
      {"hoop compression at the rim", document::computed(point->rim_compression, units::Kind::Stress)},
      {"over the estimate", document::counted_value(point->buckling_ratio, "")},
      {"at a drop of", document::computed(point->pressure, units::Kind::PressureDifference)}};
  // discs count from the face: the one behind it is the next
  const auto& discs = judged.stack.geometry.discs;
  const auto at = static_cast<std::size_t>(point->buckling_disc - 1);
  const bool is_backed = at + 1 < discs.size() && discs[at + 1].outer_radius >= discs[at].outer_radius;
  finding.remedy = is_backed ? "Use a thicker shim here, or one that is less wide."
                             : "Put a second shim behind the thin wide one, or use a thicker one.";
  judging.findings.push_back(std::move(finding));
}

void strength_not_known(const Judging& judging, const JudgedStack& judged) {
  if (judged.stack.points.empty() || judged.stack.fatigue_margin || judged.stack.yield_margin) return;
  document::Finding finding = begin(judging, judged, "F307", Severity::Note);
  finding.title =
      "The program calculates the stress in these shims but cannot judge it: the job does not give their "
      "strength.";
  finding.numbers = {
      {"highest stress", document::computed(judged.stack.points.back().highest_stress, units::Kind::Stress)}};
  finding.remedy = "Find the yield and the fatigue strength of this steel.";
  finding.in_file = "Name a material with `yield_strength` and `fatigue_strength`.";
  judging.findings.push_back(std::move(finding));
}

void linear_lift_too_large(const Judging& judging, const JudgedStack& judged) {
  if (judged.stack.theory != Theory::Linear || judged.stack.points.empty() ||
      judged.stack.geometry.discs.empty())
    return;
  const document::StackPoint& last = judged.stack.points.back();
  const double thickness = judged.stack.geometry.discs.front().thickness;
  const double bend = last.lift_at_seat - last.float_used;
  if (bend <= kLinearLift * thickness) return;
  document::Finding finding = begin(judging, judged, "F308", Severity::Look);
  finding.title = fmt::format(
      "The linear theory bends the face shim by {:.1f} times its thickness. A thin disc gets stiffer before "
      "that.",
      bend / thickness);
  finding.numbers = {{"bent by", document::computed(bend, units::Kind::Length)},
                     {"thickness", document::computed(thickness, units::Kind::Length)}};
  finding.remedy =
      "Use the linear theory only to check a number by hand. For everything else use large deflection.";
  judging.findings.push_back(std::move(finding));
}

void judge_stack(const Judging& judging, const JudgedStack& judged) {
  // pressures that the program assumed do not show what the stack will see
  if (!judged.stack.pressures_assumed) {
    past_yield(judging, judged);
    past_fatigue(judging, judged);
    too_steep(judging, judged);
    rim_may_buckle(judging, judged);
  }
  carries_nothing(judging, judged);
  strength_not_known(judging, judged);
  linear_lift_too_large(judging, judged);
}

}  // namespace

void judge_stacks(const Judging& judging) {
  for_each_direction(judging, [&](const JudgedDirection& direction) {
    if (!direction.result.stack) return;
    const document::Finding place = begin_finding(judging, "F304", Severity::Note, direction, file::Origin{});
    const auto& post = direction.valve.result.post;
    judge_stack(judging, {*direction.result.stack, direction.spec, place, post ? &*post : nullptr});
  });
  if (judging.document.stack && judging.job.stack) {
    judge_stack(judging, {*judging.document.stack, &*judging.job.stack, {}});
  }
}

}  // namespace shimwright::judge::internal
