#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "damper/damper.h"
#include "damper/test_dampers.h"

namespace shimwright::damper {
namespace {

double between(double low, double high) {
  return low * std::pow(high / low, *rc::gen::inRange(0, 1000) / 1000.0);
}

TestDamper any_damper() {
  TestDamper damper = cartridge();
  const double piston = between(18e-3, 50e-3);
  damper.model.chambers = {.piston_area = disc_area(piston),
                           .rod_area = disc_area(piston * between(0.2, 0.7)),
                           .reservoir_pressure = between(0.1e6, 2e6),
                           .release_pressure = between(1e2, 5e4)};
  damper.solved.stacks.piston = {straight_curve(between(1e-10, 1e-8), 20e6, 8e-3),
                                 straight_curve(between(1e-10, 1e-8), 20e6, 7e-3)};
  damper.solved.stacks.foot = {straight_curve(between(1e-10, 1e-8), 20e6, 6e-3),
                               straight_curve(between(1e-9, 1e-7), 20e6, 8e-3)};
  set_clicks(damper.model, {ValvePlace::Piston, 0}, *rc::gen::inRange(0, 25));
  set_clicks(damper.model, {ValvePlace::Foot, 0}, *rc::gen::inRange(0, 25));
  if (*rc::gen::inRange(0, 4) == 0) {
    damper.model.foot_valve.reset();
    damper.solved.stacks.foot = {};
  }
  solve(damper);
  return damper;
}

SteadyPoint at(const TestDamper& damper, double speed) {
  return steady_point(damper.model.chambers, damper.solved.laws, speed);
}

RC_GTEST_PROP(Damper, NeverHelpsTheMotionAndNeverPulls, ()) {
  const TestDamper damper = any_damper();
  const Chambers& chambers = damper.model.chambers;
  for (double speed = -4.0; speed <= 4.0; speed += 0.0517) {
    const SteadyPoint point = at(damper, speed);
    RC_ASSERT(point.force_damping * speed >= 0.0);
    RC_ASSERT(point.p_compression >= chambers.release_pressure);
    RC_ASSERT(point.p_rod >= chambers.release_pressure);
    RC_ASSERT(point.cavitated == (point.margin < 0.0));
  }
}

RC_GTEST_PROP(Damper, FlowsAreContinuous, ()) {
  const TestDamper damper = any_damper();
  const Chambers& chambers = damper.model.chambers;
  for (double speed = -3.0; speed <= 3.0; speed += 0.0977) {
    const SteadyPoint point = at(damper, speed);
    const double swept = chambers.piston_area * speed;
    const double scale = 1e-9 * std::abs(swept) + 1e-15;  // rounding, times the steepness of the laws
    if (!point.cavitated) {
      RC_ASSERT(std::abs(point.piston.q - (chambers.piston_area - chambers.rod_area) * speed) < scale);
      RC_ASSERT(std::abs(point.foot.q - chambers.rod_area * speed) < scale);
    } else if (speed > 0.0) {
      // what the piston pushes away still leaves; the void is behind it
      RC_ASSERT(std::abs(point.piston.q + point.foot.q - swept) < scale);
      RC_ASSERT(point.piston.q <= (chambers.piston_area - chambers.rod_area) * speed + scale);
    } else {
      RC_ASSERT(std::abs(point.piston.q - (chambers.piston_area - chambers.rod_area) * speed) < scale);
      RC_ASSERT(point.foot.q >= chambers.rod_area * speed - scale);
    }
  }
}

RC_GTEST_PROP(Damper, TheValvesTakeAllThePower, ()) {
  const TestDamper damper = any_damper();
  for (double speed = -3.0; speed <= 3.0; speed += 0.0977) {
    const SteadyPoint point = at(damper, speed);
    if (point.cavitated) continue;
    const double valves = point.piston.drop * point.piston.q + point.foot.drop * point.foot.q;
    RC_ASSERT(std::abs(point.force_damping * speed - valves) <=
              1e-8 * valves + 1e-9);  // rounding of pressures
  }
}

RC_GTEST_PROP(Damper, ForceRisesWithSpeedWhileOilIsEverywhere, ()) {
  const TestDamper damper = any_damper();
  for (const double sign : {-1.0, 1.0}) {
    double last = 0.0;
    for (double speed = 0.01; speed <= 4.0; speed *= 1.1) {
      const SteadyPoint point = at(damper, sign * speed);
      if (point.cavitated) break;
      RC_ASSERT(std::abs(point.force_damping) > last);
      last = std::abs(point.force_damping);
    }
  }
}

RC_GTEST_PROP(Damper, ForceHasNoStepAtTheOnsetAndFallsOffBeyond, ()) {
  const TestDamper damper = any_damper();
  Chambers full = damper.model.chambers;
  for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
    const double sign = stroke == Stroke::Compression ? 1.0 : -1.0;
    const CavitationReport report = cavitation(damper.model.chambers, damper.solved.laws, stroke, 4.0, 0.0);
    if (!std::isfinite(report.onset_speed)) {
      RC_ASSERT(!at(damper, sign * 4.0).cavitated);
      continue;
    }
    const SteadyPoint before = at(damper, sign * report.onset_speed * (1 - 1e-7));
    const SteadyPoint after = at(damper, sign * report.onset_speed * (1 + 1e-7));
    RC_ASSERT(!before.cavitated);
    RC_ASSERT(after.cavitated);
    // the square law doubles a step of 2e-7 in speed
    RC_ASSERT(std::abs(after.force_damping / before.force_damping - 1.0) < 1e-5);

    // against the same damper under enough pressure to stay full
    full.reservoir_pressure = report.needed_reservoir_pressure + 1e5;
    // A void lets the oil choose its ways, which makes the content of the network (the pressures summed over
    // the flows) the least there is; kept full the ways are fixed. So the force summed over speed from the
    // onset on is less. At one speed it need not be: stacks of changing slope part by a thousandth (Millar
    // 1951 for the content of a network, from memory).
    RC_ASSERT(!steady_point(full, damper.solved.laws, sign * 4.0).cavitated);
    double less = 0.0, all = 0.0;
    constexpr int kPieces = 200;
    for (int i = 0; i < kPieces; ++i) {
      const double share = (i + 0.5) / kPieces;
      const double speed = sign * (report.onset_speed + share * (4.0 - report.onset_speed));
      const double kept_full = steady_point(full, damper.solved.laws, speed).force_damping;
      less += std::abs(kept_full) - std::abs(at(damper, speed).force_damping);
      all += std::abs(kept_full);
    }
    RC_ASSERT(less > -1e-9 * all);  // an onset at the top speed leaves nothing but rounding
  }
}

RC_GTEST_PROP(Damper, TheCureGivesTheMarginWanted, ()) {
  const TestDamper damper = any_damper();
  for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
    const double speed = between(0.2, 4.0);
    const CavitationReport report =
        cavitation(damper.model.chambers, damper.solved.laws, stroke, speed, 50e3);
    Chambers cured = damper.model.chambers;
    cured.reservoir_pressure = report.needed_reservoir_pressure;
    const SteadyPoint point =
        steady_point(cured, damper.solved.laws, stroke == Stroke::Compression ? speed : -speed);
    RC_ASSERT(point.margin > 50e3 - 1e-3);  // rounding of pressures up to 50 MPa
  }
}

