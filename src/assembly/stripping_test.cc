#include "assembly/stripping.h"

#include <gtest/gtest.h>

#include "base/check.h"

namespace shimwright::assembly {
namespace {

Strength class_named(const char* id) {
  return find_strength(id)->strength;
}

ThreadPair steel_in_aluminium() {
  return {.thread = nominal_thread(8e-3, 1e-3),
          .engaged_length = 8e-3,
          .post = class_named("8.8"),
          .nut = class_named("aluminium 6082-T6"),
          .nut_width = 0.0};
}

TEST(Stripping, TheSofterSideStrips) {
  ThreadPair pair = steel_in_aluminium();
  const Stripping soft_nut = stripping(pair);
  EXPECT_EQ(soft_nut.weaker, Member::Nut);
  EXPECT_DOUBLE_EQ(soft_nut.force, soft_nut.nut_force);

  std::swap(pair.post, pair.nut);
  const Stripping soft_post = stripping(pair);
  EXPECT_EQ(soft_post.weaker, Member::Post);
  EXPECT_DOUBLE_EQ(soft_post.force, soft_post.post_force);
}

TEST(Stripping, NoEngagementHoldsNothingAndStillNamesTheWeakerSide) {
  ThreadPair pair = steel_in_aluminium();
  pair.engaged_length = 0.0;
  EXPECT_EQ(stripping(pair).force, 0.0);
  EXPECT_EQ(stripping(pair).weaker, Member::Nut);
}

TEST(Stripping, AThinNutDilatesAndStripsEarlier) {
  ThreadPair pair = steel_in_aluminium();
  const double wide = stripping(pair).force;
  pair.nut_width = 1.5 * pair.thread.diameter;
  EXPECT_NEAR(stripping(pair).force, 0.84 * wide, 1e-9 * wide);
}

TEST(Stripping, OutsideTheMeasuredRangeSaysSo) {
  EXPECT_TRUE(alexander_factors(1.5, 1.0).outcome.ok());
  EXPECT_EQ(alexander_factors(1.2, 1.0).outcome.status, Status::OutOfRange);
  EXPECT_EQ(alexander_factors(0.0, 5.0).outcome.status, Status::OutOfRange);
  EXPECT_EQ(alexander_factors(0.0, 0.1).outcome.status, Status::OutOfRange);
  EXPECT_FALSE(alexander_factors(0.0, 5.0).outcome.note.empty());
  // held at the edge, not run away with the polynomial
  EXPECT_DOUBLE_EQ(alexander_factors(0.0, 5.0).post, alexander_factors(0.0, 2.2).post);
}

TEST(Stripping, EngagementToHoldIsTheInverse) {
  ThreadPair pair = steel_in_aluminium();
  pair.engaged_length = engagement_to_hold(pair, 12e3);
  EXPECT_NEAR(stripping(pair).force, 12e3, 1e-6);
}

// the usual rule: a nut of equal material breaks the bolt at less than one diameter, aluminium takes more
TEST(Stripping, HandbookEngagementGrowsForASofterNut) {
  ThreadPair pair = steel_in_aluminium();
  const double soft = handbook_engagement(pair);
  pair.nut = pair.post;
  const double equal = handbook_engagement(pair);
  EXPECT_GT(equal, 0.4 * pair.thread.diameter);
  EXPECT_LT(equal, 1.0 * pair.thread.diameter);
  EXPECT_GT(soft, 1.5 * equal);
}

TEST(Stripping, ImpossiblePairsAreProblemsByField) {
  ThreadPair pair = steel_in_aluminium();
  EXPECT_TRUE(problems_in(pair).empty());
  pair.nut_width = pair.thread.diameter;
  pair.engaged_length = -1e-3;
  pair.post.yield = 2 * pair.post.ultimate;
  pair.nut.ultimate = 0.0;
  std::vector<std::string> fields;
  for (const Problem& problem : problems_in(pair)) fields.push_back(problem.field);
  EXPECT_EQ(fields, (std::vector<std::string>{"post.yield", "nut.ultimate", "nut.yield", "engaged_length",
                                              "nut_width"}));
  EXPECT_THROW(stripping(pair), LogicFault);
}

TEST(Stripping, StrengthsAreFoundByNameAndPlausible) {
  EXPECT_EQ(find_strength("cheese"), nullptr);
  for (const NamedStrength& each : named_strengths()) {
    EXPECT_EQ(find_strength(each.id), &each);
    EXPECT_LT(each.strength.yield, each.strength.ultimate);
    EXPECT_FALSE(each.source.empty());
  }
}

}  // namespace
}  // namespace shimwright::assembly
