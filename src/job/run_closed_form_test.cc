// Limits of the whole chain, from a job file to the document, that can be checked by hand.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing_jobs::direction;
using testing_jobs::run;

/// A damper at the temperature of the oil's stated density, so that the density is known exactly.
std::string damper_job(const std::string& sizes, const std::string& density, const std::string& valve) {
  return R"(format = 1
title = "Closed form"
scenario = "Invented for the tests"
[conditions]
oil_temperature = "15 degC"
fill_temperature = "15 degC"
[oil.plain]
viscosity = [{ at = "40 degC", value = "15 mm2/s" }, { at = "100 degC", value = "3.9 mm2/s" }]
density_15 = ")" +
         density + R"("
[[unit]]
name = "leg"
kind = "fork leg"
layout = "open bath"
travel = "100 mm"
oil = "plain"
)" + sizes +
         "\n" + valve;
}

RunOptions only_force(std::vector<double> speeds) {
  RunOptions options;
  options.sections = {.valves = true, .force = true};
  options.theory = Theory::Linear;
  options.speeds = std::move(speeds);
  return options;
}

const document::ForcePoint& point_at(const document::ResultDocument& document, Stroke stroke, double speed) {
  for (const document::ForceCurve& curve : document.units.at(0).force->curves) {
    if (curve.stroke != stroke) continue;
    for (const document::ForcePoint& point : curve.points) {
      if (std::abs(point.speed - speed) < 1e-12) return point;
    }
  }
  throw std::out_of_range("no such speed");
}

// Case QS-07 of the project's reference collection (trust C: orifice equation, computed independently): one
// fixed orifice of 4 mm2, coefficient 0.7, density 870, piston 36 mm, rod 12 mm.
TEST(ClosedForm, ARigidOrificeDamperGivesTheSquareLaw) {
  const std::string text = damper_job("piston = \"36 mm\"\nrod = \"12 mm\"", "870 kg/m3", R"(
[unit.piston_valve.compression]
port_count = 1
port_area = "4 mm2"
port_discharge = 0.7
[unit.piston_valve.rebound]
port_count = 1
port_area = "4 mm2"
port_discharge = 0.7
)");
  const document::ResultDocument document = run(text, only_force({0.1, 0.5}));
  const document::ForcePoint& slow = point_at(document, Stroke::Rebound, 0.1);
  // the table of the law is good to 1e-7 of flow, so 2e-7 of force
  EXPECT_NEAR(slow.force, 410.9607, 410.9607 * 1e-6);
  EXPECT_NEAR(slow.piston_flow, 90.47787e-6, 90.47787e-6 * 1e-6);
  EXPECT_NEAR(point_at(document, Stroke::Rebound, 0.5).force, 25.0 * slow.force, 25.0 * slow.force * 1e-6);
  // one hole, two strokes: the flow is the same, and so is the drop
  const document::DirectionResult& in = direction(document, ValvePlace::Piston, Stroke::Compression);
  const document::DirectionResult& out = direction(document, ValvePlace::Piston, Stroke::Rebound);
  EXPECT_NEAR(in.law[0].drop, out.law[0].drop, 1e-6 * out.law[0].drop);
}

struct ShimCase {
  double speed;
  double drop;
  double lift;
  double force;
};

