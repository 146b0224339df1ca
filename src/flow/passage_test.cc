#include "flow/passage.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

namespace shimwright::flow {
namespace {

constexpr oil::Liquid kThickerOil{.density = 870.0, .viscosity = 0.012};

std::vector<Passage> one_of_each() {
  const Discharge sharp = sharp_discharge(0.65, Discharge::Laminar::WuestRound);
  return {
      round_holes(2, 1.5e-3, 0, fixed_discharge(0.7)),
      round_holes(2, 1.5e-3, 0, sharp),
      round_holes(1, 2e-3, 6e-3, {.law = Discharge::Law::ShortTube}),
      round_holes(1, 2e-3, 6e-3, {.law = Discharge::Law::LongOrifice}),
      Needle{.bore_diameter = 3e-3,
             .half_angle = 15 * std::numbers::pi / 180,
             .pitch = 1e-3,
             .clicks_per_turn = 8,
             .clicks = 3},
      Notches{.n_notches = 2, .width = 2e-3, .thickness = 0.15e-3},
      AnnularGap{.diameter = 36e-3, .clearance = 25e-6, .length = 10e-3, .eccentricity = 0.4},
      Capillary{.n_bores = 2, .diameter = 0.8e-3, .length = 20e-3},
      Slot{.width = 5e-3, .height = 0.2e-3, .length = 4e-3},
  };
}

/// Drops over fifteen decades, both signs.
rc::Gen<double> any_drop() {
  return rc::gen::map(rc::gen::pair(rc::gen::inRange(-8000, 7500), rc::gen::arbitrary<bool>()),
                      [](const std::pair<int, bool>& pick) {
                        return (pick.second ? 1.0 : -1.0) * std::pow(10.0, pick.first / 1000.0);
                      });
}

RC_GTEST_PROP(Passage, IsPassiveOddAndNeverFalls, ()) {
  const double drop = *any_drop();
  for (const Passage& passage : one_of_each()) {
    const FlowPoint point = flow_through(passage, kThickerOil, drop);
    RC_ASSERT(point.q * drop >= 0.0);
    RC_ASSERT(point.dq_ddp > 0.0);
    RC_ASSERT(flow_through(passage, kThickerOil, -drop).q == -point.q);
    RC_ASSERT(flow_through(passage, kThickerOil, drop + 1e-4 * std::abs(drop)).q > point.q);
  }
}

RC_GTEST_PROP(Passage, DropIsTheInverseOfFlow, ()) {
  const double drop = *any_drop();
  for (const Passage& passage : one_of_each()) {
    const double back = drop_through(passage, kThickerOil, flow_through(passage, kThickerOil, drop).q);
    RC_ASSERT(std::abs(back / drop - 1.0) < 1e-12);  // rounding times the square law
  }
}

RC_GTEST_PROP(Passage, AddingOneInARowAddsItsDrop, ()) {
  const double drop = *any_drop();
  const auto kinds = one_of_each();
  const std::vector<Passage> row{kinds[*rc::gen::inRange<size_t>(0, kinds.size())],
                                 kinds[*rc::gen::inRange<size_t>(0, kinds.size())],
                                 kinds[*rc::gen::inRange<size_t>(0, kinds.size())]};
  const FlowPoint point = series_flow(row, kThickerOil, drop);
  double sum = 0.0;
  for (const Passage& passage : row) sum += drop_through(passage, kThickerOil, point.q);
  RC_ASSERT(std::abs(sum / drop - 1.0) < 1e-12);  // rounding times the square law
}

RC_GTEST_PROP(Passage, ThinnerOilNeverPassesLess, ()) {
  const double drop = *any_drop();
  const oil::Liquid thinner{.density = kThickerOil.density, .viscosity = 0.5 * kThickerOil.viscosity};
  for (const Passage& passage : one_of_each())
    RC_ASSERT(std::abs(flow_through(passage, thinner, drop).q) >=
              std::abs(flow_through(passage, kThickerOil, drop).q) * (1.0 - 1e-13));
}

TEST(Passage, EqualSharpOpeningsInARowAreOneOfTheSeriesArea) {
  const Discharge fixed = fixed_discharge(0.7);
  const std::vector<Passage> row{Orifice{.area = 1.5e-6, .hydraulic_diameter = 1e-3, .discharge = fixed},
                                 Orifice{.area = 2.5e-6, .hydraulic_diameter = 1e-3, .discharge = fixed}};
  const Orifice one{.area = series_area(1.5e-6, 2.5e-6), .hydraulic_diameter = 1e-3, .discharge = fixed};
  const FlowPoint row_flow = series_flow(row, kThickerOil, 3e5);
  const FlowPoint one_flow = orifice_flow(one, kThickerOil, 3e5);
  EXPECT_NEAR(row_flow.q / one_flow.q, 1.0, 1e-13);
  EXPECT_NEAR(row_flow.dq_ddp / one_flow.dq_ddp, 1.0, 1e-12);
}

TEST(Passage, SlopeOfARowIsItsDerivative) {
  const auto row = one_of_each();
  for (const double drop : {-3e5, 20.0, 1e6}) {
    const double h = 1e-5 * std::abs(drop);
    const double slope =
        (series_flow(row, kThickerOil, drop + h).q - series_flow(row, kThickerOil, drop - h).q) / (2 * h);
    EXPECT_NEAR(series_flow(row, kThickerOil, drop).dq_ddp / slope, 1.0, 1e-7);  // central difference
  }
  EXPECT_NEAR(series_flow(row, kThickerOil, 0.0).dq_ddp / (series_flow(row, kThickerOil, 1e-6).q / 1e-6), 1.0,
              1e-6);
}

TEST(Passage, AClosedOneClosesTheRow) {
  std::vector<Passage> row = one_of_each();
  row.push_back(Orifice{});
  EXPECT_EQ(series_flow(row, kThickerOil, 1e6).q, 0.0);
  EXPECT_EQ(series_flow(row, kThickerOil, 1e6).dq_ddp, 0.0);
  EXPECT_EQ(series_flow(row, kThickerOil, 0.0).dq_ddp, 0.0);
  EXPECT_TRUE(std::isinf(drop_through(AnnularGap{.diameter = 36e-3, .length = 1e-2}, kThickerOil, 1e-6)));
}

TEST(Passage, SideBySideFlowsAdd) {
  const auto kinds = one_of_each();
  FlowPoint sum;
  for (const Passage& passage : kinds) {
    sum.q += flow_through(passage, kThickerOil, 2e5).q;
    sum.dq_ddp += flow_through(passage, kThickerOil, 2e5).dq_ddp;
  }
  EXPECT_DOUBLE_EQ(parallel_flow(kinds, kThickerOil, 2e5).q, sum.q);
  EXPECT_DOUBLE_EQ(parallel_flow(kinds, kThickerOil, 2e5).dq_ddp, sum.dq_ddp);
}

TEST(Passage, SettlingChangesNoFlow) {
  for (const Passage& passage : one_of_each())
    EXPECT_EQ(flow_through(settled(passage), kThickerOil, 2e5).q, flow_through(passage, kThickerOil, 2e5).q);
}

TEST(Passage, ProblemsAreThoseOfTheKind) {
  Problems problems;
  for (const Passage& passage : one_of_each()) find_problems(passage, "bleeds[0]", problems);
  EXPECT_TRUE(problems.empty());
  find_problems(Passage{Slot{}}, "bleeds[0]", problems);
  ASSERT_EQ(problems.size(), 3u);
  EXPECT_EQ(problems[0].field, "bleeds[0].width");
}

}  // namespace
}  // namespace shimwright::flow
