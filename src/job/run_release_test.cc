#include "job/run_release.h"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/run_bench.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing::HasSubstr;
using testing_jobs::changed;
using testing_jobs::job_text;

document::ReleaseTest hand_test(const std::string& text) {
  const document::ResultDocument document = testing_jobs::run(text);
  EXPECT_TRUE(document.units.at(0).fill && document.units[0].fill->release);
  return document.units[0].fill->release.value_or(document::ReleaseTest{});
}

TEST(HandTest, HasAllFiveStatesAndBeginsWithTheWellBledOne) {
  const document::ReleaseTest test = hand_test(job_text("fork"));
  ASSERT_EQ(test.cases.size(), 5u);
  EXPECT_EQ(test.cases[0].air, 0.0);
  EXPECT_EQ(test.cases[3].air, 5e-6);
  EXPECT_GT(test.cases[4].seal_friction, test.cases[0].seal_friction);
  EXPECT_DOUBLE_EQ(test.pushed_to, 0.8 * 0.3);
  EXPECT_THAT(test.words, HasSubstr("in a well bled unit it comes out fully"));
}

TEST(HandTest, OfALongerUnitPushesAShorterOneInFully) {
  // the bench's hand test names 290 mm and the other unit; this leg goes 250 mm
  const std::string text = changed(job_text("fork"), "travel = \"300 mm\"", "travel = \"250 mm\"") +
                           "\n[[unit]]\nname = \"other\"\nkind = \"fork leg\"\ntravel = \"300 mm\"\n"
                           "[bench]\nunit = \"other\"\nhand_test = { pushed_to = \"290 mm\" }\n";
  EXPECT_DOUBLE_EQ(hand_test(text).pushed_to, 0.25);
}

TEST(HandTest, WhatPushesTheRodOutIsTheReservoirOnItsArea) {
  const document::ReleaseTest test = hand_test(job_text("fork"));
  // sprung piston 26 mm: 90 N and 3 N/mm over the travel that 240 mm of a 12 mm rod give it
  const double ratio = 12.0 * 12.0 / (26.0 * 26.0);
  const double force = ratio * (90.0 + 3.0 * 240.0 * ratio);
  EXPECT_NEAR(test.cases[0].push_force, force, 0.02 * force);  // the oil's own give
}

TEST(HandTest, AirJumpsAndADraggingSealTakesLonger) {
  const document::ReleaseTest test = hand_test(job_text("fork"));
  EXPECT_GT(test.cases[2].top_speed, 1.5 * test.cases[0].top_speed);
  EXPECT_TRUE(!test.cases[4].fully_out || test.cases[4].time > test.cases[0].time);
}

TEST(HandTest, ASealThatHoldsAgainstTheSpringSaysThatTheTestShowsNothing) {
  const document::ReleaseTest test =
      hand_test(changed(job_text("fork"), "seal_friction = \"15 N\"", "seal_friction = \"60 N\""));
  EXPECT_FALSE(test.cases[0].fully_out);
  EXPECT_EQ(test.cases[0].rest_travel, test.pushed_to);
  EXPECT_THAT(test.words, HasSubstr("stays there"));
}

/// The fork with its oil and parts this cold or warm on the bench.
std::string at(const char* temperature) {
  return changed(job_text("fork"), "fill_temperature = \"20 degC\"",
                 "fill_temperature = \"" + std::string(temperature) + "\"");
}

// by hand: the compensator's spring pushes with 90 N x 12^2 / 26^2 = 19.2 N, more than the 15 N of the seals
TEST(HandTest, WhereTheRodStopsIsTheSameInColdAndInWarmOil) {
  std::vector<document::ReleaseTest> tests;
  for (const char* temperature : {"45 degC", "20 degC", "5 degC", "-20 degC"})
    tests.push_back(hand_test(at(temperature)));
  for (std::size_t i = 0; i < tests.size(); ++i) {
    EXPECT_TRUE(tests[i].cases[0].fully_out) << tests[i].words;
    for (std::size_t k = 0; k < tests[i].cases.size(); ++k) {
      const document::ReleaseCase& one = tests[i].cases[k];
      EXPECT_NEAR(one.rest_travel, tests[0].cases[k].rest_travel, 0.05e-3) << one.name;
      // slowness is told as time
      if (i > 0 && one.arrived) {
        EXPECT_GT(one.time, tests[i - 1].cases[k].time) << one.name;
      }
    }
  }
}

TEST(HandTest, AStopIsReadAsTheAirThatMadeIt) {
  const document::ResultDocument document = testing_jobs::run(job_text("fork"));
  const document::FillResult& fill = *document.units.at(0).fill;
  ASSERT_TRUE(fill.stop && fill.release);
  for (const document::ReleaseCase& one : fill.release->cases) {
    if (one.fully_out || one.air == 0.0) continue;
    ASSERT_TRUE(one.reads_as.has_value()) << one.name;
    EXPECT_NEAR(*one.reads_as, one.air, 0.01 * one.air + 0.01e-6) << one.name;
  }
  // a stop of 10 mm needs all that the compensator can follow and more: never less than the rod's own volume
  ASSERT_TRUE(fill.stop->short_stop_air && fill.stop->hidden_air);
  EXPECT_GT(*fill.stop->short_stop_air, *fill.stop->hidden_air);
  EXPECT_GT(*fill.stop->short_stop_air, fill.rod_area * fill.stop->short_stop);
}

TEST(HandTest, TheLimitsAreThoseOfTheWellBledUnit) {
  for (const char* friction : {"15 N", "22 N", "24 N"}) {
    const document::ResultDocument document = testing_jobs::run(changed(
        job_text("fork"), "seal_friction = \"15 N\"", "seal_friction = \"" + std::string(friction) + "\""));
    const document::UnitResult& unit = document.units.at(0);
    const double well_bled = unit.fill->release->cases.front().rest_travel;
    EXPECT_NEAR(unit.fill->stop->well_bled, well_bled, 1e-6) << friction;
    const auto hold = std::ranges::find_if(unit.plan->steps, [](const document::BuildStep& step) {
      return step.hold && step.hold->what == "stops short of its end by";
    });
    ASSERT_NE(hold, unit.plan->steps.end()) << friction;
    EXPECT_NEAR(hold->hold->expected.si, well_bled, 1e-6);
    EXPECT_LE(hold->hold->low->si, well_bled);
    EXPECT_GT(hold->hold->high->si, well_bled);
  }
}

// what is read does not hang on what else is asked for
TEST(HandTest, TheReadingIsTheSameWithoutThePlan) {
  RunOptions only;
  only.sections = {.fill = true};
  const document::ResultDocument whole = testing_jobs::run(job_text("fork"));
  const document::ResultDocument part = testing_jobs::run(job_text("fork"), only);
  ASSERT_TRUE(part.units.at(0).fill && part.units[0].fill->stop);
  EXPECT_EQ(part.units[0].fill->stop->short_stop_air, whole.units.at(0).fill->stop->short_stop_air);
  EXPECT_EQ(part.units[0].fill->stop->well_bled, whole.units[0].fill->stop->well_bled);
}

TEST(HandTest, TheStepOfTheBuildSheetCitesIt) {
  const document::ResultDocument document = testing_jobs::run(job_text("fork"));
  const auto& steps = document.units.at(0).plan->steps;
  EXPECT_TRUE(std::ranges::any_of(steps, [&](const document::BuildStep& step) {
    return step.why.find(document.units[0].fill->release->words) != std::string::npos;
  }));
}

}  // namespace
}  // namespace shimwright::job
