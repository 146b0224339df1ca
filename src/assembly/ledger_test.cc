#include "assembly/ledger.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "assembly/test_units.h"
#include "base/check.h"

namespace shimwright::assembly {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

constexpr double kSumRounding = 1e-12;  // sums of a few lengths in metres

/// M6 x 1 post of 20 mm with 9 mm of thread (1 mm run-out, 0.5 mm end chamfer): full thread from 12 to 19.5
/// mm. Nut of 5 mm with chamfers of 0.5 mm: 4 mm of thread. Pile of 13 mm: nut from 13 to 18, its thread 13.5
/// to 17.5.
PostAssembly good() {
  return {.post = {.thread = nominal_thread(6 * kMm, 1 * kMm),
                   .length = 20 * kMm,
                   .thread_length = 9 * kMm,
                   .runout = 1 * kMm,
                   .end_chamfer = 0.5 * kMm},
          .nut = {.height = 5 * kMm, .face_chamfer = 0.5 * kMm, .top_chamfer = 0.5 * kMm},
          .pieces = {{.id = "washer", .thickness = 1 * kMm, .tolerance = 0.02 * kMm},
                     {.id = "piston", .thickness = 9 * kMm, .tolerance = 0.05 * kMm},
                     {.id = "24 x 0.15", .thickness = 0.15 * kMm, .tolerance = 0.005 * kMm, .count = 10},
                     {.id = "clamp", .thickness = 1.5 * kMm, .tolerance = 0.02 * kMm}}};
}

PostAssembly with_pile(double height) {
  PostAssembly assembly = good();
  assembly.pieces = {{.id = "pile", .thickness = height}};
  return assembly;
}

std::vector<FlagKind> sure_flags(const PostAssembly& assembly) {
  std::vector<FlagKind> kinds;
  for (const LedgerFlag& flag : ledger(assembly).flags) {
    if (flag.likelihood == Likelihood::Sure) kinds.push_back(flag.kind);
  }
  return kinds;
}

TEST(Ledger, AGoodPileLeavesNoFlag) {
  const Ledger result = ledger(good());
  EXPECT_THAT(result.flags, IsEmpty());
  EXPECT_NEAR(result.height.nominal, 13 * kMm, kSumRounding);
  EXPECT_NEAR(result.engaged.nominal, 4 * kMm, kSumRounding);
  EXPECT_NEAR(result.engaged_pitches.nominal, 4.0, 1e-9);
  EXPECT_NEAR(result.protrusion.nominal, 2 * kMm, kSumRounding);
  EXPECT_NEAR(result.protrusion_pitches.nominal, 2.0, 1e-9);
  EXPECT_NEAR(result.thread_left.nominal, 6.5 * kMm, kSumRounding);
  EXPECT_EQ(result.clamp_gap, 0.0);
  EXPECT_TRUE(result.can_fit);
}

TEST(Ledger, LinesRunFromTheShoulderToTheNut) {
  const Ledger result = ledger(good());
  ASSERT_EQ(result.lines.size(), 4u);
  double at = 0.0;
  for (const LedgerLine& line : result.lines) {
    EXPECT_NEAR(line.bottom, at, kSumRounding);
    EXPECT_NEAR(line.top - line.bottom, line.total, kSumRounding);
    at = line.top;
  }
  EXPECT_NEAR(at, result.height.nominal, kSumRounding);
  EXPECT_NEAR(result.lines[2].total, 1.5 * kMm, kSumRounding);
}

TEST(Ledger, TolerancesAddAtWorstAndInSquaresForWhatToExpect) {
  const HeightBand band = ledger(good()).height;
  EXPECT_NEAR(band.worst, (0.02 + 0.05 + 10 * 0.005 + 0.02) * kMm, kSumRounding);
  // 0.02^2 + 0.05^2 + 10 x 0.005^2 + 0.02^2
  EXPECT_NEAR(band.rss, std::sqrt(0.00355) * kMm, kSumRounding);
}

TEST(Ledger, AMeasuredPieceTakesThePlaceOfItsNominal) {
  PostAssembly assembly = good();
  assembly.pieces[2].measured = 0.147 * kMm;
  const Ledger result = ledger(assembly);
  EXPECT_TRUE(result.lines[2].is_measured);
  EXPECT_NEAR(result.height.nominal, 12.97 * kMm, kSumRounding);
  // one micrometer errs the same way ten times
  EXPECT_NEAR(result.height.rss, std::hypot(std::sqrt(0.0033), 0.05) * kMm, kSumRounding);
}

TEST(Ledger, APieceThatRidesOnAnotherAddsNoHeight) {
  PostAssembly assembly = good();
  assembly.pieces.push_back({.id = "ring", .thickness = 0.3 * kMm, .adds_height = false});
  const Ledger result = ledger(assembly);
  EXPECT_NEAR(result.height.nominal, 13 * kMm, kSumRounding);
  EXPECT_EQ(result.lines.back().total, 0.0);
}

TEST(Ledger, ANutOnTheEndOfTheThreadClampsNothing) {
  // the nut's first turn meets the run-out at 12 mm: its face stops at 11.5 mm
  const Ledger result = ledger(with_pile(11 * kMm));
  EXPECT_THAT(sure_flags(with_pile(11 * kMm)), ElementsAre(FlagKind::RunsOntoShank));
  EXPECT_NEAR(result.clamp_gap, 0.5 * kMm, kSumRounding);
  EXPECT_NEAR(result.least_height, 11.5 * kMm, kSumRounding);
  EXPECT_THAT(sure_flags(with_pile(11.5 * kMm)), IsEmpty());
}

TEST(Ledger, AHighPileLeavesTooFewTurns) {
  // full thread ends at 19.5, the nut's begins 0.5 above its face: 15.0 still fills it, flush with the post's
  // end
  EXPECT_NEAR(ledger(good()).greatest_height, 15 * kMm, kSumRounding);
  EXPECT_THAT(sure_flags(with_pile(15 * kMm)), IsEmpty());
  EXPECT_THAT(sure_flags(with_pile(16 * kMm)), ElementsAre(FlagKind::TooLittleEngaged, FlagKind::EndTooDeep));
  EXPECT_NEAR(ledger(with_pile(16 * kMm)).engaged.nominal, 3 * kMm, kSumRounding);
  EXPECT_NEAR(ledger(with_pile(16 * kMm)).protrusion.nominal, -1 * kMm, kSumRounding);
  EXPECT_THAT(sure_flags(with_pile(19 * kMm)), ElementsAre(FlagKind::NoThreadReached, FlagKind::EndTooDeep));
  EXPECT_THAT(sure_flags(with_pile(40 * kMm)), ElementsAre(FlagKind::NoThreadReached, FlagKind::EndTooDeep));
}

TEST(Ledger, AWishedProtrusionLowersTheGreatestHeight) {
  PostAssembly assembly = with_pile(14.5 * kMm);
  assembly.protrusion_needed = 1.0;
  EXPECT_THAT(sure_flags(assembly), ElementsAre(FlagKind::EndTooDeep));
  EXPECT_NEAR(ledger(assembly).greatest_height, 14 * kMm, kSumRounding);
}

TEST(Ledger, AnEndWithoutRoomIsTooProud) {
  PostAssembly assembly = with_pile(12 * kMm);
  assembly.protrusion_allowed = 2.0;
  EXPECT_THAT(sure_flags(assembly), ElementsAre(FlagKind::EndTooProud));
  EXPECT_NEAR(ledger(assembly).least_height, 13 * kMm, kSumRounding);
}

TEST(Ledger, AClosedNutBottomsOnThePostsEnd) {
  PostAssembly assembly = with_pile(12 * kMm);
  assembly.nut.height = 8 * kMm;
  assembly.nut.blind_depth = 7 * kMm;
  assembly.nut.top_chamfer = 1.5 * kMm;
  // the end stands 8 mm over the pile, the nut is 7 mm deep
  EXPECT_THAT(sure_flags(assembly), ElementsAre(FlagKind::EndBottoms));
  EXPECT_NEAR(ledger(assembly).clamp_gap, 1 * kMm, kSumRounding);
  EXPECT_NEAR(ledger(assembly).least_height, 13 * kMm, kSumRounding);
  // inside a closed nut nobody asks for protrusion
  assembly.pieces[0].thickness = 13.2 * kMm;
  EXPECT_THAT(ledger(assembly).flags, IsEmpty());
}

TEST(Ledger, AClosedNutKeepsOneTurnToTightenIt) {
  PostAssembly assembly = with_pile(13.2 * kMm);
  assembly.nut.height = 8 * kMm;
  assembly.nut.blind_depth = 7 * kMm;
  assembly.nut.top_chamfer = 1.5 * kMm;
  // on a pile of 13 mm its thread (13.5 to 19.5 mm) is filled: 6 mm, of which one turn of 1 mm stays free
  EXPECT_NEAR(ledger(assembly).engaged_needed, 5 * kMm, kSumRounding);
  // full thread ends at 19.5 mm, the nut's begins 0.5 mm above the pile
  EXPECT_NEAR(ledger(assembly).greatest_height, 14 * kMm, kSumRounding);
  assembly.pieces[0].thickness = 13.999 * kMm;
  EXPECT_THAT(ledger(assembly).flags, IsEmpty());
  assembly.pieces[0].thickness = 14.001 * kMm;
  EXPECT_THAT(sure_flags(assembly), ElementsAre(FlagKind::TooLittleEngaged));
}

TEST(Ledger, WhatOnlyTheToleranceMayCauseIsPossibleNotSure) {
  PostAssembly assembly = with_pile(14.98 * kMm);
  assembly.pieces[0].tolerance = 0.05 * kMm;
  const Ledger result = ledger(assembly);
  ASSERT_EQ(result.flags.size(), 2u);
  EXPECT_EQ(result.flags[0].kind, FlagKind::TooLittleEngaged);
  EXPECT_EQ(result.flags[0].likelihood, Likelihood::Possible);
  EXPECT_LT(result.flags[0].value, result.flags[0].limit);
  EXPECT_LT(result.engaged.low, result.engaged.nominal);

  // so with the post's own tolerance
  assembly.pieces[0].tolerance = 0.0;
  assembly.post.tolerance = 0.05 * kMm;
  EXPECT_EQ(ledger(assembly).flags.size(), 2u);
}

TEST(Ledger, WhatTheToleranceMayCauseIsToldWithItsWorstNumberBehindWhatIsSure) {
  // 2 mm stand out of the nut, at most 2.05
  PostAssembly assembly = with_pile(13 * kMm);
  assembly.pieces[0].tolerance = 0.05 * kMm;
  assembly.protrusion_allowed = 2.03;
  Ledger result = ledger(assembly);
  ASSERT_EQ(result.flags.size(), 1u);
  EXPECT_EQ(result.flags[0].kind, FlagKind::EndTooProud);
  EXPECT_EQ(result.flags[0].likelihood, Likelihood::Possible);
  EXPECT_NEAR(result.flags[0].value, 2.05 * kMm, kSumRounding);
  EXPECT_NEAR(result.flags[0].limit, 2.03 * kMm, kSumRounding);
  assembly.protrusion_allowed = 2.06;
  EXPECT_THAT(ledger(assembly).flags, IsEmpty());

  // the nut's face comes to the shank at 12 mm: a pile of 11.98 is sure, 12.02 possible
  assembly = with_pile(12.02 * kMm);
  assembly.nut.face_chamfer = 0.0;
  assembly.pieces[0].tolerance = 0.05 * kMm;
  result = ledger(assembly);
  ASSERT_FALSE(result.flags.empty());
  EXPECT_EQ(result.flags[0].kind, FlagKind::RunsOntoShank);
  EXPECT_EQ(result.flags[0].likelihood, Likelihood::Possible);
  EXPECT_NEAR(result.flags[0].value, 11.97 * kMm, kSumRounding);
  EXPECT_NEAR(result.flags[0].limit, 12 * kMm, kSumRounding);
  EXPECT_EQ(result.clamp_gap, 0.0);
  assembly.pieces[0].thickness = 11.98 * kMm;
  EXPECT_NEAR(ledger(assembly).clamp_gap, 0.02 * kMm, kSumRounding);
  EXPECT_THAT(sure_flags(assembly), ElementsAre(FlagKind::RunsOntoShank));

  // sure before possible: too little thread for sure, perhaps too deep
  assembly = with_pile(15.48 * kMm);
  assembly.pieces[0].tolerance = 0.05 * kMm;
  assembly.protrusion_needed = -0.5;
  result = ledger(assembly);
  ASSERT_EQ(result.flags.size(), 2u);
  EXPECT_EQ(result.flags[0].likelihood, Likelihood::Sure);
  EXPECT_EQ(result.flags[0].kind, FlagKind::TooLittleEngaged);
  EXPECT_EQ(result.flags[1].likelihood, Likelihood::Possible);
  EXPECT_EQ(result.flags[1].kind, FlagKind::EndTooDeep);
}

TEST(Ledger, ANutBeyondTheThreadIsToldWhereTheThreadEnds) {
  const Ledger result = ledger(with_pile(19.4 * kMm));
  ASSERT_FALSE(result.flags.empty());
  EXPECT_EQ(result.flags[0].kind, FlagKind::NoThreadReached);
  EXPECT_NEAR(result.flags[0].value, 19.4 * kMm, kSumRounding);
  EXPECT_NEAR(result.flags[0].limit, 19.0 * kMm, kSumRounding);
  EXPECT_NEAR(ledger(with_pile(11 * kMm)).thread_left.nominal, 7.5 * kMm, kSumRounding)
      << "no more than there is";
}

TEST(Ledger, AProblemTellsTheLimitThatItPassed) {
  PostAssembly assembly = good();
  assembly.post.runout = 8.6 * kMm;
  ASSERT_FALSE(problems_in(assembly).empty());
  EXPECT_NEAR(problems_in(assembly)[0].limit, 8.5 * kMm, kSumRounding);
  assembly = good();
  assembly.nut.face_chamfer = 4.6 * kMm;
  EXPECT_NEAR(problems_in(assembly).at(0).limit, 4.5 * kMm, kSumRounding);
  assembly = good();
  assembly.pieces[0].count = 0;
  EXPECT_EQ(problems_in(assembly).at(0).limit, 1.0);
}

TEST(Ledger, AskingForMoreThreadThanTheNutHasCannotFit) {
  PostAssembly assembly = good();
  assembly.engaged_needed = 6 * kMm;
  EXPECT_FALSE(ledger(assembly).can_fit);
  EXPECT_THAT(sure_flags(assembly), ElementsAre(FlagKind::TooLittleEngaged));
}

TEST(Ledger, ImpossibleAssembliesAreProblemsByField) {
  PostAssembly assembly = good();
  EXPECT_THAT(problems_in(assembly), IsEmpty());
  assembly.post.thread_length = 30 * kMm;
  assembly.post.end_chamfer = -1 * kMm;
  assembly.nut.face_chamfer = 5 * kMm;
  assembly.nut.blind_depth = 9 * kMm;
  assembly.protrusion_allowed = -1.0;
  assembly.pieces[0].thickness = 0.0;
  assembly.pieces[1].tolerance = 10 * kMm;
  assembly.pieces[2].measured = -1 * kMm;
  assembly.pieces[3].count = 0;
  std::vector<std::string> fields;
  for (const Problem& problem : problems_in(assembly)) fields.push_back(problem.field);
  EXPECT_THAT(fields,
              ElementsAre("post.thread_length", "post.end_chamfer", "nut.face_chamfer", "nut.blind_depth",
                          "protrusion_allowed", "pieces[0].thickness", "pieces[0].tolerance",
                          "pieces[1].tolerance", "pieces[2].measured", "pieces[3].count"));
  EXPECT_THROW(ledger(assembly), LogicFault);
}

TEST(FloatGap, IsWhatTheCollarStandsHigherThanItsStack) {
  const Piece collar{.id = "collar", .thickness = 2.0 * kMm, .tolerance = 0.01 * kMm};
  const std::vector<Piece> sliding = {
      {.id = "22 x 0.15", .thickness = 0.15 * kMm, .tolerance = 0.005 * kMm, .count = 8},
      {.id = "light spring", .thickness = 0.2 * kMm, .tolerance = 0.01 * kMm}};
  const FloatGap gap = float_gap(collar, sliding);
  EXPECT_NEAR(gap.gap, 0.6 * kMm, kSumRounding);
  EXPECT_NEAR(gap.worst, 0.06 * kMm, kSumRounding);
  EXPECT_LT(gap.rss, gap.worst);
  EXPECT_TRUE(gap.surely_free);
  EXPECT_FALSE(gap.surely_pinched);
}

TEST(FloatGap, AStackHigherThanItsCollarIsPinched) {
  const Piece collar{.id = "collar", .thickness = 1.0 * kMm, .tolerance = 0.01 * kMm};
  const auto gap_with = [&](double thickness) {
    const Piece stack{.id = "stack", .thickness = thickness, .tolerance = 0.01 * kMm};
    return float_gap(collar, {&stack, 1});
  };
  EXPECT_TRUE(gap_with(1.1 * kMm).surely_pinched);
  EXPECT_NEAR(gap_with(1.1 * kMm).gap, -0.1 * kMm, kSumRounding);
  // neither, inside the tolerances
  EXPECT_FALSE(gap_with(1.0 * kMm).surely_free);
  EXPECT_FALSE(gap_with(1.0 * kMm).surely_pinched);
}

}  // namespace
}  // namespace shimwright::assembly
