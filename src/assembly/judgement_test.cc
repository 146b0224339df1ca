#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <string>
#include <vector>

#include "assembly/torque.h"

// Where a torque is accepted and where it is refused: each limit worked out here once more, from the formulas
// of VDI 2230-1 (Systematic calculation of bolted joints, from memory), and looked at from both sides.

namespace shimwright::assembly {
namespace {

Strength named(const char* id) {
  return find_strength(id)->strength;
}

/// M8 x 1 on a solid post.
TorqueCase case_of(const char* post, const char* nut, double engaged) {
  return {.joint = {.thread = nominal_thread(8e-3, 1e-3), .face_outer = 11.6e-3, .face_inner = 8.4e-3},
          .post = named(post),
          .nut = named(nut),
          .engaged_length = engaged,
          .nut_width = 13e-3,
          .state = ThreadState::Oiled};
}

/// d2 = d - 0.6495 P, d3 = d - 1.2269 P (ISO 724), for M8 x 1.
constexpr double kPitchDiameter = 8e-3 - 0.649519 * 1e-3;
constexpr double kRootDiameter = 8e-3 - 1.226869 * 1e-3;

/// T = F [P / 2 pi + mu d2 / (2 cos 30) + mu D_Km / 2].
double torque_for(double preload, double mu) {
  const double face = (11.6e-3 + 8.4e-3) / 4.0;
  return preload * (1e-3 / (2.0 * std::numbers::pi) + mu * kPitchDiameter / std::numbers::sqrt3 + mu * face);
}

/// Von Mises stress while tightening: tension over the stress area, twist over the plastic section of the
/// stress diameter.
double stress_for(double preload, double mu) {
  const double diameter = 0.5 * (kPitchDiameter + kRootDiameter);
  const double area = 0.25 * std::numbers::pi * diameter * diameter;
  const double in_thread =
      preload * (1e-3 / (2.0 * std::numbers::pi) + mu * kPitchDiameter / std::numbers::sqrt3);
  const double twist = in_thread / (std::numbers::pi * std::pow(diameter, 3) / 12.0);
  return std::hypot(preload / area, std::numbers::sqrt3 * twist);
}

/// Preload at which stress_for() is `stress`: both are proportional to each other.
double preload_for_stress(double stress, double mu) {
  return stress / stress_for(1.0, mu);
}

TEST(TorqueLimits, ThePostMayReachNineTenthsOfYield) {
  const TorqueCase c = case_of("8.8", "12.9", 12e-3);
  const double mu = friction_of(c.state).coefficient.typical;
  const double limit = torque_for(preload_for_stress(0.9 * 640e6, mu), mu);
  ASSERT_EQ(judge_torque(c, 1.0).limit, TorqueLimit::PostYield);
  EXPECT_NEAR(judge_torque(c, 1.0).greatest_torque, limit, 1e-4 * limit);
  EXPECT_EQ(judge_torque(c, limit * 0.999).verdict, TorqueVerdict::Holds);
  EXPECT_EQ(judge_torque(c, limit * 1.001).verdict, TorqueVerdict::TooHigh);
}

TEST(TorqueLimits, AQuarterMoreThanTheLoadOfTheThreadIsKeptInReserve) {
  const TorqueCase c = case_of("12.9", "aluminium 6082-T6", 4e-3);
  const double mu = friction_of(c.state).coefficient.typical;
  const TorqueAcceptance any = judge_torque(c, 1.0);
  ASSERT_EQ(any.limit, TorqueLimit::Stripping);
  const double limit = torque_for(any.stripping_force / 1.25, mu);
  EXPECT_NEAR(any.greatest_torque, limit, 1e-4 * limit);
}

TEST(TorqueLimits, AFaceUnderTheNutIsPressedUpToWhatItBears) {
  TorqueCase c = case_of("12.9", "12.9", 12e-3);
  c.face_pressure_allowed = 100e6;
  const double mu = friction_of(c.state).coefficient.typical;
  const double area = 0.25 * std::numbers::pi * (11.6e-3 * 11.6e-3 - 8.4e-3 * 8.4e-3);
  ASSERT_EQ(judge_torque(c, 1.0).limit, TorqueLimit::FacePressure);
  EXPECT_NEAR(judge_torque(c, 1.0).greatest_torque, torque_for(100e6 * area, mu), 1e-3);
}

TEST(TorqueLimits, ATenthOfTheYieldPreloadIsTheLeastWhereNoClampForceIsStated) {
  TorqueCase c = case_of("8.8", "12.9", 12e-3);
  const double mu = friction_of(c.state).coefficient.typical;
  const double least = torque_for(0.1 * preload_for_stress(0.9 * 640e6, mu), mu);
  EXPECT_NEAR(judge_torque(c, 1.0).least_torque, least, 1e-4 * least);
  EXPECT_EQ(judge_torque(c, least * 0.999).verdict, TorqueVerdict::TooLow);
  EXPECT_EQ(judge_torque(c, least * 1.001).verdict, TorqueVerdict::Holds);
  c.clamp_needed = 5000.0;
  EXPECT_NEAR(judge_torque(c, 1.0).least_torque, torque_for(5000.0, mu), 1e-3);
}

TEST(TorqueLimits, TheWrenchIsTakenToBeWrongByFourPercent) {
  // a common class of ISO 6789-1 (from memory)
  const TorqueCase c = case_of("8.8", "8.8", 8e-3);
  EXPECT_EQ(c.wrench_error, 0.04);
  const Band& mu = friction_of(c.state).coefficient;
  const TorqueAcceptance result = judge_torque(c, 10.0);
  EXPECT_NEAR(result.preload.high, 10.4 / torque_for(1.0, mu.low), 1.0);
  EXPECT_NEAR(result.preload.typical, 10.0 / torque_for(1.0, mu.typical), 1.0);
  EXPECT_NEAR(result.preload.low, 9.6 / torque_for(1.0, mu.high), 1.0);
}

TEST(TorqueLimits, AnEstimateStaysBetweenAFifthAndThreeQuartersOfYield) {
  const TorqueCase c = case_of("8.8", "12.9", 12e-3);
  const Band& mu = friction_of(c.state).coefficient;
  const TorqueRange range = estimated_torque_range(c);
  const auto at_share = [&](double share, double friction) {
    return torque_for(preload_for_stress(share * 640e6, friction), friction);
  };
  EXPECT_NEAR(range.greatest, at_share(0.75, mu.low) / 1.04, 1e-3);
  EXPECT_NEAR(range.least, at_share(0.2, mu.high) / 0.96, 1e-3);
  EXPECT_NEAR(range.target, at_share(0.5, mu.typical), 1e-3);
}

TEST(TorqueLimits, AnEstimateUsesHalfOfWhatTheThreadHolds) {
  const TorqueCase c = case_of("12.9", "aluminium 6082-T6", 4e-3);
  const double mu = friction_of(c.state).coefficient.low;
  const double strip = judge_torque(c, 1.0).stripping_force;
  EXPECT_NEAR(estimated_torque_range(c).greatest, torque_for(0.5 * strip, mu) / 1.04, 1e-3);
}

// VDI 2230-1: a hollow post twists over pi (d^3 - b^3) / 12 in the plastic state; from memory
TEST(TorqueLimits, AHollowPostTwistsOverWhatItsBoreLeaves) {
  TorqueCase c = case_of("8.8", "12.9", 12e-3);
  c.joint.bore = 4e-3;
  const double mu = friction_of(c.state).coefficient.typical;
  const double d = 0.5 * (kPitchDiameter + kRootDiameter);
  const double twist = 1000.0 * (1e-3 / (2.0 * std::numbers::pi) + mu * kPitchDiameter / std::numbers::sqrt3);
  const PostStress stress = post_stress(c.joint, 1000.0, mu);
  EXPECT_NEAR(stress.torsion, twist / (std::numbers::pi * (std::pow(d, 3) - std::pow(4e-3, 3)) / 12.0),
              1e-3 * stress.torsion);
  EXPECT_NEAR(stress.tension, 1000.0 / (0.25 * std::numbers::pi * (d * d - 16e-6)), 1e-5 * stress.tension);
}

TEST(TorqueLimits, AWrenchThatIsWrongByMoreThanHalfIsRefusedWithThatLimit) {
  TorqueCase c = case_of("8.8", "12.9", 12e-3);
  c.wrench_error = 0.51;
  ASSERT_EQ(problems_in(c).size(), 1u);
  EXPECT_EQ(problems_in(c)[0].limit, 0.5);
}

// a person follows the estimate with a pocket calculator: every number that it rests on, in order
TEST(TorqueLimits, AnEstimateShowsEachOfItsSteps) {
  TorqueCase c = case_of("8.8", "12.9", 12e-3);
  c.wrench_error = 0.06;
  const Band mu = friction_of(c.state).coefficient;
  const double diameter = 0.5 * (kPitchDiameter + kRootDiameter);
  const double most = preload_for_stress(0.75 * 640e6, mu.low);
  const double least = preload_for_stress(0.2 * 640e6, mu.high);
  struct Step {
    const char* what;
    double value;
    StepUnit unit;
  };
  const auto expect = [&](const std::vector<Step>& steps) {
    const TorqueRange range = estimated_torque_range(c);
    ASSERT_EQ(range.steps.size(), steps.size());
    for (std::size_t i = 0; i < steps.size(); ++i) {
      EXPECT_EQ(range.steps[i].what, steps[i].what);
      EXPECT_NEAR(range.steps[i].value, steps[i].value, 1e-4 * steps[i].value) << steps[i].what;
      EXPECT_EQ(range.steps[i].unit, steps[i].unit) << steps[i].what;
    }
  };
  const double strip = estimated_torque_range(c).steps.at(3).value;
  const std::vector<Step> joint = {{"area of the post that carries the load, without the bore",
                                    0.25 * std::numbers::pi * diameter * diameter, StepUnit::Area},
                                   {"yield strength of the post", 640e6, StepUnit::Stress},
                                   {"length of full thread in the nut", 12e-3, StepUnit::Length},
                                   {"force that strips the weaker thread", strip, StepUnit::Force},
                                   {"lowest friction coefficient", mu.low, StepUnit::Ratio},
                                   {"typical friction coefficient", mu.typical, StepUnit::Ratio},
                                   {"highest friction coefficient", mu.high, StepUnit::Ratio},
                                   {"error of the torque wrench", 0.06, StepUnit::Ratio},
                                   {"highest share of yield, slippery thread", 0.75, StepUnit::Ratio},
                                   {"highest share of the stripping force", 0.5, StepUnit::Ratio},
                                   {"highest preload", most, StepUnit::Force},
                                   {"highest torque", torque_for(most, mu.low) / 1.06, StepUnit::Torque}};
  ASSERT_GT(0.5 * strip, most) << "the post is the weaker one";
  const double aimed = torque_for(preload_for_stress(0.5 * 640e6, mu.typical), mu.typical);
  const auto with = [&](std::vector<Step> rest) {
    std::vector<Step> all = joint;
    all.insert(all.end(), rest.begin(), rest.end());
    return all;
  };
  const double greatest = torque_for(most, mu.low) / 1.06;
  const double lowest = torque_for(least, mu.high) / 0.94;
  expect(with({{"lowest share of yield, rough thread", 0.2, StepUnit::Ratio},
               {"lowest preload", least, StepUnit::Force},
               {"lowest torque", lowest, StepUnit::Torque},
               {"target share of yield", 0.5, StepUnit::Ratio},
               {"target torque, kept inside the range", std::min(std::max(aimed, lowest), greatest),
                StepUnit::Torque}}));
  c.clamp_needed = 0.9 * least;
  expect(with({{"lowest preload", 0.9 * least, StepUnit::Force},
               {"lowest torque", 0.9 * lowest, StepUnit::Torque},
               {"target share of yield", 0.5, StepUnit::Ratio},
               {"target torque, kept inside the range", std::min(aimed, greatest), StepUnit::Torque}}));
}

TEST(Strengths, AreThoseOfTheirStandards) {
  // a second copy, yield and ultimate [MPa], each from the standard beside it (from memory)
  const std::map<std::string, std::pair<double, double>> published = {
      {"8.8", {640, 800}},                      // ISO 898-1, table 3, d <= 16 mm
      {"10.9", {940, 1040}},                    // ISO 898-1, table 3
      {"12.9", {1100, 1220}},                   // ISO 898-1, table 3
      {"aluminium 6082-T6", {260, 310}},        // EN 755-2, bar 20 to 150 mm
      {"aluminium 7075-T6", {480, 540}},        // EN 755-2, bar up to 100 mm
      {"brass", {200, 400}},                    // EN 12164, CW614N R400, rounded down
      {"mild steel", {235, 360}},               // EN 10025-2, S235, up to 16 mm
      {"steel C45 normalised", {340, 620}},     // EN ISO 683-1, up to 16 mm
      {"steel 42CrMo4 hardened", {750, 1000}},  // EN ISO 683-2, 16 to 40 mm
      {"stainless A2-70", {450, 700}},          // ISO 3506-1
  };
  ASSERT_EQ(named_strengths().size(), published.size());
  for (const NamedStrength& row : named_strengths()) {
    const auto found = published.find(std::string(row.id));
    ASSERT_NE(found, published.end()) << row.id;
    EXPECT_EQ(row.strength.yield, found->second.first * 1e6) << row.id;
    EXPECT_EQ(row.strength.ultimate, found->second.second * 1e6) << row.id;
  }
}

TEST(Strengths, ShearIsSixTenthsOfTension) {
  // VDI 2230-1, table A9, for steel: 0.60 to 0.65 (from memory)
  EXPECT_NEAR(shear_strength({640e6, 800e6}), 480e6, 1.0);
}

}  // namespace
}  // namespace shimwright::assembly
