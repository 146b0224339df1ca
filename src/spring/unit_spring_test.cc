#include "spring/unit_spring.h"

#include <gmock/gmock.h>

#include <functional>
#include <limits>

#include "base/check.h"
#include "spring/spring_change.h"

namespace shimwright::spring {
namespace {

/// One leg with all there is: coil, air above the oil, top-out, bump stop. Invented.
UnitSpring full_leg() {
  AirSpring air;
  air.positive = {.area = 1.4e-3, .empty_volume = 0.6e-3, .oil_volume = 0.15e-3};
  return {0.27,
          {{"coil", CoilStack{{{4.6e3, 0.32}}, 0.01}},
           {"air", air},
           {"top-out", TopOutSpring{12e3, 0.02}},
           {"bump stop", BumpStop{0.25, 30e3, 2e9}}}};
}

std::vector<std::string> fields_of(const Problems& problems) {
  std::vector<std::string> fields;
  for (const Problem& problem : problems) fields.push_back(problem.field);
  return fields;
}

TEST(UnitSpring, IsTheSumOfItsElements) {
  const ForceBreakdown here = force_at(full_leg(), {}, 0.26);
  ASSERT_EQ(here.elements.size(), 4u);
  double force = 0.0, rate = 0.0, energy = 0.0;
  for (const ElementForce& part : here.elements) {
    force += part.force;
    rate += part.rate;
    energy += part.energy;
  }
  EXPECT_DOUBLE_EQ(here.force, force);
  EXPECT_DOUBLE_EQ(here.rate, rate);
  EXPECT_DOUBLE_EQ(here.energy, energy);
  EXPECT_NEAR(here.elements[0].force, 4.6e3 * 0.27, 1e-9);
  EXPECT_EQ(here.elements[2].force, 0.0);
  EXPECT_NEAR(here.elements[3].force, 30e3 * 0.01 + 2e9 * 1e-6, 1e-6);
}

TEST(UnitSpring, TopOutPullsOnlyNearFullyOut) {
  const UnitSpring unit{0.2, {{"top-out", TopOutSpring{10e3, 0.02}}}};
  EXPECT_DOUBLE_EQ(force_at(unit, {}, 0.0).force, -200.0);
  EXPECT_DOUBLE_EQ(force_at(unit, {}, 0.015).force, -50.0);
  EXPECT_EQ(force_at(unit, {}, 0.03).force, 0.0);
  EXPECT_DOUBLE_EQ(force_at(unit, {}, 0.03).energy, -2.0);  // it gave back what it held: k e^2 / 2
}

TEST(UnitSpring, CurveRunsFromFullyOutToFullTravel) {
  const SpringCurve curve = spring_curve(full_leg(), {}, 28);
  ASSERT_EQ(curve.points.size(), 28u);
  EXPECT_EQ(curve.points.front().travel, 0.0);
  EXPECT_EQ(curve.points.back().travel, 0.27);
  EXPECT_TRUE(curve.outcome.ok());
}

TEST(UnitLimits, OfASoundLegAreItsTravel) {
  const UnitLimits limits = unit_limits(full_leg(), {});
  EXPECT_EQ(limits.usable_travel, 0.27);
  EXPECT_EQ(limits.coil_bind_travel, std::nullopt);
  EXPECT_EQ(limits.air_end_travel, std::nullopt);
  EXPECT_TRUE(limits.outcome.ok());
  EXPECT_EQ(limits.force_in, force_at(full_leg(), {}, 0.27).force);
}

TEST(UnitLimits, NameTheCoilThatIsSolidTooSoon) {
  UnitSpring unit = full_leg();
  std::get<CoilStack>(unit.elements[0].law).in_series[0].bind_compression = 0.23;
  const UnitLimits limits = unit_limits(unit, {});
  EXPECT_NEAR(limits.coil_bind_travel.value(), 0.22, 1e-15);
  EXPECT_EQ(limits.usable_travel, *limits.coil_bind_travel);
  EXPECT_EQ(limits.outcome.status, Status::OutOfRange);
  EXPECT_THAT(limits.outcome.note, testing::HasSubstr("solid at 81.5 %"));
  EXPECT_EQ(spring_curve(unit, {}, 5).outcome.status, Status::OutOfRange);
}

TEST(UnitLimits, NameTheAirThatIsUsedUpTooSoon) {
  UnitSpring unit = full_leg();
  std::get<AirSpring>(unit.elements[1].law).positive.oil_volume = 0.3e-3;
  const UnitLimits limits = unit_limits(unit, {});
  EXPECT_NEAR(limits.air_end_travel.value(), 0.98 * 0.3e-3 / 1.4e-3, 1e-15);
  EXPECT_THAT(limits.outcome.note, testing::HasSubstr("No air is left"));
}

TEST(UnitLimits, GiveTheCrossoverOfADualRateSpring) {
  UnitSpring unit = full_leg();
  unit.elements[0].law = CoilStack{{{9e3, std::nullopt}, {6e3, 0.06}}, 0.01};
  const UnitLimits limits = unit_limits(unit, {});
  EXPECT_THAT(limits.crossover_travels,
              testing::ElementsAre(testing::DoubleNear(0.06 + 360.0 / 9e3 - 0.01, 1e-14)));
}

TEST(UnitLimits, TellWhereALegRestsThatIsPulledIn) {
  EXPECT_EQ(unit_limits({0.2, {{"coil", CoilStack{{{5e3, std::nullopt}}, 0.01}}}}, {}).rest_travel, 0.0);
  // hand calculation: 5 N/mm without preload against a top-out of 10 N/mm over 15 mm balance at 10 mm
  const UnitSpring unit{
      0.2, {{"coil", CoilStack{{{5e3, std::nullopt}}, 0.0}}, {"top-out", TopOutSpring{10e3, 0.015}}}};
  EXPECT_NEAR(unit_limits(unit, {}).rest_travel, 0.01, 1e-12);  // closed to 1e-12 of the travel
}

TEST(UnitProblems, ASoundLegHasNone) {
  EXPECT_THAT(problems_in(full_leg()), testing::IsEmpty());
  EXPECT_THAT(problems_in(UnitSpring{0.1, {}}), testing::IsEmpty());  // a leg that only damps
}

TEST(UnitProblems, NameEachFieldOutOfItsBounds) {
  struct Case {
    std::string field;
    std::function<void(UnitSpring&)> spoil;
  };
  const auto coil = [](UnitSpring& unit) -> CoilStack& { return std::get<CoilStack>(unit.elements[0].law); };
  const auto air = [](UnitSpring& unit) -> AirSpring& { return std::get<AirSpring>(unit.elements[1].law); };
  const auto top_out = [](UnitSpring& unit) -> TopOutSpring& {
    return std::get<TopOutSpring>(unit.elements[2].law);
  };
  const auto bump = [](UnitSpring& unit) -> BumpStop& { return std::get<BumpStop>(unit.elements[3].law); };
  const std::vector<Case> cases{
      {"elements[0].in_series", [&](UnitSpring& u) { coil(u).in_series.clear(); }},
      {"elements[0].in_series[0].rate", [&](UnitSpring& u) { coil(u).in_series[0].rate = 0.0; }},
      {"elements[0].in_series[0].rate",
       [&](UnitSpring& u) { coil(u).in_series[0].rate = std::numeric_limits<double>::quiet_NaN(); }},
      {"elements[0].preload", [&](UnitSpring& u) { coil(u).preload = 0.33; }},
      {"elements[0].preload", [&](UnitSpring& u) { coil(u).preload = -0.28; }},
      {"elements[1].positive.area", [&](UnitSpring& u) { air(u).positive.area = 0.0; }},
      {"elements[1].positive.empty_volume", [&](UnitSpring& u) { air(u).positive.empty_volume = 0.1e-3; }},
      {"elements[1].positive.oil_volume", [&](UnitSpring& u) { air(u).positive.oil_volume = -1e-6; }},
      {"elements[1].positive.pressure", [&](UnitSpring& u) { air(u).positive.pressure = 0.0; }},
      {"elements[1].positive.sealed_temperature",
       [&](UnitSpring& u) { air(u).positive.sealed_temperature = 20.0; }},
      {"elements[1].positive.exponent", [&](UnitSpring& u) { air(u).positive.exponent = 0.9; }},
      {"elements[1].balance_travel", [&](UnitSpring& u) { air(u).balance_travel = 0.01; }},
      {"elements[1].negative.pressure",
       [&](UnitSpring& u) {
         air(u).negative = AirChamber{.area = 1e-3, .empty_volume = 1e-5, .pressure = 0.0};
       }},
      {"elements[2].rate", [&](UnitSpring& u) { top_out(u).rate = -1.0; }},
      {"elements[2].engagement", [&](UnitSpring& u) { top_out(u).engagement = 0.3; }},
      {"elements[3].start", [&](UnitSpring& u) { bump(u).start = 0.3; }},
      {"elements[3].cubic", [&](UnitSpring& u) { bump(u).cubic = -1.0; }},
      {"elements[3].rate", [&](UnitSpring& u) { bump(u) = {0.2, 0.0, 0.0}; }}};
  for (const Case& one : cases) {
    UnitSpring unit = full_leg();
    one.spoil(unit);
    EXPECT_THAT(fields_of(problems_in(unit)), testing::ElementsAre(one.field));
  }
  UnitSpring unit = full_leg();
  unit.travel = 270.0;  // millimetres taken for metres
  EXPECT_THAT(fields_of(problems_in(unit)), testing::ElementsAre("travel"));
}

TEST(SpringChange, MoreOilStiffensTheEndAndHardlyTheStart) {
  const SpringChange oil{.element = 1, .oil_volume = 5e-6};
  const SpringChangeEffect effect = effect_of(oil, full_leg(), {}, 10);
  EXPECT_EQ(effect.difference.front(), 0.0);
  EXPECT_GT(effect.difference.back(), 20.0 * effect.difference[4]);
  EXPECT_DOUBLE_EQ(effect.before.back(), force_at(full_leg(), {}, 0.27).force);
  EXPECT_DOUBLE_EQ(effect.difference.back(), force_change(oil, full_leg(), {}, 0.27));
}

TEST(SpringChange, MorePressureLiftsTheWholeCurveInProportion) {
  const SpringChange pressure{.element = 1, .pressure = 10e3};
  const SpringChangeEffect effect = effect_of(pressure, full_leg(), {}, 5);
  EXPECT_NEAR(effect.difference.front(), 10e3 * 1.4e-3, 1e-9);
  const double air = force_at(full_leg(), {}, 0.27).elements[1].force + 101325.0 * 1.4e-3;
  EXPECT_NEAR(effect.difference.back(), air * 10e3 / 101325.0, 1e-9);
}

TEST(SpringChange, WarmthAndAltitudeAddToTheAirAndNotToTheCoil) {
  const UnitSpring coil_only{0.2, {{"coil", CoilStack{{{5e3, std::nullopt}}, 0.01}}}};
  EXPECT_EQ(force_change({.temperature = 10.0}, coil_only, {}, 0.1), 0.0);
  const double warm = force_change({.temperature = 10.0}, full_leg(), {}, 0.0);
  EXPECT_NEAR(warm, 101325.0 * 1.4e-3 * 10.0 / 293.15, 1e-9);
  // less around the leg pushes it out by the same at every travel
  for (const double travel : {0.0, 0.1, 0.27}) {
    EXPECT_NEAR(force_change({.ambient_pressure = -10e3}, full_leg(), {}, travel), 14.0, 1e-9);
  }
}

TEST(SpringChange, PreloadAddsRateTimesItsLength) {
  EXPECT_NEAR(force_change({.element = 0, .preload = 2e-3}, full_leg(), {}, 0.1), 9.2, 1e-9);
}

TEST(SpringChange, OfAnElementThatHasNoSuchThingIsABug) {
  EXPECT_THROW(changed(full_leg(), {.element = 0, .oil_volume = 5e-6}), LogicFault);
  EXPECT_THROW(changed(full_leg(), {.element = 1, .preload = 1e-3}), LogicFault);
  EXPECT_THROW(changed(full_leg(), {.element = 9, .pressure = 1e3}), LogicFault);
}

}  // namespace
}  // namespace shimwright::spring
