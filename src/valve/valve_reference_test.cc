#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "valve/test_valves.h"
#include "valve/valve.h"

namespace shimwright::valve {
namespace {

// physics-cases 4.3: rho 860, invented, solved apart with another program.
constexpr oil::Liquid kReferenceOil{.density = 860.0, .viscosity = 0.010};
constexpr double kNetArea = 1548.805e-6;

struct BenchmarkPoint {
  double speed, drop, pocket, lift_mm, q_bleed_cm3;
};

TEST(ValveReference, QuasiStaticBenchmark) {
  const TestValve valve = benchmark_valve();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kReferenceOil);
  const std::array<BenchmarkPoint, 3> cases{{
      {.05, 28544.6, 28322.7, .10563, 17.1099},
      {.10, 48919.6, 47850.0, .17846, 22.3989},
      {2.0, 931407.0, 382983.0, 1.42840, 97.7360},
  }};
  for (const BenchmarkPoint& point : cases) {
    const double drop = drop_at(law, kNetArea * point.speed);
    const ValveState state = state_at(law, drop);
    // the cases print six digits; the net area of the case is rounded to seven
    EXPECT_NEAR(drop / point.drop, 1.0, 1e-5) << point.speed;
    EXPECT_NEAR(state.pocket / point.pocket, 1.0, 1e-5) << point.speed;
    EXPECT_NEAR(state.lift * 1e3 / point.lift_mm, 1.0, 5e-5) << point.speed;
    EXPECT_NEAR(state.q_bleed * 1e6 / point.q_bleed_cm3, 1.0, 1e-5) << point.speed;
  }
}

/// d ln(drop) / d ln(flow) of the benchmark valve.
double steepness(const ValveLaw& law, double q) {
  return std::log(drop_at(law, q * 1.001) / drop_at(law, q / 1.001)) / std::log(1.001 * 1.001);
}

// physics case QS-08: bleed alone is a square law, a stack without preload follows the 2/3 power, ports end
// square.
TEST(ValveReference, BleedThenStackThenPortsSetTheSlope) {
  TestValve valve = benchmark_valve();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kReferenceOil);
  EXPECT_NEAR(steepness(law, 1e-8), 2.0, 0.01);
  EXPECT_NEAR(steepness(law, 0.3), 2.0, 0.1);

  // the middle range alone: no bleed, wide ports
  valve.model.bleeds.clear();
  valve.model.compression.ports->area = 1.0;
  EXPECT_NEAR(steepness(valve_law(valve.model, valve.stacks, kReferenceOil), 1e-4), 2.0 / 3.0, 1e-4);
}

// Q = cd 2 pi r c p sqrt(2 p / rho), so p = (Q / (cd 2 pi r c sqrt(2 / rho)))^(2/3): a single clamped disc
// alone.
TEST(ValveReference, ASingleDiscIsTheClosedForm) {
  const double compliance = 3.729663e-9;
  TestValve valve;
  valve.model.compression = {.stack = any_stack(), .curtain_discharge = flow::fixed_discharge(0.7)};
  valve.model.rebound = valve.model.compression;
  valve.stacks.compression = straight_curve(compliance, 5e6, 16e-3);
  valve.stacks.rebound = valve.stacks.compression;
  const ValveLaw law = valve_law(valve.model, valve.stacks, kReferenceOil);
  for (double q = 1e-7; q < 5e-3; q *= 3.0) {
    const double per_pressure = 0.7 * 2.0 * M_PI * 16e-3 * compliance * std::sqrt(2.0 / 860.0);
    EXPECT_NEAR(drop_at(law, q) / std::pow(q / per_pressure, 2.0 / 3.0), 1.0, 1e-7) << q;  // table tolerance
    EXPECT_EQ(state_at(law, drop_at(law, q)).carrier, Carrier::Stack);
  }
}

TEST(ValveReference, OpenPortsAreOneOrifice) {
  ValveModel model;
  const flow::Orifice ports = flow::round_holes(4, 4e-3, 8e-3, {.law = flow::Discharge::Law::ShortTube});
  model.compression.ports = ports;
  model.rebound.ports = ports;
  const ValveLaw law = valve_law(model, {}, kReferenceOil);
  for (double drop = 0.01; drop < 1e7; drop *= 2.7) {
    EXPECT_NEAR(flow_at(law, drop).q / flow::orifice_flow(ports, kReferenceOil, drop).q, 1.0, 2e-7)
        << drop;  // table
    EXPECT_EQ(state_at(law, drop).carrier, Carrier::Port);
    EXPECT_EQ(state_at(law, drop).port_drop, drop);
  }
}

TEST(ValveReference, PreloadHoldsUntilItOpens) {
  TestValve valve = benchmark_valve();
  valve.stacks.compression = straight_curve(3.729663e-9, 5e6, 16e-3, 0.3e6);
  const ValveLaw law = valve_law(valve.model, valve.stacks, kReferenceOil);
  const flow::Passage bleed = valve.model.bleeds[0].passage;
  for (const double drop : {1e3, 1e5, 0.299e6})
    EXPECT_NEAR(flow_at(law, drop).q / flow::flow_through(bleed, kReferenceOil, drop).q, 1.0, 1e-7) << drop;
  EXPECT_GT(flow_at(law, 0.31e6).q, 1.02 * flow::flow_through(bleed, kReferenceOil, 0.31e6).q);
}

