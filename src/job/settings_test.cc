#include "job/settings.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing_jobs::changed;
using testing_jobs::job_text;
using testing_jobs::run;

const document::SettingsGuide& guide_of(const document::ResultDocument& document) {
  return *document.units.at(0).settings;
}

const document::OtherCondition* find_condition(const document::SettingsGuide& guide,
                                               const std::string& words) {
  for (const document::OtherCondition& other : guide.other) {
    if (other.condition.find(words) != std::string::npos) return &other;
  }
  return nullptr;
}

double number(const document::OtherCondition& other, const std::string& name) {
  for (const document::NamedValue& value : other.numbers) {
    if (value.name == name) return value.value.si;
  }
  throw std::out_of_range(name);
}

TEST(Settings, WhatIsSetIsToldAsTyped) {
  const document::ResultDocument document = run(job_text("fork"));
  std::vector<std::string> names;
  for (const document::Setting& setting : guide_of(document).settings) names.push_back(setting.name);
  EXPECT_THAT(names,
              testing::ElementsAre("rebound needle", "compression needle", "air, positive", "air, negative"));
  EXPECT_EQ(guide_of(document).settings[2].value.typed, "4.1 bar(g)");
  EXPECT_EQ(guide_of(document).settings[0].words, "10 clicks out from seated, of 22");
}

/// The fork's job with other feels.
std::string with_feels(const std::string& feels) {
  return changed(job_text("fork"), "feels      = [\"harsh\", \"dives\"]", "feels      = " + feels);
}

const document::FeelAdvice& advice_for(const document::ResultDocument& document, const std::string& words) {
  for (const document::FeelAdvice& advice : guide_of(document).advice)
    if (advice.feel.find(words) != std::string::npos) return advice;
  throw std::out_of_range(words);
}

TEST(Settings, TheRidersOwnComplaintsComeFirst) {
  const document::ResultDocument document = run(with_feels(R"(["packs down", "dives"])"));
  const auto& advice = guide_of(document).advice;
  ASSERT_GE(advice.size(), 3u);
  EXPECT_TRUE(advice[0].complaint);
  EXPECT_TRUE(advice[1].complaint);
  EXPECT_FALSE(advice[2].complaint);
}

TEST(Settings, ClicksInMakeTheStrokeFirmerAndOutSofter) {
  const document::ResultDocument document = run(job_text("fork"));
  for (const document::FeelAdvice& advice : guide_of(document).advice) {
    if (advice.adjuster.empty()) continue;
    ASSERT_EQ(advice.effect.size(), 3u) << advice.feel;
    for (const document::ForceChange& change : advice.effect) {
      EXPECT_EQ(change.stroke, advice.stroke);
      if (advice.clicks_change < 0) {
        EXPECT_GE(change.after, change.before) << advice.feel;
      } else {
        EXPECT_LE(change.after, change.before) << advice.feel;
      }
    }
  }
}

TEST(Settings, TheEffectIsThatOfTheJobWithTheseClicks) {
  const std::string text = with_feels(R"(["dives"])");
  const document::ResultDocument document = run(text);
  const document::FeelAdvice& advice = guide_of(document).advice[0];
  RunOptions turned;
  turned.sections = {.force = true};
  turned.clicks = {{advice.adjuster, 12 + advice.clicks_change}};
  ASSERT_EQ(advice.adjuster, "compression needle");
  const document::ResultDocument after = run(text, turned);
  const double force = after.units[0].force->key_forces[1].compression;
  EXPECT_NEAR(advice.effect[1].after, force, 1e-6 * force);  // the law's table
}

TEST(Settings, NoClickerGoesBeyondItsEnd) {
  const document::ResultDocument document =
      run(changed(job_text("fork"), "clicks     = 12", "clicks     = 1 "));
  for (const document::FeelAdvice& advice : guide_of(document).advice) {
    if (advice.adjuster == "compression needle") {
      EXPECT_GE(1 + advice.clicks_change, 0);
    }
  }
}

TEST(Settings, AComplaintThatNoClickerAnswersSaysSo) {
  std::string text =
      changed(with_feels(R"(["dives"])"), "acts_in    = \"compression\"", "acts_in    = \"rebound\"");
  const document::ResultDocument document = run(text);
  const auto& advice = guide_of(document).advice;
  ASSERT_FALSE(advice.empty());
  EXPECT_TRUE(advice[0].complaint);
  EXPECT_EQ(advice[0].adjuster, "");
  EXPECT_THAT(advice[0].turn, testing::HasSubstr("no clicker"));
}

