#include "ride/wheel_spring.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

namespace shimwright::ride {
namespace {

using spring::CoilStack;
using spring::UnitSpring;

UnitSpring coil_unit(double travel, double rate, double preload) {
  return {travel, {{"coil", CoilStack{{{rate, std::nullopt}}, preload}}}};
}

Linkage even_linkage(double ratio, double wheel_travel) {
  return linkage_through(std::vector<LinkageRow>{{0.0, 0.0}, {wheel_travel, ratio * wheel_travel}});
}

TEST(WheelSpringReference, ShockOnAMotionRatioOfOneHalf) {
  // RD-14, exact: shock of 80 N/mm and 5000 N.s/m at 0.5 is 20 N/mm and 1250 N.s/m at the wheel
  const WheelSpring wheel{{coil_unit(0.1, 80e3, 0.0)}, even_linkage(0.5, 0.2)};
  EXPECT_DOUBLE_EQ(wheel_force_at(wheel, {}, 0.1).rate, 20e3);
  EXPECT_DOUBLE_EQ(wheel_force_at(wheel, {}, 0.1).force, 2000.0);
  EXPECT_DOUBLE_EQ(wheel_damping(5000.0, 0.5), 1250.0);
}

TEST(WheelSpring, ForkLegsAddUpAndMayDiffer) {
  const WheelSpring fork{{coil_unit(0.3, 9e3, 0.01), {0.3, {}}},
                         ForkAngle{0.0}};  // one leg springs, one damps
  const WheelForce here = wheel_force_at(fork, {}, 0.1);
  EXPECT_NEAR(here.force, 9e3 * 0.11, 1e-9);
  ASSERT_EQ(here.units.size(), 2u);
  EXPECT_EQ(here.units[1].force, 0.0);
}

TEST(WheelSpring, ALeaningForkIsStifferStraightUpAndHasLessTravel) {
  const double rake = 27.0 * std::numbers::pi / 180.0;
  const WheelSpring fork{{coil_unit(0.3, 5e3, 0.0), coil_unit(0.3, 5e3, 0.0)}, ForkAngle{rake}};
  const WheelForce here = wheel_force_at(fork, {}, 0.1);
  EXPECT_NEAR(here.unit_travel, 0.1 / std::cos(rake), 1e-15);
  EXPECT_NEAR(here.rate, 10e3 / std::pow(std::cos(rake), 2), 1e-9);
  EXPECT_NEAR(full_wheel_travel(fork, {}), 0.3 * std::cos(rake), 1e-15);
}

TEST(WheelSpring, EndsWhereTheFirstUnitEnds) {
  UnitSpring solid = coil_unit(0.3, 5e3, 0.0);
  std::get<CoilStack>(solid.elements[0].law).in_series[0].bind_compression = 0.25;
  const WheelSpring fork{{coil_unit(0.3, 5e3, 0.0), solid}, ForkAngle{0.0}};
  EXPECT_NEAR(full_wheel_travel(fork, {}), 0.25, 1e-15);
  const WheelCurve curve = wheel_curve(fork, {}, 11);
  EXPECT_EQ(curve.outcome.status, Status::OutOfRange);
  EXPECT_EQ(curve.points.size(), 11u);
  EXPECT_EQ(curve.points.back().wheel_travel, 0.3);
}

TEST(WheelSpring, SaysWhenItsLinkageTableEndsEarly) {
  const WheelSpring shortened{{coil_unit(0.1, 80e3, 0.0)}, even_linkage(0.5, 0.18)};
  const WheelCurve curve = wheel_curve(shortened, {}, 5);
  EXPECT_EQ(curve.outcome.status, Status::OutOfRange);
  EXPECT_THAT(curve.outcome.note, testing::HasSubstr("10 %"));
  EXPECT_TRUE(wheel_curve({{coil_unit(0.1, 80e3, 0.0)}, even_linkage(0.5, 0.2)}, {}, 5).outcome.ok());
}

TEST(WheelSpringProblems, AreNamedByField) {
  EXPECT_THAT(problems_in({{coil_unit(0.3, 5e3, 0.0)}, ForkAngle{0.4}}), testing::IsEmpty());
  const auto field = [](const WheelSpring& wheel) { return problems_in(wheel).at(0).field; };
  EXPECT_EQ(field({{}, ForkAngle{0.4}}), "units");
  EXPECT_EQ(field({{coil_unit(0.3, 5e3, 0.0), coil_unit(0.29, 5e3, 0.0)}, ForkAngle{0.4}}),
            "units[1].travel");
  EXPECT_EQ(field({{coil_unit(0.3, 5e3, 0.0)}, ForkAngle{27.0}}), "path.rake");
}

RC_GTEST_PROP(WheelSpringProperty, RateIsTheSlopeOfForceAlsoWhereTheLinkageBends, ()) {
  const double ratio = 0.3 + *rc::gen::inRange(0, 100) * 0.002;
  const double bend = (*rc::gen::inRange(-100, 101)) * 0.003;  // [1/m]
  std::vector<LinkageRow> table;
  for (const double w : num::evenly_spaced(0.0, 0.3, 7)) table.push_back({w, w * (ratio + 0.5 * bend * w)});
  const double preload = *rc::gen::inRange(0, 20) * 1e-3;
  const WheelSpring wheel{{coil_unit(table.back().shock_travel, 60e3, preload)}, linkage_through(table)};
  const double x = 0.01 + 0.28 * (*rc::gen::inRange(0, 1001)) / 1000.0;
  const double h = 1e-5;
  const double slope =
      (wheel_force_at(wheel, {}, x + h).force - wheel_force_at(wheel, {}, x - h).force) / (2.0 * h);
  // central difference of a cubic: h^2 of its third derivative, and rounding / h
  RC_ASSERT(std::abs(wheel_force_at(wheel, {}, x).rate - slope) < 1e-6 * std::abs(slope) + 1e-3);
}

RC_GTEST_PROP(WheelSpringProperty, WorkAtTheWheelIsTheEnergyInTheSprings, ()) {
  const double bend = (*rc::gen::inRange(-100, 101)) * 0.003;
  std::vector<LinkageRow> table;
  for (const double w : num::evenly_spaced(0.0, 0.3, 7)) table.push_back({w, w * (0.4 + 0.5 * bend * w)});
  const WheelSpring wheel{{coil_unit(table.back().shock_travel, 60e3, 0.01)}, linkage_through(table)};
  const int n = 200;  // Simpson's rule; force is a smooth cubic here, so it is exact but for rounding
  double work = 0.0;
  for (int i = 0; i < n; ++i) {
    const double a = 0.3 * i / n, b = 0.3 * (i + 1) / n;
    const auto force = [&](double w) { return wheel_force_at(wheel, {}, w).force; };
    work += (b - a) / 6.0 * (force(a) + 4.0 * force(0.5 * (a + b)) + force(b));
  }
  RC_ASSERT(std::abs(work / wheel_force_at(wheel, {}, 0.3).units[0].energy - 1.0) < 1e-10);
}

}  // namespace
}  // namespace shimwright::ride