// Cases QS-01, QS-02, QS-06 (trust C): monotube, rebound, density 860, coefficient 0.7 everywhere, piston 46
// mm, rod 12 mm, bleed 3 mm2, ports 120 mm2 in a row with the curtain under one shim 32 x 0.20 on a 16 mm
// clamp, linear theory.
TEST(ClosedForm, ASingleClampedDiscCarriesThroughTheWholeChain) {
  const std::string text = damper_job("piston = \"46 mm\"\nrod = \"12 mm\"", "860 kg/m3", R"(
[[unit.piston_valve.bleed]]
name = "bleed"
kind = "bored"
diameter = "1.95441005 mm"
discharge = 0.7
[unit.piston_valve.compression]
port_count = 1
port_area = "400 mm2"
port_discharge = 0.7
[unit.piston_valve.rebound]
port_count = 1
port_area = "120 mm2"
port_discharge = 0.7
stack_discharge = 0.7
seat = "31.9999 mm"
clamp = "16 mm"
stack = ["1 x 32 x 0.20 mm"]
)");
  const document::ResultDocument document = run(text, only_force({0.05, 0.1, 2.0}));
  const document::DirectionResult& rebound = direction(document, ValvePlace::Piston, Stroke::Rebound);
  const ShimCase cases[] = {{0.05, 28544.6, 0.10563e-3, 44.210},
                            {0.10, 48919.6, 0.17846e-3, 75.767},
                            {2.0, 931407.0, 1.42840e-3, 1442.57}};
  ASSERT_EQ(rebound.law.size(), 3u);
  for (std::size_t i = 0; i < 3; ++i) {
    // the source is a thin plate; ours is flexible in shear too: 0.1 % in lift (plate README), so 0.2 % is
    // allowed
    const double tolerance = 2e-3;
    EXPECT_NEAR(rebound.law[i].drop, cases[i].drop, cases[i].drop * tolerance) << cases[i].speed;
    EXPECT_NEAR(rebound.law[i].lift_at_seat, cases[i].lift, cases[i].lift * tolerance) << cases[i].speed;
    const document::ForcePoint& point = point_at(document, Stroke::Rebound, cases[i].speed);
    if (!point.cavitated) {
      EXPECT_NEAR(point.force, cases[i].force, cases[i].force * tolerance) << cases[i].speed;
    }
  }
  EXPECT_FALSE(point_at(document, Stroke::Rebound, 0.1).cavitated);
}

// Roark 7th ed. table 11.2 case 2l: y = 3.729663 mm at 1 MPa for 32 x 0.20 on 16 mm, E 206 GPa, nu 0.3 (trust
// C).
TEST(ClosedForm, ALoneDiscLiftsAsTheTextbookSays) {
  const std::string text = R"(format = 1
title = "Lone disc"
[stack]
seat = "31.9999 mm"
seat_support = false
clamp = "16 mm"
discs = ["1 x 32 x 0.20 mm"]
pressures = "0.01 MPa, 0.02 MPa"
)";
  RunOptions options;
  options.sections = {.stacks = true};
  options.theory = Theory::Linear;
  const document::ResultDocument document = run(text, options);
  ASSERT_TRUE(document.stack.has_value());
  ASSERT_EQ(document.stack->points.size(), 2u);
  // thin plate against shear-flexible plate: 0.1 %
  EXPECT_NEAR(document.stack->points[0].lift_at_seat, 37.29663e-6, 37.29663e-6 * 2e-3);
  EXPECT_NEAR(document.stack->points[1].lift_at_seat, 2.0 * document.stack->points[0].lift_at_seat, 1e-12);
  EXPECT_EQ(document.stack->theory, Theory::Linear);
}

// Static rod force: pressure over the air outside times the rod's area, nothing else.
TEST(ClosedForm, TheStaticRodForceIsThePressureOnTheRod) {
  const std::string bath = damper_job("piston = \"36 mm\"\nrod = \"14 mm\"", "870 kg/m3", R"job(
[unit.reservoir]
kind = "gas"
pressure = "10 bar(g)"
volume = "80 mL"
[unit.piston_valve.compression]
port_area = "40 mm2"
[unit.piston_valve.rebound]
port_area = "40 mm2"
)job");
  const std::string text = testing_jobs::changed(bath, "open bath", "closed cartridge");
  const document::ResultDocument document = run(text, only_force({0.1}));
  const double area = 0.25 * std::numbers::pi * 14e-3 * 14e-3;
  EXPECT_NEAR(document.units[0].force->static_rod_force, 10e5 * area, 1e-9 * 10e5 * area);
}

}  // namespace
}  // namespace shimwright::job
