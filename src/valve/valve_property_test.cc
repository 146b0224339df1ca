#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "valve/test_valves.h"
#include "valve/valve.h"

namespace shimwright::valve {
namespace {

constexpr oil::Liquid kThickerOil{.density = 860.0, .viscosity = 0.012};

double between(double low, double high) {
  return low * std::pow(high / low, *rc::gen::inRange(0, 1000) / 1000.0);
}

DirectionModel any_direction() {
  const bool bends = *rc::gen::arbitrary<bool>();
  const flow::Discharge discharge =
      bends ? flow::Discharge{.law = flow::Discharge::Law::ShortTube} : flow::fixed_discharge(0.7);
  DirectionModel direction{
      .ports = flow::round_holes(*rc::gen::inRange(2, 8), between(2e-3, 6e-3), 8e-3, discharge),
      .stack = any_stack()};
  if (*rc::gen::arbitrary<bool>()) direction.land_width = between(0.2e-3, 1e-3);
  if (*rc::gen::arbitrary<bool>())
    direction.face_bleeds = {
        flow::Notches{.n_notches = 2, .width = 2e-3, .thickness = between(0.1e-3, 0.3e-3)}};
  return direction;
}

plate::LiftCurve any_curve() {
  const double compliance = between(5e-11, 2e-8);
  switch (*rc::gen::inRange(0, 3)) {
    case 0:
      return straight_curve(compliance, 20e6, 16e-3);
    case 1:
      return straight_curve(compliance, 20e6, 16e-3, between(1e3, 1e6));
    default:
      return stiffening_curve(compliance, 20e6, 16e-3);
  }
}

TestValve any_valve() {
  TestValve valve;
  valve.model.compression = any_direction();
  valve.model.rebound = any_direction();
  valve.model.bleeds = {{.passage = flow::Needle{.bore_diameter = 3e-3,
                                                 .half_angle = 15 * std::numbers::pi / 180,
                                                 .pitch = 1e-3,
                                                 .clicks_per_turn = 8,
                                                 .clicks = static_cast<double>(*rc::gen::inRange(0, 25))},
                         .rebound = *rc::gen::arbitrary<bool>()}};
  if (*rc::gen::arbitrary<bool>())
    valve.model.leakage =
        flow::AnnularGap{.diameter = 36e-3, .clearance = between(5e-6, 4e-5), .length = 10e-3};
  valve.stacks = {any_curve(), any_curve()};
  return valve;
}

/// The compression law at one pocket pressure straight from the elements: no table.
struct DirectPoint {
  double drop, q, q_stack;
};

DirectPoint direct_point(const TestValve& valve, double pocket) {
  const DirectionModel& own = valve.model.compression;
  const plate::LiftCurve& curve = *valve.stacks.compression;
  const flow::Curtain curtain{.seat_radius = curve.seat_radius,
                              .arc_fraction = curve.arc_fraction,
                              .land_width = own.land_width,
                              .discharge = own.curtain_discharge};
  const double q_stack = flow::curtain_flow(curtain, kThickerOil, plate::lift_at(curve, pocket), pocket).q;
  const double q_ports = q_stack + flow::parallel_flow(own.face_bleeds, kThickerOil, pocket).q;
  const double drop = pocket + flow::orifice_drop(*own.ports, kThickerOil, q_ports);
  double q = q_ports;
  for (const Bleed& bleed : valve.model.bleeds) q += flow::flow_through(bleed.passage, kThickerOil, drop).q;
  if (valve.model.leakage) q += flow::gap_flow(*valve.model.leakage, kThickerOil, drop).q;
  if (!valve.model.rebound.face_bleeds.empty()) {
    const std::vector<flow::Passage> row{*valve.model.rebound.ports, valve.model.rebound.face_bleeds[0]};
    q += flow::series_flow(row, kThickerOil, drop).q;
  }
  return {drop, q, q_stack};
}

RC_GTEST_PROP(ValveLaw, TableIsTheElementsToAMillionth, ()) {
  const TestValve valve = any_valve();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kThickerOil);
  for (int i = 0; i < 50; ++i) {
    const DirectPoint direct = direct_point(valve, between(1.0, 19e6));
    if (direct.drop > largest_drop(law.compression)) continue;  // tight ports: past LawOptions::drop_max
    const ValveState state = state_at(law, direct.drop);
    RC_ASSERT(std::abs(state.q - direct.q) < 1e-6 * std::max(direct.q, 1e-9));  // as LawOptions says
    // the split is tabled a thousand times coarser than the flow
    RC_ASSERT(std::abs(state.q_stack - direct.q_stack) < 1e-3 * std::max(direct.q, 1e-9));
  }
}

RC_GTEST_PROP(ValveLaw, IsPassiveAndNeverFalls, ()) {
  const TestValve valve = any_valve();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kThickerOil);
  double last = -1.0;
  for (double drop = -3e7; drop < 3e7; drop += 3.1e4) {
    const flow::FlowPoint point = flow_at(law, drop);
    RC_ASSERT(point.q * drop >= 0.0);
    RC_ASSERT(point.q >= last);
    RC_ASSERT(point.dq_ddp >= 0.0);
    last = point.q;
  }
}

