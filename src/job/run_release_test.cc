#include "job/run_release.h"

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
  EXPECT_GT(test.cases[0].reads_as, 0.0);
  EXPECT_DOUBLE_EQ(test.cases[0].reads_as, test.cases[0].rest_travel * test.rod_area);
  EXPECT_THAT(test.words, HasSubstr("too weak for this test"));
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