TEST(Settings, ComplaintsThatAskForOppositeTurnsAreNotAnsweredByAClicker) {
  const document::ResultDocument document = run(with_feels(R"(["harsh", "dives"])"));
  EXPECT_EQ(advice_for(document, "dives").adjuster, "");
  EXPECT_EQ(advice_for(document, "harsh").adjuster, "");
  // without the other each has its clicker
  EXPECT_LE(advice_for(run(with_feels(R"(["dives"])")), "dives").clicks_change, -2);
  EXPECT_GE(advice_for(run(with_feels(R"(["harsh"])")), "harsh").clicks_change, 2);
}

TEST(Settings, BottomingIsAnsweredInCompressionThoughTheReboundNeedleActsInBoth) {
  // the needle of the piston passes oil both ways; the one of the foot valve acts in compression alone
  const document::ResultDocument document =
      run(changed(with_feels(R"(["bottoms"])"), "acts_in    = \"rebound\"", "acts_in    = \"both\""));
  const document::FeelAdvice& advice = advice_for(document, "uses all its travel");
  EXPECT_EQ(advice.adjuster, "compression needle");
  EXPECT_LT(advice.clicks_change, 0);
}

TEST(Settings, ANeedleThatActsInBothTellsBothStrokes) {
  const document::ResultDocument document =
      run(changed(job_text("fork"), "acts_in    = \"rebound\"", "acts_in    = \"both\""));
  const auto& clicks = guide_of(document).per_click;
  ASSERT_EQ(clicks.size(), 2u);  // each needle once
  EXPECT_EQ(clicks[0].effect.size(), 6u);
  EXPECT_EQ(clicks[1].effect.size(), 3u);
}

TEST(Settings, ATurnThatNobodyFeelsIsNotTold) {
  // a needle a tenth as fine: no number of its clicks changes a twentieth of the force
  const document::ResultDocument document =
      run(changed(with_feels(R"(["kicks back"])"), "per_click  = \"0.06 mm\"\nclicks     = 10",
                  "per_click  = \"0.001 mm\"\nclicks     = 10"));
  const document::FeelAdvice& advice = advice_for(document, "kicks back");
  EXPECT_EQ(advice.adjuster, "");
  EXPECT_THAT(advice.turn, testing::HasSubstr("too little to feel"));
}

TEST(Settings, ColderOilIsFirmerAndTheClicksGoOut) {
  const document::ResultDocument document = run(job_text("fork"));
  const document::OtherCondition* colder = find_condition(guide_of(document), "oil 10");
  ASSERT_NE(colder, nullptr);
  EXPECT_GE(number(*colder, "rebound force after"), number(*colder, "rebound force before"));
  EXPECT_GE(number(*colder, "rebound needle"), 0.0);
}

TEST(Settings, ColderAirIsSofterAndWantsPressure) {
  const document::ResultDocument document = run(job_text("fork"));
  const document::OtherCondition* colder = find_condition(guide_of(document), "air 10");
  ASSERT_NE(colder, nullptr);
  EXPECT_LT(number(*colder, "force at sag"), 0.0);
  EXPECT_GT(number(*colder, "pressure change"), 0.0);
}

TEST(Settings, AHeavierRiderWantsMoreAndTheSagThenIsTheSame) {
  const document::ResultDocument document = run(job_text("fork"));
  const document::OtherCondition* heavier = find_condition(guide_of(document), "heavier");
  ASSERT_NE(heavier, nullptr);
  EXPECT_GT(number(*heavier, "sag after"), number(*heavier, "sag before"));
  const double pressure = number(*heavier, "pressure change");
  ASSERT_GT(pressure, 0.0);

  // the changed job itself: 5 kg more and that much more pressure when it is set at 20 degC
  const std::string set = std::to_string(4.1 + pressure / 1e5) + " bar(g)";
  std::string text = changed(job_text("fork"), "mass       = \"92 kg\"", "mass       = \"97 kg\"");
  text = changed(text, "positive = { pressure = \"4.1 bar(g)\"", "positive = { pressure = \"" + set + "\"");
  const auto sag = [](const document::ResultDocument& result) {
    return result.units[0].springs->sag.at(1).wheel_travel;
  };
  // the pressure is written with six digits
  EXPECT_NEAR(sag(run(text)), sag(document), 1e-6);
}

TEST(Settings, ACoilIsHelpedByPreload) {
  const document::ResultDocument document = run(job_text("shock"));
  const document::OtherCondition* heavier = find_condition(guide_of(document), "heavier");
  ASSERT_NE(heavier, nullptr);
  EXPECT_GT(number(*heavier, "preload change"), 0.0);
}

}  // namespace
}  // namespace shimwright::job
