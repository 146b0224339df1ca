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

TEST(Settings, TheRidersOwnComplaintsComeFirst) {
  const document::ResultDocument document = run(job_text("fork"));
  const auto& advice = guide_of(document).advice;
  ASSERT_GE(advice.size(), 3u);
  EXPECT_TRUE(advice[0].complaint);
  EXPECT_TRUE(advice[1].complaint);  // "dives" and "harsh on braking bumps"
  EXPECT_FALSE(advice[2].complaint);
}

TEST(Settings, ClicksInMakeTheStrokeFirmerAndOutSofter) {
  const document::ResultDocument document = run(job_text("fork"));
  for (const document::FeelAdvice& advice : guide_of(document).advice) {
    ASSERT_EQ(advice.effect.size(), 3u) << advice.feel;
    for (const document::ForceChange& change : advice.effect) {
      if (advice.clicks_change < 0) {
        EXPECT_GE(change.after, change.before) << advice.feel;
      } else {
        EXPECT_LE(change.after, change.before) << advice.feel;
      }
    }
  }
}

TEST(Settings, TheEffectIsThatOfTheJobWithTheseClicks) {
  const document::ResultDocument document = run(job_text("fork"));
  const document::FeelAdvice& advice = guide_of(document).advice[0];
  RunOptions turned;
  turned.sections = {.force = true};
  turned.clicks = {{advice.adjuster, 12 + advice.clicks_change}};
  ASSERT_EQ(advice.adjuster, "compression needle");
  const document::ResultDocument after = run(job_text("fork"), turned);
  // solved as far as other clicks need, the lift curve is another one within its tolerance of 1e-3
  const double force = after.units[0].force->key_forces[1].compression;
  EXPECT_NEAR(advice.effect[1].after, force, 1e-3 * force);
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
  std::string text = changed(job_text("fork"), "acts_in    = \"compression\"", "acts_in    = \"rebound\"");
  const document::ResultDocument document = run(text);
  const auto& advice = guide_of(document).advice;
  ASSERT_FALSE(advice.empty());
  EXPECT_TRUE(advice[0].complaint);
  EXPECT_THAT(advice[0].turn, testing::HasSubstr("no clicker acts in compression"));
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
