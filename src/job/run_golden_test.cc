// Whole jobs against what they gave before: regression (trust D of STYLE 1.3), never validation. The numbers
// that a change moves on purpose are copied from the failure's own lines into test/jobs/NAME.expected.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <sstream>
#include <string>

#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using Headline = std::map<std::string, double>;

void add_force(const document::UnitResult& unit, Headline& line) {
  if (!unit.force) return;
  for (const document::KeyForce& key : unit.force->key_forces) {
    const std::string at = " at " + std::to_string(key.speed).substr(0, 4);
    line[unit.name + " compression" + at] = key.compression;
    line[unit.name + " rebound" + at] = key.rebound;
  }
  line[unit.name + " static rod force"] = unit.force->static_rod_force;
  for (const document::CavitationResult& result : unit.force->cavitation) {
    line[unit.name + " margin in " + word(result.stroke)] = result.margin_at_working_speed;
  }
}

void add_springs(const document::UnitResult& unit, Headline& line) {
  if (!unit.springs) return;
  line[unit.name + " spring, fully out"] = unit.springs->preload_force;
  line[unit.name + " spring, fully in"] = unit.springs->end_force;
  for (const document::SagResult& sag : unit.springs->sag)
    line[unit.name + " sag " + word(sag.under)] = sag.wheel_travel;
  for (const document::SpringEffect& effect : unit.springs->effects)
    line[unit.name + " " + effect.what] = effect.at_middle;
}

void add_stack(const document::StackResult& stack, Headline& line) {
  line[stack.name + " lift"] = stack.points.back().lift_at_seat;
  line[stack.name + " stress"] = stack.points.back().highest_stress;
}

void add_post(const document::PostResult& post, Headline& line) {
  line[post.name + " height"] = post.thread->stack_height;
  line[post.name + " turns"] = post.thread->engaged_turns;
  if (post.torque) line[post.name + " torque from"] = post.torque->range_low;
  if (post.torque) line[post.name + " torque to"] = post.torque->range_high;
}

Headline headline_of(const document::ResultDocument& document) {
  Headline line;
  line["findings, stop"] = document::n_findings(document, Severity::Stop);
  line["findings, look"] = document::n_findings(document, Severity::Look);
  for (const document::UnitResult& unit : document.units) {
    add_force(unit, line);
    add_springs(unit, line);
    for (const document::ValveResult& valve : unit.valves) {
      if (valve.post) add_post(*valve.post, line);
      for (const document::DirectionResult& direction : valve.directions) {
        if (direction.stack) add_stack(*direction.stack, line);
      }
    }
    if (unit.plan) line[unit.name + " steps"] = static_cast<double>(unit.plan->steps.size());
  }
  if (document.stack) add_stack(*document.stack, line);
  for (const document::OilResult& oil : document.oils)
    line[oil.name + " viscosity"] = oil.working.kinematic_viscosity;
  return line;
}

Headline expected_of(const std::string& name) {
  std::ifstream file(SW_SOURCE_DIR "/test/jobs/" + name + ".expected");
  Headline line;
  std::string row;
  while (std::getline(file, row)) {
    const auto equals = row.rfind(" = ");
    if (row.empty() || row[0] == '#' || equals == std::string::npos) continue;
    line[row.substr(0, equals)] = std::stod(row.substr(equals + 3));
  }
  return line;
}

class Golden : public testing::TestWithParam<const char*> {};

TEST_P(Golden, TheHeadlineNumbersAreAsBefore) {
  const Headline now =
      headline_of(run_job(testing_jobs::read(testing_jobs::job_text(GetParam())), {}).value());
  const Headline before = expected_of(GetParam());
  EXPECT_EQ(now.size(), before.size());
  for (const auto& [name, value] : now) {
    std::ostringstream row;
    row.precision(6);
    row << name << " = " << value;
    ASSERT_TRUE(before.contains(name)) << row.str();
    // 0.3 %: what a finer mesh of the plates may move; more is a change of the model
    EXPECT_NEAR(value, before.at(name), 3e-3 * std::abs(before.at(name)) + 1e-9) << row.str();
  }
}

INSTANTIATE_TEST_SUITE_P(Jobs, Golden, testing::Values("fork", "shock", "lone-stack"), [](const auto& named) {
  std::string name = named.param;
  std::erase(name, '-');
  return name;
});

}  // namespace
}  // namespace shimwright::job
