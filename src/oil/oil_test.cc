#include "oil/oil.h"

#include <gmock/gmock.h>

#include <cmath>
#include <functional>
#include <limits>
#include <string>
#include <vector>

#include "base/check.h"

namespace shimwright::oil {
namespace {

OilModel sound_oil() {
  OilModel oil;
  oil.viscosity_points = {{313.15, 15e-6}, {373.15, 3.5e-6}};
  oil.density_15 = 850.0;
  oil.expansion = lubricating_oil_expansion(850.0);
  return oil;
}

std::vector<std::string> fields_of(const Problems& problems) {
  std::vector<std::string> fields;
  for (const Problem& problem : problems) fields.push_back(problem.field);
  return fields;
}

TEST(Oil, ASoundOneHasNoProblems) {
  EXPECT_THAT(problems_in(sound_oil()), testing::IsEmpty());
}

TEST(Oil, OnePointAloneIsRefused) {
  OilModel oil = sound_oil();
  oil.viscosity_points.pop_back();
  const Problems problems = problems_in(oil);
  EXPECT_THAT(fields_of(problems), testing::ElementsAre("viscosity_points"));
  EXPECT_EQ(problems[0].got, 1.0);
  EXPECT_EQ(problems[0].limit, 2.0);
  EXPECT_THROW(static_cast<void>(kinematic_viscosity(oil, 300.0)), LogicFault);
}

TEST(Oil, EachFieldOutOfItsBoundsIsNamedWithTheBoundItPassed) {
  struct Case {
    std::string field;
    std::function<void(OilModel&)> spoil;
  };
  const std::vector<Case> cases{
      {"viscosity_points[0].temperature", [](OilModel& oil) { oil.viscosity_points[0].temperature = 40.0; }},
      {"viscosity_points[1].viscosity", [](OilModel& oil) { oil.viscosity_points[1].viscosity = 1e-8; }},
      {"viscosity_points[1].temperature", [](OilModel& oil) { oil.viscosity_points[1].temperature = 314.0; }},
      {"viscosity_points[1].viscosity", [](OilModel& oil) { oil.viscosity_points[1].viscosity = 16e-6; }},
      {"density_15", [](OilModel& oil) { oil.density_15 = 0.85; }},
      {"density_15", [](OilModel& oil) { oil.density_15 = std::numeric_limits<double>::quiet_NaN(); }},
      {"expansion", [](OilModel& oil) { oil.expansion = -1e-4; }},
      {"bulk_modulus", [](OilModel& oil) { oil.bulk_modulus = 1.5e6; }},
      {"entrained_air", [](OilModel& oil) { oil.entrained_air = 1.0; }},
      {"bunsen", [](OilModel& oil) { oil.bunsen = 9.0; }},
      {"release_pressure", [](OilModel& oil) { oil.release_pressure = 0.0; }},
      {"coldest", [](OilModel& oil) { oil.coldest = -20.0; }},
      {"hottest", [](OilModel& oil) { oil.hottest = oil.coldest; }}};
  for (const Case& one : cases) {
    OilModel oil = sound_oil();
    one.spoil(oil);
    const Problems problems = problems_in(oil);
    EXPECT_THAT(fields_of(problems), testing::ElementsAre(one.field));
    EXPECT_FALSE(problems.at(0).allowed.empty());
  }
}

TEST(Oil, AllProblemsComeAtOnce) {
  EXPECT_THAT(problems_in({}).size(), testing::Ge(2u));
}

TEST(Oil, BeyondItsStatedRangeAnExtrapolationIsOwnedUp) {
  const OilModel oil = sound_oil();
  EXPECT_TRUE(validity_at(oil, oil.coldest).ok());
  EXPECT_TRUE(validity_at(oil, oil.hottest).ok());
  const Outcome cold = validity_at(oil, oil.coldest - 12.0);
  EXPECT_EQ(cold.status, Status::OutOfRange);
  EXPECT_THAT(cold.note, testing::AllOf(testing::HasSubstr("12 K"), testing::HasSubstr("below")));
  EXPECT_THAT(validity_at(oil, oil.hottest + 3.0).note, testing::HasSubstr("3 K above"));
}

TEST(Oil, ASteepLineStaysANumberFarBelowItsData) {
  // read from a drawn job: 18.6 mm2/s at 100 degC and 4.1 at 112.6 have no end at 0 degC
  OilModel oil = sound_oil();
  oil.viscosity_points = {{373.15, 18.64e-6}, {385.75, 4.1e-6}};
  double before = kinematic_viscosity(oil, 373.15);
  for (double temperature = 370.0; temperature > 230.0; temperature -= 5.0) {
    const double viscosity = kinematic_viscosity(oil, temperature);
    EXPECT_TRUE(std::isfinite(viscosity)) << temperature;
    EXPECT_GE(viscosity, before) << temperature;
    before = viscosity;
  }
}

TEST(Oil, ComparedWithItselfNothingChanges) {
  const OilModel oil = sound_oil();
  const OilComparison same = compare_at(oil, oil, 330.0);
  EXPECT_DOUBLE_EQ(same.kinematic_ratio, 1.0);
  EXPECT_DOUBLE_EQ(same.dynamic_ratio, 1.0);
  EXPECT_NEAR(same.same_viscosity_at, 330.0, 1e-9);  // round trip through four logarithms
  EXPECT_TRUE(same.outcome.ok());
}

TEST(Oil, AThickerOneMustBeHotterForTheSameViscosity) {
  OilModel thick = sound_oil();
  thick.viscosity_points = {{313.15, 30e-6}, {373.15, 6e-6}};
  const OilComparison change = compare_at(sound_oil(), thick, 320.0);
  EXPECT_GT(change.kinematic_ratio, 1.7);
  thick.density_15 = 900.0;  // the kinematic ratio knows nothing of density, the other two do
  const OilComparison denser = compare_at(sound_oil(), thick, 320.0);
  EXPECT_NEAR(denser.kinematic_ratio, change.kinematic_ratio, 1e-12);
  EXPECT_NEAR(denser.dynamic_ratio, change.dynamic_ratio * denser.density_ratio, 1e-12);
  EXPECT_NEAR(denser.density_ratio, 900.0 / 850.0, 1e-12);
  EXPECT_GT(change.same_viscosity_at, 320.0);
  EXPECT_NEAR(kinematic_viscosity(thick, change.same_viscosity_at), kinematic_viscosity(sound_oil(), 320.0),
              1e-16);
  thick.hottest = 310.0;
  EXPECT_EQ(compare_at(sound_oil(), thick, 320.0).outcome.status, Status::OutOfRange);
}

TEST(Oil, ViscosityIndexIsUndefinedForVeryThinOils) {
  EXPECT_EQ(viscosity_index(5e-6, 1.99e-6), std::nullopt);
  EXPECT_TRUE(viscosity_index(6e-6, 2.0e-6).has_value());
}

TEST(Liquid, CarriesItsKinematicViscosity) {
  EXPECT_DOUBLE_EQ(kinematic_viscosity(Liquid{800.0, 0.016}), 2e-5);
}

}  // namespace
}  // namespace shimwright::oil
