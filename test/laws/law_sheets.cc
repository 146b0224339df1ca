#include <algorithm>
#include <set>

#include "laws.h"

namespace shimwright::laws {
namespace {

using document::BuildStep;
using document::PartRef;
using document::UnitState;

/// No step needs what a later one makes, nothing is made or fitted twice, and what is expected is accepted.
void run_steps(const document::BuildPlan& plan, std::vector<std::string>& broken) {
  std::set<UnitState> now;
  std::set<PartRef> fitted;
  for (const BuildStep& step : plan.steps) {
    const auto say = [&](const char* what) {
      broken.push_back(plan.unit + ", step " + std::to_string(step.number) + " (" + step.text + ") " + what);
    };
    const auto made = [&](UnitState state) { return now.contains(state); };
    const auto there = [&](const PartRef& part) { return fitted.contains(part); };
    if (!std::ranges::all_of(step.needs, made)) say("needs what a later step makes");
    if (!std::ranges::all_of(step.needs_parts, there)) say("needs a part that is not there yet");
    for (const PartRef& part : step.parts)
      if (!fitted.insert(part).second) say("fits a part again");
    for (const UnitState state : step.makes)
      if (!now.insert(state).second) say("makes again what is made");
    if (!step.hold || step.hold->yes_or_no) continue;
    const document::HoldPoint& hold = *step.hold;
    if (!hold.low || !hold.high || hold.expected.si < hold.low->si || hold.expected.si > hold.high->si)
      say("expects what it does not accept");
  }
}

}  // namespace

std::vector<std::string> broken_by_sheets(const LawCase& at) {
  std::vector<std::string> broken;
  for (const document::UnitResult& unit : at.document.units) {
    if (!unit.plan) continue;
    run_steps(*unit.plan, broken);
    std::multiset<PartRef> picked, stepped;
    for (const document::PickLine& line : at.document.pick_list.lines)
      if (line.unit == unit.name) picked.insert(line.parts.begin(), line.parts.end());
    for (const BuildStep& step : unit.plan->steps) stepped.insert(step.parts.begin(), step.parts.end());
    if (picked != stepped)
      broken.push_back(unit.name + ": the pick list and the steps do not name the same parts");
  }
  return broken;
}

}  // namespace shimwright::laws