RC_GTEST_PROP(Damper, MirroredPistonValveGivesTheMirroredForce, ()) {
  TestDamper damper = any_damper();
  damper.model.foot_valve.reset();
  damper.model.chambers.reservoir_pressure = 100e6;  // no cavitation
  solve(damper);
  TestDamper mirrored = damper;
  std::swap(mirrored.model.piston_valve.compression, mirrored.model.piston_valve.rebound);
  std::swap(mirrored.solved.stacks.piston.compression, mirrored.solved.stacks.piston.rebound);
  solve(mirrored);
  for (const double speed : {0.001, 0.05, 0.7, 3.0}) {
    const double a = at(damper, speed).force_damping;
    const double b = at(mirrored, -speed).force_damping;
    // pressures of 100 MPa round at 1e-8 Pa
    RC_ASSERT(std::abs(a + b) <= 1e-9 * std::abs(a) + 1e-6);
  }
}

// dimensional analysis: with fixed coefficients and no leakage, k times the density is sqrt(k) times the
// speed
TEST(Damper, DensityAndSpeedScaleTogether) {
  TestDamper light = cartridge();
  light.model.chambers.reservoir_pressure = 20e6;
  for (auto* valve : {&light.model.piston_valve, &*light.model.foot_valve}) {
    valve->bleeds = {bore(1e-6)};
    valve->leakage.reset();
  }
  TestDamper heavy = light;
  light.liquid = {.density = 800, .viscosity = 0.01};
  heavy.liquid = {.density = 3200, .viscosity = 0.03};
  solve(light);
  solve(heavy);
  for (const double speed : {-2.0, -0.1, 0.02, 1.0})
    EXPECT_NEAR(at(light, 2 * speed).force_damping / at(heavy, speed).force_damping, 1.0,
                1e-6);  // table, twice
}

TEST(Damper, AStifferFootValveCuresCompression) {
  TestDamper damper = cartridge();
  damper.solved.stacks.piston.compression = straight_curve(0.2e-9, 20e6, 8e-3);  // a piston valve too firm
  damper.solved.stacks.foot.compression = straight_curve(8e-9, 20e6, 6e-3);      // over a foot valve too soft
  solve(damper);
  const CavitationReport report =
      cavitation(damper.model.chambers, damper.solved.laws, Stroke::Compression, 1.0, 20e3);
  ASSERT_LT(report.onset_speed, 1.0);
  EXPECT_EQ(report.cure, CavitationCure::StiffenFootCompression);
  EXPECT_GT(report.needed_foot_drop, report.foot_drop);
  EXPECT_LT(report.allowed_piston_drop, report.piston_drop);
  // a foot valve that gives the needed drop restores the margin
  const double short_by = report.needed_foot_drop - report.foot_drop;
  EXPECT_NEAR(report.margin + short_by, 20e3, 1e-3);
}

