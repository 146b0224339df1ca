#include "job/compare.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "file/key_changes.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing_jobs::changed;
using testing_jobs::job_text;
using testing_jobs::read;
using testing_jobs::run;

document::Comparison compared(const std::string& first, const std::string& second) {
  return compare_jobs(read(first), run(first), read(second), run(second));
}

TEST(Compare, AJobDoesNotDifferFromItself) {
  const document::Comparison comparison = compared(job_text("fork"), job_text("fork"));
  EXPECT_TRUE(comparison.keys.empty());
  EXPECT_TRUE(comparison.come.empty());
  EXPECT_TRUE(comparison.gone.empty());
  ASSERT_FALSE(comparison.forces.empty());
  for (const document::NumberPair& pair : comparison.forces) EXPECT_EQ(pair.first, pair.second);
}

TEST(Compare, TheSameLengthInAnotherUnitIsNoDifference) {
  const std::string inches = changed(job_text("fork"), "per_click  = \"0.06 mm\"", "per_click  = \"60 um\"");
  EXPECT_TRUE(file::key_changes(read(job_text("fork")), read(inches)).empty());
}

TEST(Compare, AShimMoreIsOneKeyAndItsEffect) {
  const std::string stiffer = changed(job_text("fork"), "[\"8 x 20 x 0.10 mm\"", "[\"9 x 20 x 0.10 mm\"");
  const document::Comparison comparison = compared(job_text("fork"), stiffer);
  ASSERT_EQ(comparison.keys.size(), 1u);
  EXPECT_EQ(comparison.keys[0].path, "unit[0].piston_valve.rebound.stack");
  EXPECT_THAT(comparison.keys[0].first, testing::HasSubstr("8 x 20"));
  EXPECT_THAT(comparison.keys[0].second, testing::HasSubstr("9 x 20"));
  const auto firm =
      std::ranges::find(comparison.forces, "rebound force at 1.00 m/s", &document::NumberPair::name);
  ASSERT_NE(firm, comparison.forces.end());
  EXPECT_GT(*firm->second, *firm->first);
}

TEST(Compare, AKeyOfOneJobAloneIsShownOnItsSide) {
  const std::string without = changed(job_text("fork"), "seal_friction = \"15 N\"\n", "");
  const auto keys = file::key_changes(read(job_text("fork")), read(without));
  ASSERT_EQ(keys.size(), 1u);
  EXPECT_EQ(keys[0].first, "15 N");
  EXPECT_EQ(keys[0].second, "");
}

TEST(Compare, FindingsThatComeAndGoAreNamed) {
  const std::string wrong = changed(job_text("fork"), "torque = \"4.5 N.m\"", "torque = \"40 ft.lbf\"");
  const document::Comparison comparison = compared(job_text("fork"), wrong);
  EXPECT_TRUE(
      std::ranges::any_of(comparison.come, [](const document::Finding& f) { return f.code == "F106"; }));
  EXPECT_TRUE(
      std::ranges::any_of(comparison.gone, [](const document::Finding& f) { return f.code == "F109"; }));
}

TEST(Compare, JobsOfDifferentKindsStandBesideEachOther) {
  const document::Comparison comparison = compared(job_text("fork"), job_text("lone-stack"));
  ASSERT_FALSE(comparison.forces.empty());
  for (const document::NumberPair& pair : comparison.forces) {
    EXPECT_TRUE(pair.first.has_value());
    EXPECT_FALSE(pair.second.has_value());
  }
}

}  // namespace
}  // namespace shimwright::job
