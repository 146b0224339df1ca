#include "job/unit_stacks.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "job/run_memo.h"
#include "job/run_stack.h"
#include "job/value_key.h"

namespace shimwright::job {
namespace {

/// Pressures of a stack in a file that says nothing of speeds or pressures [Pa]. A range that stacks see.
constexpr double kUsualPressures[] = {0.1e6, 0.2e6, 0.5e6, 1.0e6, 2.0e6};

/// What to compute a stack at.
struct StackStates {
  std::vector<double> pressures;
  bool assumed = false;
  double working = 0.0;
  double greatest = 0.0;
};

StackStates states_of(const UnitModels& models, const PlacedStack& stack, const UnitRun& run) {
  StackStates states;
  std::vector<double> at_key;
  if (models.solved) {
    const damper::Chambers chambers = resolve::chambers_in(*models.damper, stack.stroke);
    const bool compression = stack.stroke == Stroke::Compression;
    const double sign = compression ? 1.0 : -1.0;
    const double working = compression ? models.judged.working_compression : models.judged.working_rebound;
    for (const double key : models.judged.key) {
      const double speed = std::min(key, working);
      const damper::SteadyPoint point = damper::steady_point(chambers, models.solved->laws, sign * speed);
      const valve::ValveState& state = stack.place == ValvePlace::Piston ? point.piston : point.foot;
      if (std::abs(state.pocket) > 1.0) at_key.push_back(std::abs(state.pocket));
    }
  }
  states.assumed = at_key.empty() && run.pressures.empty();
  if (at_key.empty()) at_key.assign(std::begin(kUsualPressures), std::end(kUsualPressures));
  states.pressures = run.pressures.empty() ? at_key : run.pressures;
  std::ranges::sort(states.pressures);
  const auto twins =
      std::ranges::unique(states.pressures, [](double a, double b) { return b - a < 1e-6 * b; });
  states.pressures.erase(twins.begin(), twins.end());
  states.greatest = std::max(states.pressures.back(), 1.0);
  states.working =
      run.pressures.empty() ? at_key[at_key.size() / 2] : states.pressures[states.pressures.size() / 2];
  return states;
}

}  // namespace

std::vector<double> stack_pressures(const UnitModels& models, const PlacedStack& stack, const UnitRun& run) {
  return states_of(models, stack, run).pressures;
}

std::vector<document::StackResult> stack_results(const UnitModels& models, const UnitRun& run,
                                                 plate::Workspace& workspace) {
  std::vector<document::StackResult> results;
  for (const PlacedStack& stack : models.stacks) {
    const StackStates states = states_of(models, stack, run);
    const StackRun asked{run.theory,
                         run.phrase,
                         states.assumed,
                         states.pressures,
                         states.working,
                         states.greatest,
                         run.sections.stack_details,
                         run.sections.curves};
    const auto compute = [&] { return stack_result(stack.model, asked, workspace); };
    if (!run.memo) {
      results.push_back(compute());
      continue;
    }
    internal::ValueKey key;
    key.add(stack.model, asked);
    results.push_back(*run.memo->stacks.get(std::move(key.bytes), compute));
  }
  return results;
}

void add_stacks(const UnitModels& models, std::vector<document::StackResult> stacks,
                document::UnitResult& result) {
  for (std::size_t i = 0; i < stacks.size(); ++i) {
    const PlacedStack& stack = models.stacks[i];
    auto valve = std::ranges::find(result.valves, stack.place, &document::ValveResult::place);
    if (valve == result.valves.end()) {
      result.valves.push_back({});
      valve = std::prev(result.valves.end());
      valve->place = stack.place;
    }
    auto direction = std::ranges::find(valve->directions, stack.stroke, &document::DirectionResult::stroke);
    if (direction == valve->directions.end()) {
      valve->directions.push_back({});
      direction = std::prev(valve->directions.end());
      direction->stroke = stack.stroke;
    }
    direction->stack = std::move(stacks[i]);
  }
}

}  // namespace shimwright::job
