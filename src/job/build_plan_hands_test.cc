// The steps are a program for a pair of hands. These tests run it on a model of the unit that knows by itself
// what must come before what, for every job at hand.
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "job/build_plan.h"
#include "job/job_texts_test.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using document::BuildStep;
using document::PartKind;
using document::PartRef;
using document::UnitState;
using testing_jobs::RunJob;

/// What metal, oil and gas ask for, whatever the plan says of itself. Each line: the first is not possible,
/// or means nothing, without the others that this unit ever comes to.
struct Law {
  UnitState state;
  std::vector<UnitState> after;
};
const std::vector<Law> kLaws = {
    {UnitState::SpringOut, {UnitState::PressureOut}},
    {UnitState::ThreadsClean, {UnitState::PressureOut, UnitState::SpringOut}},
    {UnitState::PartsClean, {UnitState::ThreadsClean}},
    {UnitState::PistonValveTight,
     {UnitState::HeadOnRod, UnitState::PartsClean}},  // no head goes over a piston
    {UnitState::FootValveTight, {UnitState::PartsClean}},
    {UnitState::FootValveIn, {UnitState::FootValveTight}},
    {UnitState::RodInTube, {UnitState::PistonValveTight, UnitState::SealsGreased}},
    {UnitState::Bled, {UnitState::OilIn, UnitState::RodInTube}},
    {UnitState::Closed, {UnitState::RodInTube, UnitState::FootValveIn}},
    {UnitState::GasIn, {UnitState::Closed, UnitState::Bled, UnitState::GasSideReady}},
    // a rod comes out by itself only when something pushes it, and against oil without air
    {UnitState::Tried, {UnitState::GasIn, UnitState::CompensatorIn, UnitState::Closed, UnitState::Bled}},
    {UnitState::DamperInLeg, {UnitState::Closed}},
    {UnitState::OuterOilIn, {UnitState::DamperInLeg}},
    {UnitState::OuterAirOut, {UnitState::OuterOilIn}},
    {UnitState::LevelSet, {UnitState::OuterAirOut}},
    {UnitState::SpringIn, {UnitState::LevelSet, UnitState::GasIn, UnitState::Tried}},
    {UnitState::LegClosed, {UnitState::SpringIn, UnitState::LevelSet}},
    {UnitState::AirSet, {UnitState::LegClosed}},
    {UnitState::SagMeasured,
     {UnitState::SpringIn, UnitState::AirSet, UnitState::GasIn, UnitState::ClicksSet}},
};

bool holds_oil(const BuildStep& step) {
  for (const PartRef& part : step.parts)
    if (part.kind == PartKind::Oil) return true;
  return false;
}

/// Runs one plan; what a pair of hands could not do fails the test.
void execute(const document::BuildPlan& plan) {
  std::set<UnitState> ever;
  for (const BuildStep& step : plan.steps) ever.insert(step.makes.begin(), step.makes.end());

  std::set<UnitState> now;
  std::set<PartRef> fitted;
  for (const BuildStep& step : plan.steps) {
    SCOPED_TRACE(plan.unit + ", step " + std::to_string(step.number) + ": " + step.text);
    // what the step says of itself
    for (const UnitState need : step.needs) EXPECT_TRUE(now.contains(need)) << "needs state " << int(need);
    for (const PartRef& need : step.needs_parts)
      EXPECT_TRUE(fitted.contains(need)) << "needs part " << int(need.kind) << " " << need.index;
    for (const PartRef& part : step.parts) EXPECT_TRUE(fitted.insert(part).second) << "fitted twice";
    // what the unit says
    for (const UnitState made : step.makes) {
      EXPECT_TRUE(now.insert(made).second) << "made twice: " << int(made);
      if (made == UnitState::Bled) {
        EXPECT_TRUE(now.contains(UnitState::OilIn) || now.contains(UnitState::OuterOilIn));
      }
      for (const Law& law : kLaws) {
        if (law.state != made) continue;
        for (const UnitState before : law.after) {
          if (ever.contains(before) && before != made) {
            EXPECT_TRUE(now.contains(before)) << int(made) << " before " << int(before);
          }
        }
      }
    }
    // no gas and no spring pushes on an open unit; the gas of a cartridge that is closed and in its leg stays
    // there
    if (holds_oil(step)) {
      EXPECT_FALSE(now.contains(UnitState::GasIn) && !now.contains(UnitState::DamperInLeg));
      EXPECT_FALSE(now.contains(UnitState::SpringIn) || now.contains(UnitState::LegClosed));
    }
  }
}

