#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <iterator>
#include <string>
#include <vector>

#include "judge/findings.h"
#include "judge/test_judged.h"

// Which of several things a finding tells, and what it tells of it, where the numbers on either side of a
// limit (limits_test.cc) are not all.

namespace shimwright::judge {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing_judged::Benched;
using testing_judged::Leg;

std::vector<document::Finding> with_code(const std::vector<document::Finding>& all, const std::string& code) {
  std::vector<document::Finding> found;
  std::ranges::copy_if(all, std::back_inserter(found),
                       [&](const document::Finding& one) { return one.code == code; });
  return found;
}

std::vector<document::Finding> told(Leg& leg, const std::string& code) {
  return with_code(judge(leg.job, leg.document, {}, {}), code);
}

std::vector<document::Finding> told(Benched& bench, const std::string& code) {
  return with_code(judge_bench(bench.job, bench.document, {}), code);
}

// ---- a stack that bends too far

/// A stack of six shims in three entries of the file, one of which is past its fatigue limit at 1 MPa and has
/// a relief for the shims `first` to `last`.
Leg weak_stack(int first, int last) {
  Leg leg;
  file::DirectionSpec& spec = leg.spec().piston_valve->compression.emplace();
  int n = 0;
  for (const int count : {2, 1, 3}) {
    file::DiscSpec& entry = spec.stack.emplace_back();
    entry.origin.path = "stack[" + std::to_string(n++) + "]";
    entry.count = {count, {}};
    entry.count.given = true;
    entry.outer_diameter.given = true;
    entry.outer_diameter.si = 20e-3;
  }
  leg.stack().geometry.discs.resize(6);
  for (auto& disc : leg.stack().geometry.discs) disc.thickness = 0.2e-3;
  leg.stack().points.front().discs.assign(6, document::DiscStress(leg.disc()));
  for (document::DiscStress& disc : leg.stack().points.front().discs) disc.fatigue_margin = 1.5;
  leg.disc().fatigue_margin = 0.8;
  leg.disc().yield_margin = 1.1;
  leg.stack().relief = {.first_disc = first,
                        .last_disc = last,
                        .count = 3,
                        .thickness = 0.15e-3,
                        .drop = 1e6,
                        .yield_margin = 1.6,
                        .fatigue_margin = 1.2};
  return leg;
}

TEST(JudgedChoices, AReliefIsACureOfTheOneEntryThatHoldsItsShims) {
  struct Case {
    int first, last;
    const char* path;
    const char* from;
    const char* words;
  };
  for (const Case& one : {Case{1, 2, "stack[0]", "2 x 20 x 0.2 mm", "the two of"},
                          Case{3, 3, "stack[1]", "1 x 20 x 0.2 mm", "the one of"},
                          Case{4, 6, "stack[2]", "3 x 20 x 0.2 mm", "the three of"}}) {
    Leg leg = weak_stack(one.first, one.last);
    const auto found = told(leg, "F302");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_THAT(found[0].remedy, HasSubstr(one.words));
    ASSERT_EQ(found[0].cures.size(), 1u) << one.path;
    const document::KeyChange& change = found[0].cures[0].changes.at(0);
    EXPECT_EQ(change.path, one.path);
    EXPECT_EQ(change.from.typed, one.from);
    EXPECT_EQ(change.to.typed, "3 x 20 x 0.15 mm");
  }
  Leg across = weak_stack(2, 3);
  EXPECT_THAT(told(across, "F302").at(0).cures, IsEmpty()) << "no one entry holds the shims 2 and 3";
}

TEST(JudgedChoices, AReliefIsNoCureOfAnEntryThatSaysMoreThanItsSize) {
  const auto cures_with = [](const std::function<void(file::DiscSpec&)>& more) {
    Leg leg = weak_stack(1, 2);
    more(leg.spec().piston_valve->compression->stack[0]);
    return told(leg, "F302").at(0).cures.size();
  };
  EXPECT_EQ(cures_with([](file::DiscSpec&) {}), 1u);
  EXPECT_EQ(cures_with([](file::DiscSpec& entry) { entry.bore.given = true; }), 0u);
  EXPECT_EQ(cures_with([](file::DiscSpec& entry) { entry.material.part.emplace(); }), 0u);
  EXPECT_EQ(cures_with([](file::DiscSpec& entry) { entry.notches.emplace(); }), 0u);
  EXPECT_EQ(cures_with([](file::DiscSpec& entry) { entry.part.given = true; }), 0u);
  EXPECT_EQ(cures_with([](file::DiscSpec& entry) { entry.outer_diameter.given = false; }), 0u);
}

TEST(JudgedChoices, AReliefSaysWhatBecomesOfTheMarginsThatAreKnown) {
  Leg leg = weak_stack(1, 2);
  const auto effects = told(leg, "F302").at(0).cures.at(0).effects;
  ASSERT_EQ(effects.size(), 2u);
  EXPECT_EQ(effects[0].before.si, 1.1);
  EXPECT_EQ(effects[0].after.si, 1.6);
  EXPECT_EQ(effects[1].before.si, 0.8);
  EXPECT_EQ(effects[1].after.si, 1.2);
  leg.stack().relief->yield_margin.reset();
  EXPECT_EQ(told(leg, "F302").at(0).cures.at(0).effects.size(), 1u) << "no yield margin is known afterwards";
}

TEST(JudgedChoices, AReliefIsNoCureWhereTheNutLosesItsThread) {
  Leg leg = weak_stack(1, 2);  // 3 x 0.15 in the place of 2 x 0.20: 0.05 mm higher
  document::ThreadResult& thread = leg.unit().valves.front().post->thread.emplace();
  thread.protrusion = 3 * 0.15e-3 - 2 * 0.2e-3;
  EXPECT_EQ(told(leg, "F302").at(0).cures.size(), 1u) << "it just keeps it";
  thread.protrusion -= 1e-6;
  EXPECT_THAT(told(leg, "F302").at(0).cures, IsEmpty());
}

TEST(JudgedChoices, OnlyAStackThatStalledIsToldOnceMore) {
  Leg leg;
  leg.stack().outcome = {.status = Status::OutOfRange, .residual = 0.0, .note = "beyond its theory"};
  EXPECT_THAT(told(leg, "F602"), IsEmpty()) << "each limit of its theory has a finding of its own";
  leg.stack().outcome.status = Status::Stalled;
  EXPECT_EQ(told(leg, "F601").size(), 1u);
}

// ---- posts and torques

TEST(JudgedChoices, AnEndThatStandsWrongSaysWhatToPutOrToTake) {
  Leg leg;
  document::PostResult& post = *leg.unit().valves.front().post;
  document::ThreadResult& thread = post.thread.emplace();
  thread.pitch = 1e-3;
  thread.nut_turns = 6.0;
  thread.engaged_turns = 4.5;
  post.flags.push_back({document::PostFault::EndTooDeep, "the end is deep", true, false, 1e-3, 0.0});
  EXPECT_THAT(told(leg, "F103").at(0).remedy, HasSubstr("Take 1.50\u2009mm out of the pile"));
  thread.unthreaded_gap = -0.7e-3;
  EXPECT_THAT(told(leg, "F103").at(0).remedy, HasSubstr("Put 0.700\u2009mm more under the nut"));
  post.flags[0].sure = false;
  EXPECT_THAT(told(leg, "F103"), IsEmpty()) << "it may stand right";
  post.flags[0].sure = post.flags[0].serious = true;
  EXPECT_THAT(told(leg, "F103"), IsEmpty()) << "a graver finding says it";
}

TEST(JudgedChoices, ANutThatMayClampNothingIsALookAndOneThatDoesIsAStop) {
  Leg leg;
  document::PostResult& post = *leg.unit().valves.front().post;
  post.thread.emplace();
  post.flags.push_back(
      {document::PostFault::ClampsNothing, "the nut meets the runout", false, true, 0.0, 0.0});
  EXPECT_EQ(told(leg, "F101").at(0).severity, Severity::Look);
  EXPECT_EQ(told(leg, "F101").at(0).title, "With the worst tolerances, the nut meets the runout.");
  post.flags[0].sure = true;
  EXPECT_EQ(told(leg, "F101").at(0).severity, Severity::Stop);
  EXPECT_EQ(told(leg, "F101").at(0).title, "The nut meets the runout.");
}

TEST(JudgedChoices, AnEstimateIsNotToldOfATorqueThatIsRefused) {
  for (const bool refused : {false, true})
    for (const bool too_low : {false, true}) {
      Leg leg;
      document::TorqueResult& torque = leg.unit().valves.front().post->torque.emplace();
      torque.asked = document::computed(5.0, units::Kind::Torque);
      torque.range_low = 6.0;
      torque.range_high = 8.0;
      torque.estimate = true;
      torque.refused = refused;
      torque.too_low = too_low;
      EXPECT_EQ(told(leg, "F109").size(), refused || too_low ? 0u : 1u);
    }
}

TEST(JudgedChoices, AValveThatTheFileDoesNotStateIsJudgedByWhatWasComputed) {
  Leg leg;
  leg.spec().piston_valve.reset();
  leg.unit().valves.front().post->thread.emplace();
  EXPECT_NO_FATAL_FAILURE(judge(leg.job, leg.document, {}, {}));
}

// ---- flow

/// A leg whose bleed passes most of the flow at the second key speed, behind a stack that opens below it.
Leg bled() {
  Leg leg;
  leg.direction().law.front().bleed_flow = 2e-4;
  return leg;
}

TEST(JudgedChoices, ABleedIsTooLargeOnlyBesideAStackThatShouldCarry) {
  Leg leg = bled();
  EXPECT_EQ(told(leg, "F206").size(), 1u);
  leg.direction().check = true;
  EXPECT_THAT(told(leg, "F206"), IsEmpty()) << "a check plate carries nothing";
  leg = bled();
  leg.direction().law.front().carrier = document::Carrier::Stack;
  EXPECT_THAT(told(leg, "F206"), IsEmpty());
  leg = bled();
  leg.direction().stack.reset();
  EXPECT_THAT(told(leg, "F206"), IsEmpty()) << "there is no stack";
  leg = bled();
  leg.unit().force.reset();
  EXPECT_THAT(told(leg, "F206"), IsEmpty()) << "there is no speed to look at";
}

TEST(JudgedChoices, ANeedleBeyondItsEndIsPlacedAtItsOwnClicks) {
  Leg leg;
  auto& bleeds = leg.spec().piston_valve->bleeds;
  bleeds.resize(2);
  bleeds[0].name = {"one", {}};
  bleeds[1].name = {"another", {}};
  bleeds[1].clicks.origin.path = "the clicks of the other";
  document::BleedResult& needle = leg.unit().valves.front().bleeds.emplace_back();
  needle.name = "another";
  needle.clicks = 14;
  EXPECT_THAT(told(leg, "F207"), IsEmpty()) << "where it is fully open is not known";
  needle.full_area_clicks = 10.0;
  EXPECT_EQ(told(leg, "F207").at(0).place.path, "the clicks of the other");
  needle.name = "none of these";
  EXPECT_EQ(told(leg, "F207").at(0).place.path, "");
  leg.spec().piston_valve.reset();
  EXPECT_EQ(told(leg, "F207").at(0).place.path, "");
}

// ---- the list

TEST(JudgedChoices, TheGravestComesFirstAndOfEquallyGraveTheLowerCode) {
  Leg leg;
  leg.cavitation().margin_at_working_speed = -1e3;  // F201, a stop
  leg.direction().choking_speed = 0.5;              // F204, a look
  leg.disc().fatigue_margin = 0.5;                  // F302, a stop
  leg.stack().points.front().slope_ratio = 2.0;     // F305, a look
  std::vector<std::string> codes;
  for (const document::Finding& one : judge(leg.job, leg.document, {}, {}))
    if (one.severity >= Severity::Look) codes.push_back(one.code);
  EXPECT_THAT(codes, ElementsAre("F201", "F302", "F204", "F305"));
}

TEST(JudgedChoices, TheFileOfAPlaceIsNamedWhereThereIsOne) {
  for (const int file : {-1, 0, 1, 2}) {
    Leg leg;
    leg.job.files.resize(2);
    leg.job.files[0].name = "job";
    leg.job.files[1].name = "parts";
    leg.set_gas(25e5);
    leg.spec().reservoir->pressure.origin.file = file;
    const std::string expected = file == 0 ? "job" : file == 1 ? "parts" : "";
    EXPECT_EQ(told(leg, "F208").at(0).place.file, expected) << file;
  }
}

TEST(JudgedChoices, OnePieceIsMissingAndTwoPiecesAre) {
  Leg leg;
  document::PickLine& line = leg.document.pick_list.lines.emplace_back();
  line.part = "shim";
  line.short_by = 1;
  EXPECT_EQ(told(leg, "F505").at(0).title, "1 piece of shim is missing.");
  leg.document.pick_list.lines.front().short_by = 2;
  EXPECT_EQ(told(leg, "F505").at(0).title, "2 pieces of shim are missing.");
}

// ---- the bench

document::BenchRun& add_run(Benched& bench, const std::string& name) {
  document::BenchRun run = bench.run();
  run.name = name;
  return bench.unit().runs.emplace_back(run);
}

TEST(JudgedChoices, TheSlowestRunInWhichAirComesOutSaysHowBadItIs) {
  Benched bench;
  bench.run().top_speed = 2.0;
  bench.cycle().lowest_pressure = 40e3;
  bench.cycle().lowest_speed = -1.9;
  const auto first_seen = [&] {
    const document::Finding finding = told(bench, "F701").at(0);
    EXPECT_THAT(finding.title, HasSubstr("in rebound"));
    return finding.numbers.at(3).value.si;
  };
  EXPECT_EQ(first_seen(), 2.0);
  document::BenchRun& slow = add_run(bench, "slow and full");
  slow.top_speed = 0.2;
  for (document::BenchCycle& cycle : slow.cycles) cycle.lowest_pressure = 500e3;
  EXPECT_EQ(first_seen(), 2.0) << "in the slower one none comes out";
  add_run(bench, "faster").top_speed = 3.0;
  document::BenchRun& middle = add_run(bench, "slower");
  middle.top_speed = 1.0;
  middle.cycles.back().lowest_pressure = 45e3;
  EXPECT_EQ(first_seen(), 1.0);
}

TEST(JudgedChoices, AMeasuredRunIsReadForItsAirBeforeAComputedOne) {
  const auto run_with_air = [](Benched& bench, const std::string& name, double air, bool measured) {
    document::BenchRun& run = add_run(bench, name);
    if (measured) run.measured.emplace();
    run.air.emplace().air = air;
    run.air->significant = true;
  };
  Benched bench;
  run_with_air(bench, "computed", 5e-6, false);
  EXPECT_THAT(told(bench, "F706"), IsEmpty()) << "air that was put in is not news";
  run_with_air(bench, "measured", 3e-6, true);
  run_with_air(bench, "computed again", 4e-6, false);
  const auto found = told(bench, "F706");
  ASSERT_EQ(found.size(), 1u);
  const auto& numbers = found[0].numbers;
  EXPECT_TRUE(std::ranges::any_of(numbers, [](const auto& one) { return one.value.si == 3e-6; }));
}

TEST(JudgedChoices, TheTurnThatLosesMostTravelIsTold) {
  Benched bench;
  for (const double lost : {1e-3, 3e-3, 2e-3})
    bench.run().turns.push_back({Stroke::Rebound, 4e-3 + lost, 4e-3});
  const auto found = told(bench, "F706");
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].numbers.at(0).value.si, 7e-3);
}

