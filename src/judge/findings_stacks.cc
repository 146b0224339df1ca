#include <fmt/core.h>

#include <algorithm>

#include "judge/findings_rules.h"

namespace shimwright::judge::internal {
namespace {

constexpr double kFatigueSpare = 1.2;  // a fifth left (common practice, no source)
constexpr double kLinearLift = 0.5;    // lift over thickness up to which the linear theory is taken

/// A stack with where it was written; the lone stack of a file has no unit and no valve.
struct JudgedStack {
  const document::StackResult& stack;
  const file::DirectionSpec* spec;
  document::Finding place;  // with its place filled in
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
  double margin = 1e300;
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

void past_yield(const Judging& judging, const JudgedStack& judged) {
  const Least least = least_margin(judged.stack, &document::DiscStress::yield_margin);
  if (least.disc == nullptr || least.margin >= 1.0) return;
  document::Finding finding = begin(judging, judged, "F301", Severity::Stop);
  finding.title = fmt::format("{} stays bent: {} at a drop of {} is above its yield strength.",
                              document::sentence_case(disc_name(judged.stack, least.disc->number)),
                              judging.phrase.stress(least.disc->stress), judging.phrase.drop(least.pressure));
  add_numbers(least, finding);
  finding.remedy =
      "Use a wider clamp shim, or two thinner shims in its place: each then bends less for the same lift.";
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
  finding.remedy =
      past ? "Use a wider clamp shim, or more and thinner shims: the stress falls, the lift stays."
           : "Replace this shim at each service, or spread the bend with a wider clamp shim.";
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
      fmt::format("The rim of {} may go wavy at a drop of {}.", disc_name(judged.stack, point->buckling_disc),
                  judging.phrase.drop(point->pressure));
  finding.numbers = {
      {"hoop compression at the rim", document::computed(point->rim_compression, units::Kind::Stress)},
      {"over the estimate", document::counted_value(point->buckling_ratio, "")},
      {"at a drop of", document::computed(point->pressure, units::Kind::PressureDifference)}};
  finding.remedy = "Put a second shim behind the thin wide one, or use a thicker one.";
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
    judge_stack(judging, {*direction.result.stack, direction.spec, place});
  });
  if (judging.document.stack && judging.job.stack) {
    judge_stack(judging, {*judging.document.stack, &*judging.job.stack, {}});
  }
}

}  // namespace shimwright::judge::internal