// a preloaded stack without any bleed passes nothing below its opening; the law must step, not invent a flow
TEST(ValveReference, ASealedValveStepsToItsOpeningPressure) {
  TestValve valve = benchmark_valve();
  valve.model.bleeds.clear();
  valve.stacks.compression = straight_curve(3.729663e-9, 5e6, 16e-3, 0.3e6);
  const ValveLaw law = valve_law(valve.model, valve.stacks, kReferenceOil);
  EXPECT_EQ(flow_at(law, 0.2999e6).q, 0.0);
  EXPECT_NEAR(drop_at(law, 1e-9) / 0.3e6, 1.0, 1e-3);
  EXPECT_EQ(drop_at(law, 0.0), 0.0);
  EXPECT_EQ(state_at(law, 0.2e6).carrier, Carrier::Nothing);
}

TEST(ValveReference, NotchesPassBothWaysThroughTheirOwnPorts) {
  TestValve valve = benchmark_valve();
  valve.model.bleeds.clear();
  const flow::Passage notch = flow::notch_opening(
      {.n_notches = 2, .width = 3e-3, .thickness = 0.2e-3, .discharge = flow::fixed_discharge(0.7)});
  valve.model.compression.ports->area = 2e-6;  // tight, so that the row matters
  valve.model.compression.face_bleeds = {notch};
  // rebound blocked but for the way back through the compression ports
  valve.model.rebound = {};
  valve.stacks.rebound.reset();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kReferenceOil);
  const std::array<flow::Passage, 2> row{*valve.model.compression.ports, notch};
  for (const double drop : {10.0, 1e4, 1e6}) {
    EXPECT_NEAR(flow_at(law, -drop).q / -flow::series_flow(row, kReferenceOil, drop).q, 1.0, 2e-7)
        << drop;  // table
    EXPECT_GT(flow_at(law, drop).q, flow::series_flow(row, kReferenceOil, drop).q);
    EXPECT_EQ(state_at(law, -drop).carrier, Carrier::Bleed);
  }
}

TEST(ValveReference, ASeatBelowTheClampBleedsBothWays) {
  TestValve valve = benchmark_valve();
  valve.model.bleeds.clear();
  valve.model.compression.ports.reset();
  valve.model.rebound = {};
  valve.stacks.compression = straight_curve(3.729663e-9, 5e6, 16e-3, 0.0, 0.02e-3);
  valve.stacks.rebound.reset();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kReferenceOil);
  const flow::Curtain curtain{.seat_radius = 16e-3, .discharge = flow::fixed_discharge(0.7)};
  EXPECT_NEAR(flow_at(law, -1e4).q / -flow::curtain_flow(curtain, kReferenceOil, 0.02e-3, 1e4).q, 1.0, 1e-7);
}

TEST(ValveReference, PortsChokeTheStackWhereTheyTakeHalfTheDrop) {
  const TestValve valve = benchmark_valve();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kReferenceOil);
  const double drop = choke_drop(law.compression);
  const ValveState state = state_at(law, drop);
  EXPECT_NEAR(state.port_drop / state.pocket, 1.0, 1e-6);
  // equal coefficients in a row: the drops are equal where the areas are
  EXPECT_NEAR(2 * M_PI * 16e-3 * state.lift / 120e-6, 1.0, 1e-6);
  EXPECT_EQ(state_at(law, 0.98 * drop).carrier, Carrier::Stack);
  EXPECT_EQ(state_at(law, 1.02 * drop).carrier, Carrier::Port);
  EXPECT_TRUE(std::isinf(choke_drop(DirectionLaw{})));
}

TEST(ValveReference, BeyondTheTableGoesOnAndSaysSo) {
  TestValve valve = benchmark_valve();
  valve.stacks.compression = straight_curve(3.729663e-9, 0.1e6, 16e-3);
  const ValveLaw law = valve_law(valve.model, valve.stacks, kReferenceOil);
  const double end = largest_drop(law.compression);
  const double q = 1.5 * largest_flow(law.compression);
  EXPECT_FALSE(state_at(law, 0.999 * end).beyond_table);
  EXPECT_TRUE(state_at(law, drop_at(law, q)).beyond_table);
  EXPECT_NEAR(flow_at(law, drop_at(law, q)).q / q, 1.0, 1e-14);
}

TEST(ValveReference, TheStacksTroubleIsTheLaws) {
  TestValve valve = benchmark_valve();
  valve.stacks.compression->outcome = {.status = Status::OutOfRange, .note = "slopes beyond the theory"};
  const ValveLaw law = valve_law(valve.model, valve.stacks, kReferenceOil);
  EXPECT_EQ(law.compression.outcome.status, Status::OutOfRange);
  EXPECT_EQ(law.compression.outcome.note, "slopes beyond the theory");
  EXPECT_TRUE(law.rebound.outcome.ok());
}

}  // namespace
}  // namespace shimwright::valve
