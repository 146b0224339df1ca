#include <fmt/core.h>

#include <algorithm>
#include <iterator>
#include <set>

#include "document/document_words.h"
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

std::string name_of(const PartRef& part) {
  const auto word_or_none = [](const auto& one) { return one ? std::string(word(*one)) : std::string("-"); };
  return fmt::format("{} {} {} {}",
                     document::EnumWords<document::PartKind>::list[static_cast<std::size_t>(part.kind)],
                     word_or_none(part.valve), word_or_none(part.stroke), part.index);
}

/// What stands in one list and not in the other.
void compare(const std::multiset<PartRef>& a, const std::multiset<PartRef>& b, const std::string& where,
             std::vector<std::string>& broken) {
  std::vector<PartRef> alone;
  std::ranges::set_difference(a, b, std::back_inserter(alone));
  for (const PartRef& part : alone) broken.push_back(where + name_of(part));
}

}  // namespace

std::vector<std::string> broken_by_sheets(const LawCase& at) {
  std::vector<std::string> broken;
  for (const document::UnitResult& unit : at.document.units) {
    if (!unit.plan) continue;
    if (unit.name.empty() && at.job.stack) continue;  // the lone stack is picked for nobody too
    run_steps(*unit.plan, broken);
    std::multiset<PartRef> picked, stepped;
    for (const document::PickLine& line : at.document.pick_list.lines)
      if (line.unit == unit.name) picked.insert(line.parts.begin(), line.parts.end());
    for (const BuildStep& step : unit.plan->steps) stepped.insert(step.parts.begin(), step.parts.end());
    compare(picked, stepped, unit.name + ": in the pick list and in no step: ", broken);
    compare(stepped, picked, unit.name + ": in a step and not in the pick list: ", broken);
  }
  return broken;
}

}  // namespace shimwright::laws