std::vector<PartRef> parts_of(const std::vector<BuildStep>& steps) {
  std::vector<PartRef> parts;
  for (const BuildStep& step : steps) parts.insert(parts.end(), step.parts.begin(), step.parts.end());
  return parts;
}

/// Every part of a unit, from its own spec and ledger.
std::set<PartRef> parts_of_unit(const file::UnitSpec& spec, const document::UnitResult& unit) {
  std::set<PartRef> parts;
  for (const ValvePlace place : {ValvePlace::Piston, ValvePlace::Foot}) {
    const auto& valve = place == ValvePlace::Piston ? spec.piston_valve : spec.foot_valve;
    if (!valve) continue;
    for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
      const auto& side = stroke == Stroke::Compression ? valve->compression : valve->rebound;
      if (!side) continue;
      for (std::size_t i = 0; i < side->stack.size(); ++i)
        parts.insert({PartKind::Shims, place, stroke, static_cast<int>(i)});
      if (side->back_spring) parts.insert({PartKind::BackSpring, place, stroke, 0});
    }
    for (const document::ValveResult& result : unit.valves) {
      if (result.place != place || !result.post) continue;
      for (std::size_t i = 0; i < result.post->ledger.size(); ++i) {
        const int index = static_cast<int>(i);
        const document::LinePart part = result.post->ledger[i].part;
        if (part == document::LinePart::Piece) parts.insert({PartKind::Piece, place, {}, index});
        if (part == document::LinePart::Spacers) parts.insert({PartKind::Spacers, place, {}, index});
        if (part == document::LinePart::Nut) parts.insert({PartKind::Nut, place, {}, index});
      }
    }
  }
  for (std::size_t i = 0; i < spec.coil_springs.size(); ++i)
    parts.insert({PartKind::MainSpring, {}, {}, static_cast<int>(i)});
  return parts;
}

void no_step_needs_what_a_later_step_makes(const RunJob& run) {
  for (const document::UnitResult& unit : run.document.units) execute(*unit.plan);
}

void each_part_stands_in_one_step_and_in_one_row_of_the_pick_list(const RunJob& run) {
  for (std::size_t i = 0; i < run.document.units.size(); ++i) {
    const document::UnitResult& unit = run.document.units[i];
    SCOPED_TRACE(unit.name);
    std::multiset<PartRef> picked;
    for (const document::PickLine& line : run.document.pick_list.lines)
      if (line.unit == unit.name) picked.insert(line.parts.begin(), line.parts.end());
    const std::vector<PartRef> in_steps = parts_of(unit.plan->steps);
    const std::multiset<PartRef> stepped(in_steps.begin(), in_steps.end());
    EXPECT_EQ(picked, stepped);
    for (const PartRef& part : stepped) EXPECT_EQ(stepped.count(part), 1u);
    for (const PartRef& part : parts_of_unit(run.job.units[i], unit))
      EXPECT_TRUE(stepped.contains(part)) << int(part.kind) << " " << part.index;
    for (const document::PickLine& line : run.document.pick_list.lines) {
      EXPECT_FALSE(line.part.empty() || line.part.ends_with(' ') || line.part.starts_with(',')) << line.part;
      EXPECT_FALSE(line.parts.empty()) << line.part;
    }
  }
}

