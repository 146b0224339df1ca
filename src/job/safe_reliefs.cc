#include "job/safe_reliefs.h"

#include "job/stack_relief.h"
#include "job/unit_stacks.h"

namespace shimwright::job {
namespace {

valve::DirectionModel& direction_of(damper::DamperModel& model, const PlacedStack& stack) {
  valve::ValveModel& valve = stack.place == ValvePlace::Piston ? model.piston_valve : *model.foot_valve;
  return stack.stroke == Stroke::Compression ? valve.compression : valve.rebound;
}

bool has_stalled(const damper::SolvedDamper& solved) {
  const auto stalled = [](const valve::ValveLaw& law) {
    return law.compression.outcome.status == Status::Stalled || law.rebound.outcome.status == Status::Stalled;
  };
  return stalled(solved.laws.piston) || (solved.laws.foot && stalled(*solved.laws.foot));
}

/// At the drops that it sees in its unit.
int gravity_in(const UnitModels& models, const PlacedStack& stack, const UnitRun& run,
               plate::Workspace& workspace) {
  plate::Options options;
  options.theory = run.theory;
  options.estimate_mesh_error = false;
  return gravity_of(
      plate::stack_response(stack.model.stack, stack_pressures(models, stack, run), options, workspace));
}

}  // namespace

void keep_safe_reliefs(const UnitModels& models, const UnitRun& run, const DamperSolve& solve,
                       plate::Workspace& workspace, std::vector<document::StackResult>& stacks) {
  if (!models.damper || !models.solved) return;
  for (std::size_t i = 0; i < stacks.size(); ++i) {
    if (!stacks[i].relief) continue;
    UnitModels then = models;
    valve::DirectionModel& direction = direction_of(then.damper->model, models.stacks[i]);
    if (!direction.stack) continue;
    direction.stack = relieved(*direction.stack, *stacks[i].relief);
    then.solved = solve(*then.damper);
    if (has_stalled(*then.solved)) {
      stacks[i].relief.reset();
      continue;
    }
    for (std::size_t other = 0; other < stacks.size(); ++other) {
      if (other == i) continue;
      const PlacedStack& stack = models.stacks[other];
      if (gravity_in(then, stack, run, workspace) <= gravity_in(models, stack, run, workspace)) continue;
      stacks[i].relief.reset();
      break;
    }
  }
}

}  // namespace shimwright::job
