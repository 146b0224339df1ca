#include "flow/curtain.h"

#include <gtest/gtest.h>

#include <cmath>

#include "flow/test_oil.h"

namespace shimwright::flow {
namespace {

// physics case OR-17 (computed apart).
TEST(Curtain, EightMillimetreSeatAtTwoTenths) {
  const Curtain curtain{.seat_radius = 8e-3, .discharge = fixed_discharge(0.7)};
  EXPECT_NEAR(curtain_area(curtain, 0.2e-3), 10.05310e-6, 1e-11);
  EXPECT_NEAR(curtain_flow(curtain, kOil, 0.2e-3, 0.5e6).q * 60e3, 14.31494, 1e-5);  // L/min
}

TEST(Curtain, PassesInProportionToItsArc) {
  const Curtain whole{.seat_radius = 8e-3};
  Curtain half = whole;
  half.arc_fraction = 0.5;
  EXPECT_NEAR(curtain_flow(half, kOil, 1e-4, 1e5).q, 0.5 * curtain_flow(whole, kOil, 1e-4, 1e5).q, 1e-18);
}

TEST(Curtain, SlopesAreTheDerivatives) {
  for (const double land : {0.0, 1.5e-3})
    for (const Discharge& discharge :
         {fixed_discharge(0.7), sharp_discharge(0.7, Discharge::Laminar::WuestSlot)})
      for (const double lift : {3e-6, 2e-5, 3e-4})
        for (const double drop : {-2e5, 40.0, 3e3, 1e6}) {
          const Curtain c{
              .seat_radius = 8e-3, .arc_fraction = 0.8, .land_width = land, .discharge = discharge};
          const CurtainPoint point = curtain_flow(c, kOil, lift, drop);
          const double hp = 1e-5 * std::abs(drop);
          const double hx = 1e-5 * lift;
          const double by_drop =
              (curtain_flow(c, kOil, lift, drop + hp).q - curtain_flow(c, kOil, lift, drop - hp).q) /
              (2 * hp);
          const double by_lift =
              (curtain_flow(c, kOil, lift + hx, drop).q - curtain_flow(c, kOil, lift - hx, drop).q) /
              (2 * hx);
          // central differences: rounding / h, more where the film takes nearly all of the drop
          EXPECT_NEAR(point.dq_ddp / by_drop, 1.0, 1e-6) << land << ' ' << lift << ' ' << drop;
          EXPECT_NEAR(point.dq_dlift / by_lift, 1.0, 1e-6) << land << ' ' << lift << ' ' << drop;
        }
}

TEST(Curtain, AWideLandAtSmallLiftIsAFilm) {
  // at 5 um the film takes nearly all: Q = 2 pi r x^3 dp / (12 mu w), the slot law
  const Curtain c{.seat_radius = 8e-3, .land_width = 3e-3, .discharge = fixed_discharge(0.7)};
  const double film = 2 * M_PI * 8e-3 * std::pow(5e-6, 3) * 1e4 / (12 * 0.010 * 3e-3);
  EXPECT_NEAR(curtain_flow(c, kOil, 5e-6, 1e4).q / film, 1.0, 1e-3);  // the edge takes 0.05 % here
  EXPECT_LT(curtain_flow(c, kOil, 5e-6, 1e4).q, film);
}

TEST(Curtain, AnEdgeAfterALandPassesWhatBothPass) {
  const Curtain c{.seat_radius = 8e-3, .land_width = 1e-3, .discharge = fixed_discharge(0.7)};
  const double lift = 3e-5;
  const double q = curtain_flow(c, kOil, lift, 2e5).q;
  const double film = 12 * 0.010 * 1e-3 / (2 * M_PI * 8e-3 * std::pow(lift, 3)) * q;
  const double edge = 870.0 / 2 * std::pow(q / (0.7 * curtain_area(c, lift)), 2);
  EXPECT_NEAR((film + edge) / 2e5, 1.0, 1e-12);  // rounding
}

TEST(Curtain, AClosedDiscPassesNothing) {
  const Curtain c{.seat_radius = 8e-3};
  EXPECT_EQ(curtain_flow(c, kOil, 0.0, 1e6).q, 0.0);
  const Curtain fixed{.seat_radius = 8e-3, .discharge = fixed_discharge(0.7)};
  EXPECT_EQ(curtain_flow(fixed, kOil, 0.0, 1e6).q, 0.0);
  EXPECT_NEAR(curtain_flow(fixed, kOil, 0.0, 1e6).dq_dlift * 1e-4 / curtain_flow(fixed, kOil, 1e-4, 1e6).q,
              1.0, 1e-12);
}

TEST(Curtain, ProblemsNameTheField) {
  Problems problems;
  find_problems(Curtain{.seat_radius = 0.0,
                        .arc_fraction = 1.5,
                        .land_width = -1.0,
                        .discharge = {.law = Discharge::Law::ShortTube, .coefficient = 0.0}},
                "curtain", problems);
  ASSERT_EQ(problems.size(), 5u);
  EXPECT_EQ(problems[0].field, "curtain.seat_radius");
  EXPECT_EQ(problems[1].field, "curtain.arc_fraction");
  EXPECT_EQ(problems[2].field, "curtain.land_width");
  EXPECT_EQ(problems[3].field, "curtain.discharge.coefficient");
  EXPECT_EQ(problems[4].field, "curtain.discharge.law");
}

}  // namespace
}  // namespace shimwright::flow