void every_expected_value_lies_in_its_own_range(const RunJob& run) {
  for (const document::UnitResult& unit : run.document.units)
    for (const BuildStep& step : unit.plan->steps) {
      if (!step.hold || step.hold->yes_or_no) continue;
      SCOPED_TRACE(step.text);
      ASSERT_TRUE(step.hold->low && step.hold->high);
      EXPECT_LE(step.hold->low->si, step.hold->expected.si);
      EXPECT_GE(step.hold->high->si, step.hold->expected.si);
      EXPECT_EQ(step.hold->low->kind, step.hold->expected.kind);
    }
}

void the_torque_has_one_value(const RunJob& run) {
  for (const document::UnitResult& unit : run.document.units) {
    std::map<ValvePlace, double> asked;
    for (const document::ValveResult& valve : unit.valves)
      if (valve.post && valve.post->torque && valve.post->torque->to_use)
        asked[valve.place] = valve.post->torque->to_use->si;
    std::map<ValvePlace, double> told;
    for (const BuildStep& step : unit.plan->steps) {
      if (!step.torque) continue;
      for (const PartRef& part : step.needs_parts)
        if (part.kind == PartKind::Nut) told[*part.valve] = step.torque->si;
      EXPECT_EQ(step.torque->si, step.hold->expected.si);
    }
    EXPECT_EQ(asked, told);
  }
}

void the_oil_poured_is_the_oil_picked(const RunJob& run) {
  for (const document::UnitResult& unit : run.document.units) {
    double picked = 0.0;
    for (const document::PickLine& line : run.document.pick_list.lines)
      if (line.unit == unit.name && !line.parts.empty() && line.parts.front().kind == PartKind::Oil)
        picked += *line.volume;
    double poured = 0.0;
    for (const BuildStep& step : unit.plan->steps)
      if (holds_oil(step)) poured += step.hold->expected.si;
    EXPECT_NEAR(picked, unit.count * poured, 1e-12);
  }
}

class BuildPlanByHand : public ::testing::TestWithParam<std::string> {};

// one run for all: a job takes seconds
TEST_P(BuildPlanByHand, CanBeDoneAndNamesEachPartOnce) {
  const RunJob run = testing_jobs::run_path(GetParam());
  for (const document::UnitResult& unit : run.document.units) ASSERT_TRUE(unit.plan.has_value());
  no_step_needs_what_a_later_step_makes(run);
  each_part_stands_in_one_step_and_in_one_row_of_the_pick_list(run);
  every_expected_value_lies_in_its_own_range(run);
  the_torque_has_one_value(run);
  the_oil_poured_is_the_oil_picked(run);
}

std::string name_of(const ::testing::TestParamInfo<std::string>& info) {
  std::string name = std::filesystem::path(info.param).parent_path().filename().string() + "_" +
                     std::filesystem::path(info.param).stem().stem().string();
  for (char& c : name)
    if (!std::isalnum(static_cast<unsigned char>(c))) c = '_';
  return name;
}

INSTANTIATE_TEST_SUITE_P(Jobs, BuildPlanByHand, ::testing::ValuesIn(testing_jobs::whole_jobs()), name_of);

// ---- one case of each class that was wrong

TEST(BuildPlanOfClasses, ValvesWithoutPostHaveStepsAndAFinding) {
  const RunJob run = testing_jobs::run_path(SW_SOURCE_DIR "/test/jobs/shock.job.toml");
  bool told = false;
  for (const document::Finding& finding : run.document.findings)
    told = told || (finding.code == "F114" && finding.place.valve == "foot valve");
  EXPECT_TRUE(told);
  int n_foot = 0;
  for (const BuildStep& step : run.document.units[0].plan->steps)
    for (const PartRef& part : step.parts) n_foot += part.valve == ValvePlace::Foot;
  EXPECT_EQ(n_foot, 6);  // three entries, their back spring, the check plate and its spring
}