RC_GTEST_PROP(ValveLaw, DropIsTheInverseOfFlow, ()) {
  const TestValve valve = any_valve();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kThickerOil);
  for (int i = 0; i < 50; ++i) {
    const double q = between(1e-9, 2e-2) * (*rc::gen::arbitrary<bool>() ? 1.0 : -1.0);
    const double drop = drop_at(law, q);
    // rounding, times the steepness of a stack that has just opened
    if (std::isfinite(drop)) RC_ASSERT(std::abs(flow_at(law, drop).q / q - 1.0) < 1e-8);
  }
}

RC_GTEST_PROP(ValveLaw, SlopeIsTheDerivativeOfTheTable, ()) {
  const TestValve valve = any_valve();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kThickerOil);
  for (int i = 0; i < 20; ++i) {
    const double drop = between(1.0, 1e7);
    const double h = 1e-6 * drop;
    const double up = (flow_at(law, drop + h).q - flow_at(law, drop).q) / h;
    const double down = (flow_at(law, drop).q - flow_at(law, drop - h).q) / h;
    const double slope = flow_at(law, drop).dq_ddp;
    // between the one-sided slopes; 1e-4 for the table's own bends between nodes
    RC_ASSERT(slope <= std::max(up, down) * (1 + 1e-4) + 1e-18);
    RC_ASSERT(slope >= std::min(up, down) * (1 - 1e-4) - 1e-18);
  }
}

RC_GTEST_PROP(ValveLaw, MirroredValveHasTheMirroredLaw, ()) {
  TestValve valve = any_valve();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kThickerOil);
  std::swap(valve.model.compression, valve.model.rebound);
  std::swap(valve.stacks.compression, valve.stacks.rebound);
  for (Bleed& bleed : valve.model.bleeds) std::swap(bleed.compression, bleed.rebound);
  const ValveLaw mirrored = valve_law(valve.model, valve.stacks, kThickerOil);
  for (double drop = 1.0; drop < 2e7; drop *= 2.3) {
    RC_ASSERT(flow_at(law, drop).q == -flow_at(mirrored, -drop).q);
    RC_ASSERT(flow_at(law, -drop).q == -flow_at(mirrored, drop).q);
  }
}

RC_GTEST_PROP(ValveLaw, PartsAddUpToTheWhole, ()) {
  const TestValve valve = any_valve();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kThickerOil);
  for (double drop = 1.0; drop < 1e7; drop *= 2.3) {
    const ValveState state = state_at(law, drop);
    RC_ASSERT(std::abs(state.q_stack + state.q_bleed + state.q_leakage - state.q) <= 1e-15 * state.q);
    RC_ASSERT(std::abs(state.pocket + state.port_drop - drop) <= 1e-15 * drop);
    RC_ASSERT(state.q_stack >= 0.0);
    RC_ASSERT(state.q_bleed >= 0.0);
    RC_ASSERT(state.port_drop >= 0.0);
  }
}

RC_GTEST_PROP(ValveLaw, EachClickOutPassesNoLess, ()) {
  TestValve valve = any_valve();
  auto& needle = std::get<flow::Needle>(valve.model.bleeds[0].passage);
  double last = 0.0;
  for (needle.clicks = 0; needle.clicks <= 40; needle.clicks += 10) {
    const double q = flow_at(valve_law(valve.model, valve.stacks, kThickerOil), 1e5).q;
    RC_ASSERT(q >= last * (1 - 1e-6));  // once the bore is open nothing changes, but for the table
    last = q;
  }
}

// dimensional analysis: with fixed coefficients and no leakage, k times the density at the same drop passes
// 1 / sqrt(k) times the flow
TEST(ValveLaw, FlowGoesWithTheRootOfDensity) {
  const TestValve valve = benchmark_valve();
  const ValveLaw light = valve_law(valve.model, valve.stacks, {.density = 800.0, .viscosity = 0.01});
  const ValveLaw heavy = valve_law(valve.model, valve.stacks, {.density = 3200.0, .viscosity = 0.05});
  for (double drop = 1.0; drop < 1e7; drop *= 2.3)
    EXPECT_NEAR(flow_at(light, drop).q / flow_at(heavy, drop).q, 2.0, 1e-6)
        << drop;  // table tolerance, twice
}

TEST(ValveLaw, LaminarLeakageAloneIsLinear) {
  ValveModel model;
  model.leakage = flow::AnnularGap{.diameter = 36e-3, .clearance = 25e-6, .length = 10e-3};
  const ValveLaw law = valve_law(model, {}, kThickerOil);
  for (const double drop : {-1e6, -1e-5, 1e-4, 1.0, 3e4, 4e7})
    EXPECT_NEAR(flow_at(law, drop).q / flow::gap_flow(*model.leakage, kThickerOil, drop).q, 1.0, 1e-12)
        << drop;
  EXPECT_NEAR(flow_at(law, 0.0).dq_ddp / flow::gap_flow(*model.leakage, kThickerOil, 0.0).dq_ddp, 1.0, 1e-12);
}

TEST(ValveLaw, TellsItsTableErrorAndMeetsTheToleranceAskedFor) {
  const TestValve valve = benchmark_valve();
  for (const double tolerance : {1e-3, 1e-5, 1e-7}) {
    const ValveLaw law = valve_law(valve.model, valve.stacks, kThickerOil, {.tolerance = tolerance});
    EXPECT_LE(law.compression.table_error, 2.0 * tolerance);  // sweep and bleeds each
  }
}

}  // namespace
}  // namespace shimwright::valve