TEST(JudgedChoices, TheRunThatSettlesLeastIsTold) {
  Benched bench;
  bench.run().settled = 0.02;
  bench.run().name = "first";
  add_run(bench, "worst").settled = 0.05;
  add_run(bench, "last").settled = 0.03;
  EXPECT_THAT(told(bench, "F708").at(0).title, HasSubstr("worst"));
  bench.unit().runs[1].frequency = 0.0;
  EXPECT_THAT(told(bench, "F708").at(0).title, HasSubstr("last")) << "a step does not come round again";
  bench.unit().runs[2].cycles.resize(2);
  EXPECT_THAT(told(bench, "F708").at(0).title, HasSubstr("last")) << "two cycles can be compared";
  bench.unit().runs[2].cycles.resize(1);
  EXPECT_THAT(told(bench, "F708").at(0).title, HasSubstr("first")) << "one cycle has none before it";
}

TEST(JudgedChoices, ABenchThatWasStoppedIsToldOfNoUnit) {
  Benched bench;
  bench.document.stopped = true;
  bench.document.n_runs = 3;
  bench.document.n_finished = 1;
  EXPECT_EQ(told(bench, "F710").at(0).place.unit, "");
  EXPECT_THAT(told(bench, "F710").at(0).title, HasSubstr("1 of 3"));
  bench.document.n_finished = 3;
  EXPECT_THAT(told(bench, "F710").at(0).title, Not(HasSubstr("of 3")));
}

TEST(JudgedChoices, ARunOutOfRangeIsAnEstimateAndOneThatStalledIsNone) {
  Benched bench;
  bench.run().outcome = {.status = Status::OutOfRange, .residual = 0.0, .note = "too fast"};
  ASSERT_EQ(told(bench, "F602").size(), 1u);
  EXPECT_EQ(told(bench, "F602").at(0).severity, Severity::Look);
  bench.run().outcome.status = Status::Stalled;
  ASSERT_EQ(told(bench, "F601").size(), 1u);
  EXPECT_EQ(told(bench, "F601").at(0).severity, Severity::Stop);
}

}  // namespace
}  // namespace shimwright::judge
