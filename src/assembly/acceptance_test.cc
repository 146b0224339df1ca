#include "assembly/acceptance.h"

#include <gtest/gtest.h>

#include "assembly/fill.h"
#include "assembly/test_units.h"
#include "base/check.h"

namespace shimwright::assembly {
namespace {

TriedCartridge tried() {
  return {.rod_diameter = 12 * kMm,
          .stroke = 200 * kMm,
          .oil_volume = 150 * kCm3,
          .return_force = 60,
          .seal_drag = 15};
}

Observation stops_short(double by) {
  return {.comes_out = ComesOut::StopsShort, .short_by = by};
}

Cause likeliest(const Observation& seen, const TriedCartridge& cartridge = tried()) {
  const Diagnosis diagnosis = diagnose_acceptance(seen, cartridge);
  EXPECT_FALSE(diagnosis.accepted);
  EXPECT_FALSE(diagnosis.causes.empty());
  return diagnosis.causes.front().cause;
}

bool names(const Diagnosis& diagnosis, Cause cause) {
  for (const LikelyCause& each : diagnosis.causes) {
    if (each.cause == cause) return true;
  }
  return false;
}

TEST(DiagnoseAcceptance, ARodThatComesOutDryQuietAndSmoothIsAccepted) {
  const Diagnosis diagnosis = diagnose_acceptance(
      {.comes_out = ComesOut::Fully, .bubbles = Bubbles::Stopped, .purged = 0.1 * kCm3, .drag = Drag::Smooth},
      tried());
  EXPECT_TRUE(diagnosis.accepted);
  EXPECT_TRUE(diagnosis.causes.empty());
  EXPECT_EQ(diagnosis.hidden_volume, 0.0);
}

// common practice, no source
TEST(DiagnoseAcceptance, HalfAnInchShortPointsAtAirLeftInTheCartridge) {
  const Diagnosis diagnosis = diagnose_acceptance(stops_short(12.7 * kMm), tried());
  EXPECT_FALSE(diagnosis.accepted);
  ASSERT_FALSE(diagnosis.causes.empty());
  EXPECT_EQ(diagnosis.causes[0].cause, Cause::AirInCartridge);
  // s x rod area: 12.7 mm x 113.097 mm^2
  EXPECT_NEAR(diagnosis.hidden_volume, 1.43634 * kCm3, 1e-5 * kCm3);
  EXPECT_NEAR(diagnosis.causes[0].volume, diagnosis.hidden_volume, 1e-15);
  EXPECT_NEAR(diagnosis.hidden_fraction, 1.43634 / 150, 1e-6);
}

// common practice, no source
TEST(DiagnoseAcceptance, ARodThatDoesNotComeOutAtAllPointsAtALeakingSeal) {
  EXPECT_EQ(likeliest({.comes_out = ComesOut::NotAtAll}), Cause::LeakingSeal);
}

TEST(DiagnoseAcceptance, BubblesWithoutEndPointAtASealUnlessBledTooShort) {
  EXPECT_EQ(likeliest({.bubbles = Bubbles::Continue}), Cause::LeakingSeal);
  EXPECT_EQ(likeliest({.bubbles = Bubbles::Continue, .bled_for = 700.0}), Cause::LeakingSeal);
  EXPECT_EQ(likeliest({.bubbles = Bubbles::Continue, .bled_for = 60.0}), Cause::AirInCartridge);
}

TEST(DiagnoseAcceptance, ShortWithoutBubblesLeftPointsAtMissingOil) {
  Observation seen = stops_short(12.7 * kMm);
  seen.bubbles = Bubbles::Stopped;
  EXPECT_EQ(likeliest(seen), Cause::MissingOil);
  EXPECT_EQ(likeliest(stops_short(40 * kMm)), Cause::MissingOil);
}

TEST(DiagnoseAcceptance, AMillimetreShortIsThePlayOfTheCheck) {
  EXPECT_TRUE(diagnose_acceptance(stops_short(1 * kMm), tried()).accepted);
}

TEST(DiagnoseAcceptance, AStopThatAWellBledUnitHasTooIsAcceptedUpToThePlay) {
  TriedCartridge weak = tried();
  weak.well_bled_stop = 40 * kMm;  // its seals hold more than its spring near the end
  EXPECT_TRUE(diagnose_acceptance(stops_short(39 * kMm), weak).accepted);
  EXPECT_TRUE(diagnose_acceptance(stops_short(41.9 * kMm), weak).accepted);
  EXPECT_FALSE(diagnose_acceptance(stops_short(42.1 * kMm), weak).accepted);
}

TEST(DiagnoseAcceptance, WhatTheBalanceOfForcesReadsGoesBeforeTheRodsOwnVolume) {
  TriedCartridge known = tried();
  known.air_behind_stop = 7.4 * kCm3;
  const Diagnosis diagnosis = diagnose_acceptance(stops_short(12.7 * kMm), known);
  EXPECT_DOUBLE_EQ(diagnosis.hidden_volume, 7.4 * kCm3);
  EXPECT_DOUBLE_EQ(diagnosis.causes.front().volume, 7.4 * kCm3);
}

TEST(DiagnoseAcceptance, AGreatPurgeMeansTooMuchOil) {
  const Observation seen{.purged = 8 * kCm3};
  EXPECT_EQ(likeliest(seen), Cause::TooMuchOil);
  const double accepted = bleed_plan(12 * kMm, 200 * kMm).purge_accepted;
  EXPECT_NEAR(diagnose_acceptance(seen, tried()).causes[0].volume, 8 * kCm3 - accepted, 1e-15);
}

TEST(DiagnoseAcceptance, OilOutsideMeansASeal) {
  EXPECT_EQ(likeliest({.oil_outside = true}), Cause::LeakingSeal);
}

TEST(DiagnoseAcceptance, DragInPlacesMeansTheGuide) {
  EXPECT_EQ(likeliest({.drag = Drag::Notchy}), Cause::TightGuide);
  EXPECT_EQ(likeliest({.drag = Drag::Tight}), Cause::TightGuide);
  const Diagnosis smooth =
      diagnose_acceptance({.comes_out = ComesOut::NotAtAll, .drag = Drag::Smooth}, tried());
  EXPECT_FALSE(names(smooth, Cause::TightGuide));
}

TEST(DiagnoseAcceptance, AReturnForceThatTheDragEatsExplainsARodThatStays) {
  TriedCartridge weak = tried();
  weak.return_force = 10.0;
  EXPECT_EQ(likeliest({.comes_out = ComesOut::NotAtAll}, weak), Cause::ReturnForceLost);
}

TEST(DiagnoseAcceptance, CausesComeInOrderWithTheirEvidenceAndARemedy) {
  Observation seen = stops_short(150 * kMm);
  seen.bubbles = Bubbles::Continue;
  seen.oil_outside = true;
  const Diagnosis diagnosis = diagnose_acceptance(seen, tried());
  ASSERT_GE(diagnosis.causes.size(), 2u);
  EXPECT_EQ(diagnosis.causes[0].cause, Cause::LeakingSeal);
  for (std::size_t i = 0; i < diagnosis.causes.size(); ++i) {
    const LikelyCause& each = diagnosis.causes[i];
    const int score_before = i > 0 ? diagnosis.causes[i - 1].score : each.score;
    EXPECT_LE(each.score, score_before);
    int sum = 0;
    for (const Evidence& item : each.evidence) sum += item.weight;
    EXPECT_EQ(sum, each.score);
    EXPECT_GT(each.score, 0);
    EXPECT_FALSE(each.remedy.empty());
  }
}

TEST(DiagnoseAcceptance, ImpossibleObservationsAreProblemsByField) {
  EXPECT_TRUE(problems_in(tried()).empty());
  EXPECT_EQ(problems_in(TriedCartridge{}).size(), 3u);
  Observation seen = stops_short(0.0);
  seen.purged = -1.0;
  seen.bled_for = -1.0;
  const Problems problems = problems_in(seen, tried());
  ASSERT_EQ(problems.size(), 3u);
  EXPECT_EQ(problems[0].field, "short_by");
  EXPECT_EQ(problems[1].field, "purged");
  EXPECT_EQ(problems[2].field, "bled_for");
  EXPECT_THROW(diagnose_acceptance(seen, tried()), LogicFault);
}

}  // namespace
}  // namespace shimwright::assembly
