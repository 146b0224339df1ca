#include "assembly/spacers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "assembly/test_units.h"
#include "base/check.h"

namespace shimwright::assembly {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

constexpr double kSearchRounding = 1e-9;  // the search compares in whole nanometres

Piece spacer(double thickness) {
  return {.id = "spacer", .thickness = thickness};
}

/// Heights from 11.5 to 15 mm fit (see ledger_test.cc).
SpacerCase drawer(double pile, std::vector<SpacerStock> stock) {
  return {.assembly = {.post = {.thread = nominal_thread(6 * kMm, 1 * kMm),
                                .length = 20 * kMm,
                                .thread_length = 9 * kMm,
                                .runout = 1 * kMm,
                                .end_chamfer = 0.5 * kMm},
                       .nut = {.height = 5 * kMm, .face_chamfer = 0.5 * kMm, .top_chamfer = 0.5 * kMm},
                       .pieces = {{.id = "pile", .thickness = pile}}},
          .stock = std::move(stock)};
}

TEST(ChooseSpacers, FewestPiecesThatFitAreChosen) {
  const SpacerAdvice advice =
      choose_spacers(drawer(10 * kMm, {{spacer(0.3 * kMm), 6}, {spacer(1.0 * kMm), 3}}));
  EXPECT_TRUE(advice.fits);
  EXPECT_TRUE(advice.fits_always);
  // two of 1.0 need two pieces; so does nothing else
  EXPECT_THAT(advice.best.counts, ElementsAre(0, 2));
  EXPECT_EQ(advice.n_searched, 7 * 4);
  EXPECT_NEAR(advice.best.height, 12 * kMm, kSearchRounding);
  EXPECT_NEAR(advice.ledger.height.nominal, 12 * kMm, kSearchRounding);
  EXPECT_THAT(advice.ledger.flags, IsEmpty());
}

TEST(ChooseSpacers, SaysWhichToTakeOutSoThatTheNutUsesAllItsThread) {
  // 14.6 mm of pile under six spacers of 0.3: 16.4 mm, the nut hangs on its last turns
  const SpacerCase over = drawer(14.6 * kMm, {{.piece = spacer(0.3 * kMm), .in_hand = 6, .fitted = 6}});
  const SpacerAdvice advice = choose_spacers(over);
  EXPECT_NEAR(advice.now.miss, 1.4 * kMm, kSearchRounding);
  EXPECT_THAT(advice.best.counts, ElementsAre(0));
  ASSERT_EQ(advice.left_out.size(), 1u);
  EXPECT_EQ(advice.left_out[0].count, 6);
  EXPECT_EQ(advice.left_out[0].taken_out, 6);
  EXPECT_EQ(advice.left_out[0].why, WhyLeftOut::NotNeeded);
  // one would still fit, and is the next best
  ASSERT_TRUE(advice.next_best);
  EXPECT_THAT(advice.next_best->counts, ElementsAre(1));
}

TEST(ChooseSpacers, AmongEquallyManyTheLeastChangeWins) {
  const SpacerCase stocked = drawer(11 * kMm, {{spacer(0.6 * kMm), 1},
                                               {.piece = spacer(1.0 * kMm), .in_hand = 1, .fitted = 1},
                                               {spacer(2.0 * kMm), 1}});
  EXPECT_THAT(choose_spacers(stocked).best.counts, ElementsAre(0, 1, 0));

  // with nothing fitted the thinnest is the least change
  const SpacerCase fresh =
      drawer(11 * kMm, {{spacer(0.6 * kMm), 1}, {spacer(1.0 * kMm), 1}, {spacer(2.0 * kMm), 1}});
  EXPECT_THAT(choose_spacers(fresh).best.counts, ElementsAre(1, 0, 0));
}

TEST(ChooseSpacers, OfEqualSpacersTheEarlierLineIsTaken) {
  EXPECT_THAT(choose_spacers(drawer(11 * kMm, {{spacer(1.0 * kMm), 1}, {spacer(1.0 * kMm), 1}})).best.counts,
              ElementsAre(1, 0));
}

TEST(ChooseSpacers, AChoiceThatFitsOnlyAtNominalYieldsToOneThatFitsAlways) {
  // 0.5 reaches 11.5 exactly, but not when the pile is low; two pieces do always
  SpacerCase tight = drawer(11 * kMm, {{spacer(0.5 * kMm), 2}});
  tight.assembly.pieces[0].tolerance = 0.05 * kMm;
  const SpacerAdvice advice = choose_spacers(tight);
  EXPECT_THAT(advice.best.counts, ElementsAre(2));
  EXPECT_TRUE(advice.fits_always);
}

TEST(ChooseSpacers, WhyAnotherWouldPushTheNutOffItsThreadIsToldWithNumbers) {
  const SpacerAdvice advice = choose_spacers(drawer(14.8 * kMm, {{spacer(0.5 * kMm), 1}}));
  EXPECT_THAT(advice.best.counts, ElementsAre(0));
  ASSERT_EQ(advice.left_out.size(), 1u);
  EXPECT_EQ(advice.left_out[0].why, WhyLeftOut::NutOffThread);
  EXPECT_NEAR(advice.left_out[0].engaged_with_one_more, 3.7 * kMm, kSearchRounding);
  EXPECT_NEAR(advice.left_out[0].protrusion_with_one_more, -0.3 * kMm, kSearchRounding);
}

TEST(ChooseSpacers, WhenNothingFitsTheMissingPieceIsNamed) {
  const SpacerAdvice advice = choose_spacers(drawer(10 * kMm, {{spacer(0.3 * kMm), 2}}));
  EXPECT_FALSE(advice.fits);
  EXPECT_THAT(advice.best.counts, ElementsAre(2));
  EXPECT_THAT(advice.left_out, IsEmpty());
  EXPECT_NEAR(advice.missing_least, 0.9 * kMm, kSearchRounding);
  EXPECT_NEAR(advice.missing_greatest, 4.4 * kMm, kSearchRounding);
  EXPECT_EQ(advice.ledger.flags.front().kind, FlagKind::RunsOntoShank);
}

TEST(ChooseSpacers, APileThatIsTooHighAlreadyHasNothingMissing) {
  const SpacerAdvice advice = choose_spacers(drawer(16 * kMm, {{spacer(0.3 * kMm), 2}}));
  EXPECT_FALSE(advice.fits);
  EXPECT_THAT(advice.best.counts, ElementsAre(0));
  EXPECT_EQ(advice.left_out.front().why, WhyLeftOut::WorseFit);
  EXPECT_EQ(advice.missing_greatest, 0.0);
}

TEST(ChooseSpacers, ANutThatCannotHoldWhatIsAskedNeverFits) {
  SpacerCase contradictory = drawer(12 * kMm, {{spacer(0.3 * kMm), 2}});
  contradictory.assembly.engaged_needed = 6 * kMm;
  const SpacerAdvice advice = choose_spacers(contradictory);
  EXPECT_FALSE(advice.fits);
  EXPECT_FALSE(advice.ledger.can_fit);
  EXPECT_EQ(advice.missing_greatest, 0.0);
}

TEST(ChooseSpacers, AnEmptyDrawerStillJudgesThePile) {
  const SpacerAdvice advice = choose_spacers(drawer(12 * kMm, {}));
  EXPECT_TRUE(advice.fits);
  EXPECT_EQ(advice.n_searched, 1);
  EXPECT_FALSE(advice.next_best);
}

TEST(ChooseSpacers, TwentyDifferentPiecesAreAllTried) {
  std::vector<SpacerStock> stock;
  for (int i = 0; i < kMostSpacers; ++i) stock.push_back({spacer((0.10 + 0.01 * i) * kMm), 1});
  const SpacerAdvice advice = choose_spacers(drawer(9 * kMm, stock));
  EXPECT_EQ(advice.n_searched, 1L << 20);
  EXPECT_TRUE(advice.fits);
}

TEST(ChooseSpacers, ImpossibleDrawersAreProblemsByField) {
  SpacerCase bad = drawer(12 * kMm, {{spacer(0.0), 1},
                                     {spacer(0.3 * kMm), -1},
                                     {.piece = spacer(0.3 * kMm), .in_hand = 1, .fitted = 2},
                                     {spacer(0.3 * kMm), 20}});
  bad.stock[1].piece.tolerance = 1 * kMm;
  std::vector<std::string> fields;
  for (const Problem& problem : problems_in(bad)) fields.push_back(problem.field);
  EXPECT_THAT(fields,
              ElementsAre("stock[0].piece.thickness", "stock[0].piece.tolerance", "stock[1].piece.tolerance",
                          "stock[1].in_hand", "stock[1].fitted", "stock[2].fitted", "stock"));
  EXPECT_THROW(choose_spacers(bad), LogicFault);
}

}  // namespace
}  // namespace shimwright::assembly
