#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "damper/damper.h"
#include "damper/test_dampers.h"

namespace shimwright::damper {
namespace {

SteadyPoint point_at(const TestDamper& damper, double speed) {
  return steady_point(damper.model.chambers, damper.solved.laws, speed);
}

// Orifice equation; physics case QS-07 (computed apart). High gas pressure keeps oil everywhere.
TEST(DamperReference, RigidOrificeIsTheClosedForm) {
  const TestDamper damper = orifice_damper(36e-3, 12e-3, 4e-6, 30e6);
  const SteadyPoint slow = point_at(damper, -0.1);
  EXPECT_NEAR(slow.piston.q * 1e6, -90.47787, 1e-5);            // cm3/s, seven digits
  EXPECT_NEAR(slow.p_rod - slow.p_compression, 454211.3, 5.0);  // 1e-5 of it
  EXPECT_NEAR(slow.force_damping, -410.9607, 4e-3);
  EXPECT_NEAR(point_at(damper, -0.5).force_damping / slow.force_damping, 25.0, 1e-5);
  // without a foot valve both strokes are alike
  for (const double speed : {0.05, 0.1, 0.5})
    EXPECT_NEAR(point_at(damper, speed).force_damping / -point_at(damper, -speed).force_damping, 1.0, 1e-12);
}

// physics-cases 4.3, QS-01, -02, -06: invented, solved apart with another program.
TEST(DamperReference, SingleStackReboundBenchmark) {
  TestDamper damper;
  damper.model.chambers = {
      .piston_area = disc_area(46e-3), .rod_area = disc_area(12e-3), .reservoir_pressure = kAtmosphere};
  damper.model.piston_valve = {.compression = stacked(120e-6), .rebound = stacked(120e-6)};
  damper.model.piston_valve.bleeds = {bore(3e-6)};
  damper.solved.stacks.piston = {straight_curve(3.729663e-9, 20e6, 16e-3),
                                 straight_curve(3.729663e-9, 20e6, 16e-3)};
  solve(damper);
  const std::array<std::array<double, 4>, 3> cases{
      {{.05, 28544.6, .10563, 44.210}, {.10, 48919.6, .17846, 75.767}, {2.0, 931407.0, 1.42840, 1442.57}}};
  for (const auto& [speed, drop, lift_mm, force] : cases) {
    const SteadyPoint point = point_at(damper, -speed);
    EXPECT_NEAR(point.force_damping / -force, 1.0, 2e-5) << speed;  // the case prints five or six digits
    EXPECT_NEAR((point.p_rod - point.p_compression) / drop, 1.0, 1e-5) << speed;
    EXPECT_NEAR(point.piston.lift * 1e3 / lift_mm, 1.0, 5e-5) << speed;
    EXPECT_EQ(point.force_static, 0.0);
  }
}

// p A; physics case HY-01.
TEST(DamperReference, GasPushesTheRodOut) {
  EXPECT_NEAR(point_at(orifice_damper(36e-3, 12e-3, 4e-6, 1e6 + kAtmosphere), 0.0).force_static, 113.0973,
              1e-4);
  EXPECT_NEAR(point_at(orifice_damper(36e-3, 16e-3, 4e-6, 1e6 + kAtmosphere), 0.0).force_static, 201.0619,
              1e-4);
}

// Balance of forces; physics case HY-05: the largest force before the rod chamber is empty of pressure.
TEST(DamperReference, WithoutAFootValveTheReservoirPressureIsAllThePistonGets) {
  const TestDamper damper = orifice_damper(46e-3, 12e-3, 4e-6, 1e6 + kAtmosphere);
  const CavitationReport report =
      cavitation(damper.model.chambers, damper.solved.laws, Stroke::Compression, 2.0, 0.0);
  const SteadyPoint onset = point_at(damper, report.onset_speed * (1 - 1e-9));
  EXPECT_NEAR(onset.piston.drop, 1.101325e6, 1.0);  // digits of the case
  EXPECT_NEAR(force_total(onset), 1818.835, 2e-3);  // likewise
  EXPECT_EQ(report.cure, CavitationCure::RaiseReservoirPressure);
  // closed form of the speed: cd A sqrt(2 dp / rho) / (A_p - A_r)
  const double net = damper.model.chambers.piston_area - damper.model.chambers.rod_area;
  EXPECT_NEAR(report.onset_speed / (0.7 * 4e-6 * std::sqrt(2 * 1.101325e6 / 870.0) / net), 1.0, 1e-9);
  // past it the force stays: the pressures cannot change any more
  EXPECT_NEAR(force_total(point_at(damper, 2.0)), 1818.835, 2e-3);
  EXPECT_TRUE(point_at(damper, 2.0).cavitated);
}

// physics case HY-09.
TEST(DamperReference, TheStaticForceAlwaysExtends) {
  for (const double gas : {kAtmosphere + 1.0, 0.3e6, 2e6})
    for (const double speed : {-1.0, -0.01, 0.0, 0.01, 1.0})
      EXPECT_GT(point_at(orifice_damper(46e-3, 14e-3, 40e-6, gas), speed).force_static, 0.0);
  EXPECT_EQ(point_at(orifice_damper(46e-3, 14e-3, 40e-6, kAtmosphere), 0.5).force_static, 0.0);
}

// a foot valve alone damps the rod's own displacement: F = drop A_p - (p_R) ... with an open piston p_R = p_C
// and the damping force is the foot's drop times the rod's area
TEST(DamperReference, AFootValveAloneActsOnTheRodsArea) {
  TestDamper damper = orifice_damper(30e-3, 12e-3, 1.0, 0.5e6);  // a square metre: no resistance
  damper.model.foot_valve = valve::ValveModel{};
  damper.model.foot_valve->bleeds = {bore(2e-6)};
  solve(damper);
  const double rod = damper.model.chambers.rod_area;
  const double q = rod * 0.3;
  const double drop = 0.5 * 870.0 * std::pow(q / (0.7 * 2e-6), 2);
  EXPECT_NEAR(point_at(damper, 0.3).force_damping / (drop * rod), 1.0, 1e-7);  // table tolerance, twice
  EXPECT_NEAR(point_at(damper, -0.3).force_damping / -(drop * rod), 1.0, 1e-7);
}

// laminar leakage alone: F = (A_p - A_r)^2 v / G
TEST(DamperReference, LeakageAloneIsALinearDamper) {
  TestDamper damper = orifice_damper(36e-3, 12e-3, 4e-6, 30e6);
  damper.model.piston_valve = {};
  damper.model.piston_valve.leakage =
      flow::AnnularGap{.diameter = 36e-3, .clearance = 60e-6, .length = 10e-3};
  solve(damper);
  const double conductance = flow::gap_flow(*damper.model.piston_valve.leakage, damper.liquid, 0.0).dq_ddp;
  const double net = damper.model.chambers.piston_area - damper.model.chambers.rod_area;
  for (const double speed : {1e-7, 1e-3, 0.1, -0.02})
    EXPECT_NEAR(point_at(damper, speed).force_damping / (net * net * speed / conductance), 1.0, 1e-9)
        << speed;
}

// rebound: the foot valve must let the rod's volume in; closed form v = q_foot(p_res - p_release) / A_r
TEST(DamperReference, ReboundLosesItsMarginWhereTheRefillGivesAllItCan) {
  TestDamper damper = cartridge();
  damper.model.foot_valve->rebound = {};  // refill through the needle alone
  damper.model.foot_valve->bleeds = {bore(2e-6)};
  damper.solved.stacks.foot.rebound.reset();
  solve(damper);
  const Chambers& chambers = damper.model.chambers;
  const CavitationReport report = cavitation(chambers, damper.solved.laws, Stroke::Rebound, 4.0, 10e3);
  const double spare = chambers.reservoir_pressure - chambers.release_pressure;
  const double expected = 0.7 * 2e-6 * std::sqrt(2 * spare / 860.0) / chambers.rod_area;
  EXPECT_NEAR(report.onset_speed / expected, 1.0,
              1e-6);  // table tolerance, and the spare margin of the search
  EXPECT_EQ(report.cure, CavitationCure::OpenFootRebound);
  EXPECT_NEAR(report.needed_foot_drop, spare - 10e3, 1e-6);

  // beyond, the compression chamber stands at release and the foot drop is what is left
  const SteadyPoint beyond = point_at(damper, -2.0);
  EXPECT_TRUE(beyond.cavitated);
  EXPECT_EQ(beyond.p_compression, chambers.release_pressure);
  EXPECT_NEAR(beyond.foot.drop, -spare, 1e-6);
}

}  // namespace
}  // namespace shimwright::damper
