#include "job/stack_relief.h"

#include <algorithm>
#include <cmath>

#include "judge/stack_limits.h"

namespace shimwright::job {
namespace {

/// Thicknesses that a drawer has [m] (common practice, no source).
constexpr double kThicknesses[] = {0.40e-3, 0.30e-3, 0.25e-3, 0.20e-3, 0.15e-3, 0.10e-3};
constexpr int kMostDiscs = 16;     // more of them do not fit a post
constexpr double kWorthIt = 1.05;  // a margin that grows by less is not worth the work

/// The least margins of a stack over its discs, where one is known, and the drop there.
struct Margins {
  std::optional<double> yield;
  std::optional<double> fatigue;
  double drop = 0.0;

  /// The one that is judged first, against its limit.
  double worst() const {
    return std::min(yield.value_or(1e300), fatigue.value_or(1e300) / judge::kFatigueSpare);
  }
};

Margins least_of(const document::StackResult& result) {
  Margins least;
  for (const document::StackPoint& point : result.points) {
    Margins here{.drop = point.pressure};
    for (const document::DiscStress& disc : point.discs) {
      if (disc.yield_margin) here.yield = std::min(here.yield.value_or(1e300), *disc.yield_margin);
      if (disc.fatigue_margin) here.fatigue = std::min(here.fatigue.value_or(1e300), *disc.fatigue_margin);
    }
    if (here.worst() < least.worst()) least = here;
  }
  return least;
}

/// The disc that is nearest to its limit at a drop.
int worst_disc_at(const document::StackResult& result, double drop) {
  for (const document::StackPoint& point : result.points) {
    if (point.pressure != drop) continue;
    const auto worst = std::ranges::min_element(point.discs, {}, [](const document::DiscStress& disc) {
      return std::min(disc.yield_margin.value_or(1e300),
                      disc.fatigue_margin.value_or(1e300) / judge::kFatigueSpare);
    });
    return worst->number;
  }
  return 1;
}

/// The stack with the discs [first, last] replaced.
plate::Stack with_thinner(const plate::Stack& stack, std::size_t first, std::size_t last, int count,
                          double thickness) {
  plate::Stack changed = stack;
  plate::Disc disc = stack.discs[first];
  disc.thickness = thickness;
  const auto begin = changed.discs.begin() + static_cast<std::ptrdiff_t>(first);
  changed.discs.insert(changed.discs.erase(begin, begin + static_cast<std::ptrdiff_t>(last - first + 1)),
                       static_cast<std::size_t>(count), disc);
  return changed;
}

Margins margins_at(const plate::Stack& stack, double drop, const plate::Options& options,
                   plate::Workspace& workspace) {
  const double pressures[] = {drop};
  const plate::StackResult solved = plate::stack_response(stack, pressures, options, workspace);
  Margins margins{.drop = drop};
  if (solved.outcome.status == Status::Stalled) return {0.0, 0.0, drop};
  for (const plate::DiscResult& disc : solved.points.front().discs) {
    // none is known where the material states no strength
    if (disc.yield_margin > 0.0) margins.yield = std::min(margins.yield.value_or(1e300), disc.yield_margin);
    if (disc.fatigue_margin > 0.0)
      margins.fatigue = std::min(margins.fatigue.value_or(1e300), disc.fatigue_margin);
  }
  return margins;
}

}  // namespace

plate::Stack relieved(const plate::Stack& stack, const document::StackRelief& relief) {
  return with_thinner(stack, static_cast<std::size_t>(relief.first_disc - 1),
                      static_cast<std::size_t>(relief.last_disc - 1), relief.count, relief.thickness);
}

int gravity_of(const plate::StackResult& solved) {
  int gravity = 0;
  for (const plate::StackPoint& point : solved.points) {
    if (point.outcome.status == Status::Stalled) return 4;
    for (const plate::DiscResult& disc : point.discs) {
      // none is known where the material states no strength
      const double yield = disc.yield_margin > 0.0 ? disc.yield_margin : 1e300;
      const double fatigue = disc.fatigue_margin > 0.0 ? disc.fatigue_margin : 1e300;
      gravity = std::max(gravity, yield < 1.0                      ? 3
                                  : fatigue < 1.0                  ? 2
                                  : fatigue < judge::kFatigueSpare ? 1
                                                                   : 0);
    }
  }
  return gravity;
}

std::optional<document::StackRelief> stack_relief(const resolve::StackModel& model,
                                                  const document::StackResult& result,
                                                  const plate::Options& options,
                                                  plate::Workspace& workspace) {
  const Margins now = least_of(result);
  if (result.pressures_assumed || now.worst() >= 1.0) return std::nullopt;
  const std::vector<plate::Disc>& discs = model.stack.discs;
  std::size_t first = static_cast<std::size_t>(worst_disc_at(result, now.drop) - 1);
  std::size_t last = first;
  while (first > 0 && discs[first - 1] == discs[first]) --first;
  while (last + 1 < discs.size() && discs[last + 1] == discs[first]) ++last;

  std::optional<document::StackRelief> best;
  double best_margin = kWorthIt * now.worst();
  for (const double thickness : kThicknesses) {
    const double ratio = discs[first].thickness / thickness;
    const int count =
        static_cast<int>(std::ceil(std::pow(ratio, 3) - 1e-6)) * static_cast<int>(last - first + 1);
    if (ratio < 1.01 || count > kMostDiscs) continue;
    const plate::Stack changed = with_thinner(model.stack, first, last, count, thickness);
    if (!plate::validate(changed).empty()) continue;
    const Margins then = margins_at(changed, now.drop, options, workspace);
    if (then.worst() < best_margin) continue;
    best_margin = then.worst();
    best = document::StackRelief{static_cast<int>(first) + 1,
                                 static_cast<int>(last) + 1,
                                 count,
                                 thickness,
                                 now.drop,
                                 then.yield,
                                 then.fatigue};
    if (best_margin >= 1.0) break;  // the fewest discs that are enough
  }
  return best;
}

}  // namespace shimwright::job
