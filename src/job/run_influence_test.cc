#include "job/run_influence.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing_jobs::changed;
using testing_jobs::job_text;
using testing_jobs::run;

document::StackInfluence influence(const std::string& text, const RunOptions& options = {}) {
  const document::ResultDocument document = run(text, options);
  EXPECT_TRUE(document.stack && document.stack->influence);
  return document.stack->influence.value_or(document::StackInfluence{});
}

TEST(Influence, SharesAddUpToTheWholeByGroupsAndByStages) {
  const document::StackInfluence whole = influence(job_text("lone-stack"));
  double groups = 0.0, stages = 0.0;
  for (const document::GroupInfluence& group : whole.groups) groups += group.stiffness_share;
  for (const document::StageShare& stage : whole.stages) stages += stage.stiffness_share;
  EXPECT_NEAR(groups, 1.0, 1e-9);  // rounding of sums
  EXPECT_NEAR(stages, 1.0, 1e-9);
  ASSERT_EQ(whole.stages.size(), 2u);
  EXPECT_EQ(whole.stages[0].last_disc, 5);  // the gap shim ends the first stage
}

TEST(Influence, OneShimThickerByATenthLiftsLessByItsCube) {
  // one disc in the linear theory: lift goes with t^-3, shear apart
  RunOptions linear;
  linear.theory = Theory::Linear;
  std::string text = changed(job_text("lone-stack"), "\"4 x 22 x 0.15 mm\", \"1 x 13 x 0.10 mm\", ", "");
  text = changed(text, "\"1 x 20 x 0.15 mm\", \"1 x 17 x 0.15 mm\", \"1 x 14 x 0.20 mm\"",
                 "\"1 x 22 x 0.10 mm\"");
  const document::StackInfluence one =
      influence(changed(text, "\"0.1 MPa, 0.3 MPa, 0.8 MPa\"", "\"1 kPa\""), linear);
  ASSERT_EQ(one.groups.size(), 1u);
  EXPECT_NEAR(one.groups[0].change.value_or(0.0), 1.0 / (1.1 * 1.1 * 1.1) - 1.0, 1e-4);  // shear: (t/a)^2
  EXPECT_THAT(one.sentences,
              testing::ElementsAre(testing::HasSubstr("mm more on the 22 x 0.10 mm shim: lift")));
}

TEST(Influence, SentencesBeginWithTheMostSensitiveGroupAndSpeakTheReadersUnits) {
  const document::StackInfluence metric = influence(job_text("lone-stack"));
  ASSERT_FALSE(metric.sentences.empty());
  EXPECT_THAT(metric.sentences.front(), testing::HasSubstr("each of the four 22 x 0.15 mm shims: lift"));
  RunOptions imperial;
  imperial.system = units::System::Imperial;
  EXPECT_THAT(influence(job_text("lone-stack"), imperial).sentences.front(), testing::HasSubstr("0.0004"));
}

TEST(Influence, AStackThatFloatsHasItToo) {  // it bends before its stop
  const document::ResultDocument document = run(job_text("fork"));
  for (const document::ValveResult& valve : document.units[0].valves)
    for (const document::DirectionResult& direction : valve.directions) {
      if (!direction.stack) continue;
      EXPECT_TRUE(direction.stack->influence.has_value()) << direction.stack->name;
    }
}

}  // namespace
}  // namespace shimwright::job
