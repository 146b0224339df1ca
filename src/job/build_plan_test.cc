#include "job/build_plan.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing_jobs::changed;
using testing_jobs::job_text;
using testing_jobs::run;

const document::BuildPlan& plan_of(const document::ResultDocument& document) {
  return *document.units.at(0).plan;
}

/// The first step whose text, caution or hold point speaks of `words`; null when none does.
const document::BuildStep* find_step(const document::BuildPlan& plan, const std::string& words) {
  for (const document::BuildStep& step : plan.steps) {
    const std::string all = step.text + " " + step.caution + " " + (step.hold ? step.hold->what : "");
    if (all.find(words) != std::string::npos) return &step;
  }
  return nullptr;
}

TEST(BuildPlan, StepsAreNumberedWithoutABreak) {
  for (const char* job : {"fork", "shock"}) {
    const document::ResultDocument document = run(job_text(job));
    int number = 0;
    for (const document::BuildStep& step : plan_of(document).steps) EXPECT_EQ(step.number, ++number);
    EXPECT_GT(number, 20);
  }
}

TEST(BuildPlan, TheChecksThatAGoodHandNeverSkipsAreThere) {
  const document::ResultDocument document = run(job_text("fork"));
  for (const char* words :
       {"old threadlocker", "flame away from seals", "no edge sticks out", "thin film of grease", "Right way",
        "centred and free", "fully in its groove", "never where the piston passes", "rod fully out",
        "until no bubbles rise", "stops short of its end", "until it seats"}) {
    EXPECT_NE(find_step(plan_of(document), words), nullptr) << words;
  }
}

TEST(BuildPlan, TheStackGoesOnWithItsFaceToThePiston) {
  const document::ResultDocument document = run(job_text("fork"));
  // between shoulder and piston the clamp side comes first, behind the piston the face shim
  const document::BuildStep* compression = find_step(plan_of(document), "Put on the compression stack");
  const document::BuildStep* rebound = find_step(plan_of(document), "Put on the rebound stack");
  ASSERT_TRUE(compression != nullptr && rebound != nullptr);
  EXPECT_THAT(compression->text, testing::HasSubstr("this order: the spring of the float, 15 x 0.15 mm"));
  EXPECT_THAT(rebound->text, testing::HasSubstr("this order: 8 x 20 x 0.10 mm, 17 x 0.10 mm"));
  EXPECT_EQ(compression->picture, (document::StepPicture{ValvePlace::Piston, Stroke::Compression}));
}

TEST(BuildPlan, TheTorqueStandsInBothUnitsWithItsCautionBefore) {
  const document::ResultDocument document = run(job_text("fork"));
  const document::BuildStep* step = find_step(plan_of(document), "Tighten the nut");
  ASSERT_NE(step, nullptr);
  EXPECT_THAT(step->text, testing::AllOf(testing::HasSubstr("N·m"), testing::HasSubstr("in·lbf")));
  EXPECT_THAT(step->caution, testing::HasSubstr("twelve"));
  ASSERT_TRUE(step->torque.has_value());
  EXPECT_DOUBLE_EQ(step->torque->si, 4.5);
}

TEST(BuildPlan, ARefusedTorqueIsNotPrintedAsAStep) {
  const document::ResultDocument document =
      run(changed(job_text("fork"), "torque = \"4.5 N.m\"", "torque = \"40 ft.lbf\""));
  const document::BuildStep* step = find_step(plan_of(document), "Tighten the nut");
  ASSERT_NE(step, nullptr);
  EXPECT_EQ(step->section, "Foot valve");  // that of the other post is still in order
}

TEST(BuildPlan, GasAndSpringsHaveTheirCautionsOnlyWhereTheyAre) {
  const document::ResultDocument shock = run(job_text("shock"));
  const document::ResultDocument fork = run(job_text("fork"));
  EXPECT_NE(find_step(plan_of(shock), "Never use oxygen"), nullptr);
  EXPECT_EQ(find_step(plan_of(fork), "Never use oxygen"), nullptr);
  EXPECT_NE(find_step(plan_of(shock), "preloaded spring can break fingers"), nullptr);
  EXPECT_EQ(find_step(plan_of(fork), "preloaded spring can break fingers"), nullptr);
  EXPECT_THAT(plan_of(fork).before.front(), testing::HasSubstr("manual"));
}

TEST(BuildPlan, ACheckPlateIsNoStackOfShims) {
  const document::ResultDocument document = run(job_text("fork"));
  const document::BuildStep* step = find_step(plan_of(document), "travel of the check plate");
  ASSERT_NE(step, nullptr);
  EXPECT_NE(find_step(plan_of(document), "check plate (23 x 0.30 mm)"), nullptr);
  EXPECT_NEAR(step->hold->expected.si, 1.2e-3, 1e-12);
}

TEST(BuildPlan, NoSentenceShoutsOrBegs) {
  for (const char* job : {"fork", "shock"}) {
    const document::ResultDocument document = run(job_text(job));
    for (const document::BuildStep& step : plan_of(document).steps) {
      for (const std::string& text : {step.text, step.why, step.caution}) {
        EXPECT_EQ(text.find('!'), std::string::npos) << text;
        EXPECT_EQ(text.find("lease "), std::string::npos) << text;  // "please", "Please"
      }
    }
  }
}

}  // namespace
}  // namespace shimwright::job
