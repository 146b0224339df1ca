#include "job/run_influence.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace shimwright::job {
namespace {

constexpr double kThickerBy = 0.01e-3;  // what a micrometer can show, and the trade's finest step [m]
constexpr double kWorthSaying = 0.005;  // of the lift: below it the change would print as nothing
constexpr double kMoves = 1e-9;         // of the lift; rounding of two solutions lies below
constexpr double kNoLift = 1e-9;  // a sealed stack lifts by rounding, and nothing is a share of that [m]

/// Lift with every shim of a group thicker; nothing when that did not settle.
std::optional<double> lift_thicker(const resolve::StackModel& model, const document::DiscGroup& group,
                                   double pressure, const plate::Options& options,
                                   plate::Workspace& workspace) {
  plate::Stack changed = model.stack;
  for (int i = 0; i < group.count; ++i)
    changed.discs[static_cast<std::size_t>(group.first - 1 + i)].thickness += kThickerBy;
  if (!plate::validate(changed).empty()) return std::nullopt;
  const double pressures[] = {pressure};
  const plate::Lift found = plate::stack_lifts(changed, pressures, options, workspace).front();
  if (found.outcome.status == Status::Stalled) return std::nullopt;
  return found.seat;
}

/// "each of the three 24 x 0.15 mm shims"; the number of the disc where another group has the same label.
std::string group_words(const resolve::StackModel& model, const document::StackGeometry& geometry,
                        const document::DiscGroup& group) {
  const std::string& label = model.labels[static_cast<std::size_t>(group.first - 1)];
  const auto alike = std::ranges::count_if(geometry.groups, [&](const document::DiscGroup& other) {
    return model.labels[static_cast<std::size_t>(other.first - 1)] == label;
  });
  std::string words = group.count == 1
                          ? fmt::format("the {} shim", label)
                          : fmt::format("each of the {} {} shims", document::count_word(group.count), label);
  if (alike > 1) {
    words += group.count == 1 ? fmt::format(" (disc {})", group.first)
                              : fmt::format(" (discs {} to {})", group.first, group.first + group.count - 1);
  }
  return words;
}

void add_sentences(const resolve::StackModel& model, const document::StackGeometry& geometry,
                   const document::Phrase& phrase, document::StackInfluence& influence) {
  const auto size = [](const document::GroupInfluence& group) {
    return std::abs(group.change.value_or(0.0));
  };
  std::vector<document::GroupInfluence> groups = influence.groups;
  std::ranges::stable_sort(groups, std::greater{}, size);
  for (const document::GroupInfluence& group : groups) {
    if (size(group) < kWorthSaying) continue;
    influence.sentences.push_back(fmt::format(
        "{} more on {}: lift {}.", phrase.thickness(kThickerBy),
        group_words(model, geometry, geometry.groups[static_cast<std::size_t>(group.group)]),
        units::format(*group.change, units::Kind::Fraction, phrase.system, {.sign = true, .decimals = 0})));
  }
}

}  // namespace

std::optional<document::StackInfluence> influence_of(const resolve::StackModel& model,
                                                     const document::StackGeometry& geometry,
                                                     const InfluenceRun& run, const plate::Options& options,
                                                     plate::Workspace& workspace) {
  std::vector<bool> of(model.stack.discs.size());
  for (const int number : run.of) of[static_cast<std::size_t>(number - 1)] = true;
  const plate::StackInfluence from =
      plate::stack_influence(model.stack, run.pressure, of, options, workspace);
  double work = 0.0;
  for (const plate::GroupShare& stage : from.groups) work += stage.stiffness_share;
  if (from.outcome.status == Status::Stalled || from.lift_seat < kNoLift || work <= 0.0) return std::nullopt;

  document::StackInfluence influence;
  influence.pressure = run.pressure;
  influence.lift_at_seat = from.lift_seat;
  influence.thicker_by = kThickerBy;
  influence.outcome = from.outcome;

  // disc by disc
  for (const int number : run.of) {
    const plate::DiscInfluence& disc = from.discs[static_cast<std::size_t>(number - 1)];
    document::DiscInfluence& result = influence.discs.emplace_back();
    result.number = number;
    result.lift_per_thickness = disc.lift_per_thickness;
    if (disc.lift_without > 0.0) result.lift_without = disc.lift_without;
    result.could_be_left_out = disc.could_be_left_out;
  }

  // by brackets of equal shims, and by stages
  for (std::size_t i = 0; i < geometry.groups.size(); ++i) {
    const document::DiscGroup& group = geometry.groups[i];
    document::GroupInfluence& result = influence.groups.emplace_back();
    result.group = static_cast<int>(i);
    for (int k = 0; k < group.count; ++k)
      result.stiffness_share += from.discs[static_cast<std::size_t>(group.first - 1 + k)].force_share;
    result.lift_thicker = lift_thicker(model, group, run.pressure, options, workspace);
    if (result.lift_thicker) result.change = *result.lift_thicker / from.lift_seat - 1.0;
  }
  for (const plate::GroupShare& stage : from.groups)
    influence.stages.push_back({stage.first_disc + 1, stage.last_disc + 1, stage.stiffness_share});
  // afloat on its spring a stack does not bend: nothing moves the lift
  if (std::ranges::none_of(influence.groups, [](const document::GroupInfluence& group) {
        return std::abs(group.change.value_or(1.0)) > kMoves;
      }))
    return std::nullopt;
  add_sentences(model, geometry, run.phrase, influence);
  return influence;
}

}  // namespace shimwright::job
