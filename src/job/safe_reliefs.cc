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

/// Whether any stack but `but` is graver then.
bool any_graver(const UnitModels& now, const UnitModels& then, const UnitRun& run, std::size_t but,
                plate::Workspace& workspace) {
  for (std::size_t i = 0; i < now.stacks.size(); ++i)
    if (i != but &&
        gravity_in(then, now.stacks[i], run, workspace) > gravity_in(now, now.stacks[i], run, workspace))
      return true;
  return false;
}

}  // namespace

bool harms_a_stack(const UnitModels& models, const UnitRun& run, const resolve::DamperParts& parts,
                   const damper::DamperLaws& laws, plate::Workspace& workspace) {
  if (!models.damper || !models.solved) return false;
  UnitModels then = models;
  then.damper = parts;
  then.solved->laws = laws;
  return any_graver(models, then, run, models.stacks.size(), workspace);
}

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
    if (has_stalled(*then.solved) || any_graver(models, then, run, i, workspace)) stacks[i].relief.reset();
  }
}

}  // namespace shimwright::job