// what a tool reads: torque wrenches 4 % (ISO 6789 class, from memory), gauges 2 %, measuring cylinders 1 %,
// a level 1 mm, a preload 0.5 mm (common practice, no source)
TEST(BuildPlanOfClasses, ARangeIsAsWideAsTheToolReads) {
  std::map<units::Kind, double> of_kind = {
      {units::Kind::Torque, 0.04}, {units::Kind::Pressure, 0.02}, {units::Kind::Volume, 0.01}};
  std::map<UnitState, double> of_state = {{UnitState::LevelSet, 1e-3}, {UnitState::SpringIn, 0.5e-3}};
  std::set<units::Kind> kinds;
  std::set<UnitState> states;
  for (const char* path :
       {"/examples/enduro-shock/enduro-shock.job.toml", "/examples/trail-fork/trail-fork.job.toml"}) {
    const RunJob run = testing_jobs::run_path(std::string(SW_SOURCE_DIR) + path);
    for (const BuildStep& step : run.document.units.at(0).plan->steps) {
      if (!step.hold || step.hold->yes_or_no) continue;
      const document::HoldPoint& hold = *step.hold;
      if (of_kind.contains(hold.expected.kind)) {
        const double width = of_kind.at(hold.expected.kind) * hold.expected.si;
        EXPECT_NEAR(hold.high->si - hold.expected.si, width, 1e-9 * hold.expected.si) << step.text;
        EXPECT_NEAR(hold.expected.si - hold.low->si, width, 1e-9 * hold.expected.si) << step.text;
        kinds.insert(hold.expected.kind);
      }
      for (const UnitState made : step.makes) {
        if (!of_state.contains(made)) continue;
        EXPECT_NEAR(hold.high->si - hold.expected.si, of_state.at(made), 1e-12) << step.text;
        EXPECT_NEAR(hold.expected.si - hold.low->si, of_state.at(made), 1e-12) << step.text;
        states.insert(made);
      }
    }
  }
  EXPECT_EQ(kinds.size(), of_kind.size());
  EXPECT_EQ(states.size(), of_state.size());
}

// what the gas side of the free piston is deep: 70 mL under 52 mm
TEST(BuildPlanOfClasses, TheFreePistonStandsWhereItsGasHasItsVolume) {
  const RunJob run = testing_jobs::run_path(SW_SOURCE_DIR "/test/jobs/shock.job.toml");
  for (const BuildStep& step : run.document.units[0].plan->steps)
    for (const UnitState made : step.makes)
      if (made == UnitState::GasSideReady) {
        ASSERT_TRUE(step.hold.has_value());
        EXPECT_NEAR(step.hold->expected.si, 32.96e-3, 0.01e-3);
        return;
      }
  ADD_FAILURE() << "no step sets the free piston";
}

// common practice, no source: one of two is "both"
TEST(BuildPlanOfClasses, TwoLegsAreBoth) {
  const std::string fork = file::testing_jobs::job_text("fork");
  const auto said = [](const document::ResultDocument& document) {
    std::string all;
    for (const std::string& one : document.units[0].plan->before) all += one;
    return all;
  };
  EXPECT_NE(said(testing_jobs::run(fork)).find("Build both the same way"), std::string::npos);
  EXPECT_EQ(said(testing_jobs::run(fork)).find("all two"), std::string::npos);
}

TEST(BuildPlanOfClasses, APurgePortIsAskedForOnlyWhereThereIsOne) {
  const auto purges = [](const document::ResultDocument& document) {
    int n = 0;
    for (const BuildStep& step : document.units[0].plan->steps)
      n += step.hold && step.hold->expected.kind == units::Kind::Volume && step.parts.empty();
    return n;
  };
  const std::string fork = file::testing_jobs::job_text("fork");
  EXPECT_EQ(purges(testing_jobs::run(fork)), 0);
  EXPECT_EQ(purges(testing_jobs::run(
                fork + "\n[unit.motion]\nrelief_port = { position = \"60 mm\", area = \"2 mm2\" }\n")),
            1);
}

}  // namespace
}  // namespace shimwright::job