TEST(Damper, FamilyIsTheSingleCurves) {
  const TestDamper damper = cartridge();
  const std::vector<double> clicks{0, 4, 12, 24};
  const std::vector<double> speeds{-2.0, -0.3, -0.02, 0.0, 0.02, 0.3, 2.0};
  for (const Adjuster adjuster : {Adjuster{ValvePlace::Piston, 0}, Adjuster{ValvePlace::Foot, 0}}) {
    const ForceFamily family =
        force_family(damper.model, damper.solved, damper.liquid, adjuster, clicks, speeds);
    ASSERT_EQ(family.curves.size(), clicks.size());
    for (size_t i = 0; i < clicks.size(); ++i) {
      TestDamper one = damper;
      set_clicks(one.model, adjuster, clicks[i]);
      EXPECT_EQ(clicks_of(one.model, adjuster), clicks[i]);
      solve(one);
      ASSERT_EQ(family.curves[i].points.size(), speeds.size());
      for (size_t j = 0; j < speeds.size(); ++j)
        // both are tables of 1e-7
        EXPECT_NEAR(family.curves[i].points[j].force_damping, at(one, speeds[j]).force_damping,
                    1e-6 * std::abs(at(one, speeds[j]).force_damping));
    }
  }
}

TEST(Damper, EachClickOutIsSofter) {
  const TestDamper damper = cartridge();
  std::vector<double> clicks;
  for (int i = 0; i <= 16; ++i) clicks.push_back(i);
  const std::vector<double> speeds{0.05};
  const ForceFamily family =
      force_family(damper.model, damper.solved, damper.liquid, {ValvePlace::Foot, 0}, clicks, speeds);
  for (size_t i = 1; i < clicks.size(); ++i)
    EXPECT_LT(family.curves[i].points[0].force_damping, family.curves[i - 1].points[0].force_damping);
}

TEST(Damper, FrictionIsToldApartAndActsAgainstTheMotion) {
  TestDamper damper = cartridge();
  damper.model.chambers.seal_friction = 12.0;
  EXPECT_EQ(at(damper, 0.3).force_friction, 12.0);
  EXPECT_EQ(at(damper, -0.3).force_friction, -12.0);
  EXPECT_EQ(at(damper, 0.0).force_friction, 0.0);
  const SteadyPoint point = at(damper, 0.3);
  EXPECT_DOUBLE_EQ(force_total(point), point.force_damping + point.force_static + 12.0);
}

TEST(Damper, ALockedValveSaysSo) {
  TestDamper damper = orifice_damper(36e-3, 12e-3, 4e-6, 1e6);
  damper.model.piston_valve.bleeds = {needle(0)};
  solve(damper);
  const SteadyPoint point = at(damper, -0.1);
  EXPECT_EQ(point.outcome.status, Status::Stalled);
  EXPECT_FALSE(point.outcome.note.empty());
  EXPECT_TRUE(std::isfinite(point.force_damping));
  EXPECT_TRUE(std::isfinite(at(damper, 0.1).force_damping));
}

TEST(Damper, MoreFlowThanSolvedForIsOutOfRange) {
  TestDamper damper = cartridge();
  damper.model.chambers.reservoir_pressure = 10e6;
  damper.solved.stacks.foot.compression = straight_curve(0.3e-9, 0.1e6, 6e-3);
  solve(damper);
  EXPECT_TRUE(at(damper, 0.001).outcome.ok());
  const SteadyPoint point = at(damper, 3.0);
  EXPECT_EQ(point.outcome.status, Status::OutOfRange);
  EXPECT_NE(point.outcome.note.find("foot"), std::string::npos);
  const std::vector<double> speeds{0.001, 3.0};
  EXPECT_EQ(force_curve(damper.model.chambers, damper.solved.laws, speeds).outcome.status,
            Status::OutOfRange);
}

TEST(Damper, ProblemsNameTheirPlace) {
  DamperModel model;
  model.chambers = {.piston_area = 1e-4,
                    .rod_area = 2e-4,
                    .reservoir_pressure = 1e3,
                    .release_pressure = 2e3,
                    .atmospheric_pressure = -1.0,
                    .seal_friction = -1.0};
  model.foot_valve = valve::ValveModel{};
  std::vector<std::string> fields;
  for (const Problem& problem : validate(model)) fields.push_back(problem.field);
  EXPECT_EQ(fields, (std::vector<std::string>{"chambers.rod_area", "chambers.reservoir_pressure",
                                              "chambers.atmospheric_pressure", "chambers.seal_friction",
                                              "piston_valve.compression", "piston_valve.rebound",
                                              "foot_valve.compression", "foot_valve.rebound"}));
}

}  // namespace
}  // namespace shimwright::damper
