#include "flow/orifice.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace shimwright::flow {
namespace {

using Law = Discharge::Law;
using Laminar = Discharge::Laminar;

constexpr oil::Liquid kThin{.density = 870.0, .viscosity = 0.010};
constexpr oil::Liquid kThick{.density = 870.0, .viscosity = 0.050};

// Orifice equation; physics case OR-01 (computed apart).
TEST(Orifice, TwoMillimetreHoleAtTenBar) {
  const std::array<std::array<double, 2>, 3> cases{
      {{.60, 9.03767e-5}, {.611, 9.20336e-5}, {.70, 1.054395e-4}}};
  for (const auto& [cd, expected] : cases) {
    const Orifice hole = round_holes(1, 2e-3, 0, fixed_discharge(cd));
    EXPECT_NEAR(orifice_flow(hole, kThin, 1e6).q / expected, 1.0, 1e-5);  // case prints six digits
    // far above its transition the sharp-edged law says the same
    EXPECT_NEAR(
        orifice_flow(round_holes(1, 2e-3, 0, sharp_discharge(cd, Laminar::WuestRound)), kThin, 1e6).q /
            expected,
        1.0, 1e-5);
  }
}

// Wuest's law as quoted by Merritt; physics case OR-06 at 10 Pa, Re about 0.28.
TEST(Orifice, SharpHoleFollowsWuestAtTenPascal) {
  const Orifice hole = round_holes(1, 1e-3, 0, sharp_discharge(0.611, Laminar::WuestRound));
  EXPECT_NEAR(orifice_flow(hole, kThick, 10.0).q / 1.246664e-8, 1.0, 1e-4);  // tolerance of the case
  // and has long left it at 0.1 MPa, where the laminar formula would pass ten times as much
  EXPECT_LT(orifice_flow(hole, kThick, 1e5).q, 0.11 * 1.246664e-4);
}

// physics case OR-19.
TEST(Orifice, AreasInARow) {
  EXPECT_NEAR(series_area(1.5e-6, 2.5e-6), 1.286239e-6, 1e-12);
  EXPECT_EQ(series_area(0.0, 2.5e-6), 0.0);
}

// Merritt ch. 5 from memory; physics case OR-20.
TEST(Orifice, JetForce) {
  EXPECT_NEAR(jet_force(0.61, 0.98, 10e-6, 1e6, 69.0 * M_PI / 180.0), 4.28465, 1e-5);
}

TEST(Orifice, DropIsTheInverseOfFlow) {
  for (const Law law : {Law::Fixed, Law::SharpEdge, Law::ShortTube, Law::ThickEdge, Law::LongOrifice}) {
    const Orifice hole = round_holes(3, 2e-3, 5e-3, {.law = law});
    for (double drop = 1e-7; drop < 1e8; drop *= 3.3) {
      const double q = orifice_flow(hole, kThin, drop).q;
      // rounding, times the square law's factor of two
      EXPECT_NEAR(orifice_drop(hole, kThin, q) / drop, 1.0, 1e-12) << static_cast<int>(law) << ' ' << drop;
      EXPECT_NEAR(orifice_drop(hole, kThin, -q) / -drop, 1.0, 1e-12);
    }
  }
}

TEST(Orifice, SlopeIsTheDerivativeAlsoThroughZero) {
  for (const Law law : {Law::Fixed, Law::SharpEdge, Law::ShortTube, Law::ThickEdge, Law::LongOrifice}) {
    const Orifice hole = round_holes(3, 2e-3, 5e-3, {.law = law});
    for (const double drop : {-1e5, -0.4e-3, 0.0, 0.3e-3, 1.7e-3, 0.3, 2e3, 1e6}) {
      const double h = std::max(1e-5 * std::abs(drop), 1e-8);
      const double slope =
          (orifice_flow(hole, kThin, drop + h).q - orifice_flow(hole, kThin, drop - h).q) / (2 * h);
      // central difference; the long orifice nears its laminar limit only as 1 / log^2
      EXPECT_NEAR(orifice_flow(hole, kThin, drop).dq_ddp / slope, 1.0, drop == 0.0 ? 1e-3 : 1e-5)
          << static_cast<int>(law) << ' ' << drop;
    }
  }
}

TEST(Orifice, SlopeOfTheDropIsTheInverseOfTheSlopeOfTheFlow) {
  for (const Law law : {Law::Fixed, Law::SharpEdge, Law::ShortTube, Law::ThickEdge, Law::LongOrifice}) {
    const Orifice hole = round_holes(3, 2e-3, 5e-3, {.law = law});
    for (double drop = 1e-7; drop < 1e8; drop *= 3.3) {
      const FlowPoint point = orifice_flow(hole, kThin, drop);
      // the last Newton step is not followed by a new slope: 1e-8 in the drop
      EXPECT_NEAR(orifice_drop_point(hole, kThin, point.q).ddp_dq * point.dq_ddp, 1.0, 1e-7)
          << static_cast<int>(law) << ' ' << drop;
    }
    EXPECT_NEAR(orifice_drop_point(hole, kThin, 0.0).ddp_dq * orifice_flow(hole, kThin, 0.0).dq_ddp, 1.0,
                1e-15);
  }
}

TEST(Orifice, AClosedOpeningPassesNothing) {
  const Orifice closed{};
  EXPECT_EQ(orifice_flow(closed, kThin, 1e6).q, 0.0);
  EXPECT_EQ(orifice_drop(closed, kThin, 0.0), 0.0);
  EXPECT_TRUE(std::isinf(orifice_drop(closed, kThin, 1e-6)));
}

TEST(Orifice, ProblemsNameTheField) {
  Problems problems;
  find_problems(Orifice{.area = -1e-6, .discharge = fixed_discharge(1.2)}, "ports", problems);
  ASSERT_EQ(problems.size(), 2u);
  EXPECT_EQ(problems[0].field, "ports.area");
  EXPECT_EQ(problems[1].field, "ports.discharge.coefficient");

  problems.clear();
  find_problems(round_holes(1, 2e-3, 2e-3, {.law = Law::LongOrifice}), "ports", problems);
  find_problems(round_holes(1, 2e-3, 30e-3, {.law = Law::LongOrifice}), "ports", problems);
  find_problems(round_holes(1, 2e-3, 0.0, {.law = Law::ShortTube}), "ports", problems);
  ASSERT_EQ(problems.size(), 3u);
  for (const Problem& problem : problems) EXPECT_EQ(problem.field, "ports.length");
}

}  // namespace
}  // namespace shimwright::flow
