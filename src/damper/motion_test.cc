#include "damper/motion.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "damper/test_motions.h"

namespace shimwright::damper {
namespace {

const SineDrive kThreeCycles{.middle = 0.1, .amplitude = 0.05, .frequency = 2.0, .n_cycles = 3};

bool has(const MotionResult& result, MotionEventKind kind, bool rising) {
  return std::any_of(result.events.begin(), result.events.end(),
                     [&](const MotionEvent& e) { return e.kind == kind && e.rising == rising; });
}

TEST(Motion, SamplesAreEvenAndEndWithTheRun) {
  const MotionResult result = run_motion(sprung_cartridge(), kThreeCycles, {.samples_per_cycle = 50});
  ASSERT_EQ(result.samples.size(), 151u);
  for (std::size_t i = 0; i < result.samples.size(); ++i) {
    EXPECT_NEAR(result.samples[i].time, 0.01 * static_cast<double>(i), 1e-12);
    const double travel = 0.1 - 0.05 * std::cos(4 * std::numbers::pi * result.samples[i].time);
    EXPECT_NEAR(result.samples[i].travel, travel, 1e-12);
    const MotionSample& s = result.samples[i];
    EXPECT_NEAR(s.force, s.force_hydraulic + s.force_friction + s.force_lock + s.force_air, 1e-9);
  }
  EXPECT_TRUE(run_motion(sprung_cartridge(), kThreeCycles, {.samples_per_cycle = 0}).samples.empty());
}

TEST(Motion, PeaksAreThoseOfTheSamplesOrBeyond) {
  const MotionResult result = run_motion(sprung_cartridge(), kThreeCycles);
  const CycleFigures& cycle = result.cycles[1];
  for (const MotionSample& s : result.samples) {
    if (s.time < cycle.t_begin || s.time > cycle.t_end) continue;
    EXPECT_LE(s.force, cycle.peak_compression.value * (1 + 1e-4));
    EXPECT_GE(s.force, cycle.peak_rebound.value * (1 + 1e-4));
    EXPECT_GE(std::min({s.p_compression, s.p_rod, s.p_reservoir}), cycle.lowest.value * (1 - 1e-4));
  }
  EXPECT_NEAR(cycle.speed_compression, 0.05 * 4 * std::numbers::pi, 1e-3);
  EXPECT_LT(result.settled, 1e-3);
}

TEST(Motion, ValvesReverseTwiceInACycle) {
  const MotionResult result = run_motion(sprung_cartridge(), kThreeCycles);
  int n = 0;
  for (const MotionEvent& e : result.events)
    if (e.kind == MotionEventKind::PistonValveReverses && e.time > 0.5 && e.time <= 1.0) ++n;
  EXPECT_EQ(n, 2);
  EXPECT_TRUE(run_motion(sprung_cartridge(), kThreeCycles, {.keep_events = false}).events.empty());
}

TEST(Motion, StoppingKeepsTheCyclesThatAreFinished) {
  double told = 0.0;
  const MotionOptions options{.proceed = [&](double done) {
    told = done;
    return done < 0.6;
  }};
  const MotionResult result = run_motion(sprung_cartridge(), kThreeCycles, options);
  EXPECT_TRUE(result.stopped);
  EXPECT_EQ(result.cycles.size(), 2u);
  EXPECT_GE(told, 0.6);
  EXPECT_GE(result.samples.size(), 400u);
}

TEST(Motion, AValveBeyondItsTableIsSaid) {
  MotionModel model = linear_damper(2e-11, 30e6, 1.0);
  model.laws[0].laws.piston = linear_law(2e-11, 8e6);
  const SineDrive drive{.middle = 0.05, .amplitude = 0.02, .frequency = 2.0, .n_cycles = 1};
  const MotionResult result = run_motion(model, drive);
  EXPECT_EQ(result.outcome.status, Status::OutOfRange);
  EXPECT_GT(result.outcome.residual, 0.0);
}

TEST(Motion, OilThatWouldBePulledStopsTheRunAndSaysWhy) {
  MotionModel model = linear_damper(2e-11, 1e6, 1.0);  // no air may come out
  const SineDrive drive{.middle = 0.05, .amplitude = 0.02, .frequency = 2.0, .n_cycles = 1};
  const MotionResult result = run_motion(model, drive);
  EXPECT_EQ(result.outcome.status, Status::Stalled);
  EXPECT_NE(result.outcome.note.find("no air out of its oil"), std::string::npos);
}

TEST(Motion, ARodDrivenBeyondItsTravelIsSaid) {
  const SineDrive drive{.middle = 0.1, .amplitude = 0.102, .frequency = 1.0, .n_cycles = 1};
  const MotionResult result = run_motion(sprung_cartridge(), drive, {.samples_per_cycle = 0});
  EXPECT_EQ(result.outcome.status, Status::OutOfRange);
  EXPECT_NEAR(result.outcome.residual, 0.01, 1e-4);
  EXPECT_NE(result.outcome.note.find("travel"), std::string::npos);
}

TEST(Motion, OilColderThanItsLawsIsSaid) {
  MotionModel model = crowded_cartridge();
  model.temperature = 280.0;
  EXPECT_EQ(run_motion(model, kThreeCycles).outcome.status, Status::OutOfRange);
}

TEST(Motion, OilWarmerThanItsLawsIsSaid) {
  MotionModel model = crowded_cartridge();
  model.temperature = 333.0;
  model.heat = HeatModel{.capacity = 10.0};
  EXPECT_EQ(run_motion(model, kThreeCycles).outcome.status, Status::OutOfRange);
}

TEST(Motion, AirComesOutWhereTheStrokeRunsAChamberShort) {
  MotionModel model = motion_of(cartridge());
  model.reservoir.gas = GasCushion{.pressure = 0.11e6, .volume = 1e-3};
  const SineDrive fast{.middle = 0.1, .amplitude = 0.05, .frequency = 16.0, .n_cycles = 2};
  const MotionResult result = run_motion(model, fast);
  ASSERT_NE(result.outcome.status, Status::Stalled);
  const CycleFigures& cycle = last_cycle(result);
  EXPECT_GT(cycle.released_air, 1e-9);
  EXPECT_LT(cycle.lowest.value, model.oil.release_pressure);
  EXPECT_GT(cycle.lowest.value,
            0.5 * model.oil.release_pressure);  // it stands near release, as the steady model has it
  EXPECT_TRUE(has(result, MotionEventKind::CompressionAtRelease, false) ||
              has(result, MotionEventKind::RodAtRelease, false));
  // how quick air comes out is a choice; it does not set the peak force
  for (const double quick : {0.5e-3, 2e-3}) {
    MotionModel other = model;
    other.oil.release_time = quick;
    const CycleFigures there = last_cycle(run_motion(other, fast));
    EXPECT_NEAR(there.peak_compression.value / cycle.peak_compression.value, 1.0, 0.02) << quick;
  }
}

TEST(Motion, OilBehindTheFreePistonMayRunShortToo) {
  // a heavy piston on a triangle's corner at 5.5 m/s cannot follow; its oil lets air go instead of being
  // pulled
  MotionModel model = sprung_cartridge();
  model.reservoir.piston->mass = 0.2;
  const MotionResult result =
      run_motion(model, TriangleDrive{.middle = 0.1, .amplitude = 0.056, .frequency = 24.0, .n_cycles = 2});
  EXPECT_NE(result.outcome.status, Status::Stalled) << result.outcome.note;
  double lowest = 1e9;
  for (const MotionSample& s : result.samples) lowest = std::min(lowest, s.p_reservoir);
  EXPECT_LT(lowest, model.oil.release_pressure);
  EXPECT_GT(lowest, 0.0);
  EXPECT_LT(result.cycles.at(0).energy_error, 1e-4);
}

TEST(Motion, AFreePistonAtItsStopIsNoticedAndHeld) {
  MotionModel model = sprung_cartridge();
  model.reservoir.piston->travel_out = 20e-3;  // 10.6 of the rod's 17 cm3
  model.compression.trapped_air = 8e-6;        // that gives way instead
  const MotionResult result = run_motion(model, kThreeCycles);
  EXPECT_TRUE(has(result, MotionEventKind::FreePistonAtOuterStop, true));
  EXPECT_TRUE(has(result, MotionEventKind::FreePistonAtOuterStop, false));
  EXPECT_NEAR(last_cycle(result).piston_travel_max, 20e-3, 0.2e-3);  // the stop gives by the oil's force
  EXPECT_LT(last_cycle(result).energy_error, 1e-4);
}

TEST(Motion, APortThatTheFreePistonUncoversLetsOilOut) {
  MotionModel model = sprung_cartridge();
  model.reservoir.piston->port = ReliefPort{.position = 25e-3, .area = 5e-6};
  const MotionResult result = run_motion(model, kThreeCycles);
  EXPECT_TRUE(has(result, MotionEventKind::PortUncovered, true));
  EXPECT_GT(result.cycles[0].oil_lost, 0.1e-6);
  EXPECT_LT(result.cycles[2].oil_lost, result.cycles[0].oil_lost);  // less is left to lose
  // what was lost is missing at the end: the piston comes back further
  const double lost = result.cycles[0].oil_lost + result.cycles[1].oil_lost + result.cycles[2].oil_lost;
  model.reservoir.piston->port.reset();
  const MotionResult whole = run_motion(model, kThreeCycles);
  EXPECT_NEAR((whole.samples.back().piston_travel - result.samples.back().piston_travel) *
                  model.reservoir.piston->area / lost,
              1.0, 0.02);
}

// drop = rho/2 (A v / (cd a))^2 on the way in, nothing on the way out
TEST(Motion, AShortBumpInALongRestIsNotLeaptOver) {
  SampledDrive drive;
  for (int i = 0; i <= 4000; ++i) {
    const double t = 0.0025 * i;
    const double s = (t - 5.0) / 0.02;
    drive.time.push_back(t);
    drive.travel.push_back(0.1 +
                           (s > 0.0 && s < 1.0 ? 0.01 * std::pow(std::sin(std::numbers::pi * s), 2) : 0.0));
  }
  const MotionResult result = run_motion(sprung_cartridge(), drive);
  EXPECT_NEAR(result.cycles.at(0).speed_compression, 0.01 * std::numbers::pi / 0.02,
              0.02);  // rounded by sampling
  EXPECT_GT(result.cycles[0].peak_compression.value, 150.0);
}

TEST(Motion, BothPlateTheoriesDriveTheMotion) {
  TestDamper damper = cartridge();
  plate::Stack stack;
  for (const double radius : {9e-3, 7.5e-3, 6e-3})
    stack.discs.push_back({.outer_radius = radius, .bore_radius = 3e-3, .thickness = 0.15e-3});
  stack.clamp_radius = 4.5e-3;
  stack.load.inner_radius = 4.5e-3;
  stack.load.outer_radius = stack.seat.radius = 8e-3;
  for (valve::DirectionModel* way :
       {&damper.model.piston_valve.compression, &damper.model.piston_valve.rebound,
        &damper.model.foot_valve->compression, &damper.model.foot_valve->rebound})
    way->stack = stack;
  double energy[2] = {};
  for (const Theory theory : {Theory::Linear, Theory::Large}) {
    plate::Workspace workspace;
    MotionModel model = sprung_cartridge();
    model.laws[0].laws = solve_damper(damper.model, damper.liquid, 1.0, {.theory = theory}, workspace).laws;
    const MotionResult result = run_motion(model, kThreeCycles);
    EXPECT_TRUE(result.outcome.ok()) << result.outcome.note;
    energy[theory == Theory::Large] = last_cycle(result).energy_in;
  }
  EXPECT_GT(energy[1], 1.001 * energy[0]);  // a disc that stretches opens less
  EXPECT_LT(energy[1], 1.5 * energy[0]);
}

TEST(Motion, AnOilLockMakesThePressureOfItsOpening) {
  MotionModel model = sprung_cartridge();
  model.restrictions = {
      {.start = 0.12, .end = 0.15, .area = 300e-6, .opening_start = 40e-6, .opening_end = 10e-6}};
  const MotionResult result = run_motion(model, kThreeCycles);
  EXPECT_TRUE(has(result, MotionEventKind::RestrictionEntered, true));
  double highest = 0.0;
  for (const MotionSample& s : result.samples) {
    if (s.time >= 1.0) highest = std::max(highest, s.p_lock);
    if (s.travel <= 0.12 || s.speed <= 0.0) {
      EXPECT_EQ(s.force_lock, 0.0);
      continue;
    }
    const double opening = 40e-6 - 30e-6 * (s.travel - 0.12) / 0.03;
    const double drop = 0.5 * 860.0 * std::pow(300e-6 * s.speed / (0.7 * opening), 2);
    EXPECT_NEAR(s.p_lock, 101325.0 + drop, 1e-6 * drop + 1e-6);
    EXPECT_NEAR(s.force_lock, 300e-6 * drop, 1e-6 * (1 + s.force_lock));
  }
  EXPECT_GE(last_cycle(result).lock_pressure, highest * (1 - 1e-3));
  EXPECT_GT(highest, 120e3);
}

TEST(Motion, APositionBleedTakesForceWhereItIsOpen) {
  const MotionModel closed = sprung_cartridge();
  MotionModel model = closed;
  model.position_bleed = PositionBleed{.travel = {0.09, 0.1}, .area = {0.0, 6e-6}};
  const MotionResult with = run_motion(model, kThreeCycles), without = run_motion(closed, kThreeCycles);
  // on the way in: at 0.08 m nothing, at 0.12 m less
  const auto at = [](const MotionResult& r, double travel) {
    std::size_t i = 400;
    while (r.samples[i].travel < travel) ++i;
    return r.samples[i].p_compression - r.samples[i].p_rod;
  };
  EXPECT_NEAR(at(with, 0.08) / at(without, 0.08), 1.0, 1e-3);
  EXPECT_LT(at(with, 0.12), 0.9 * at(without, 0.12));
}

// the plate's swept volume passes without a drop: the rod moves further by volume / ring before pressure
// builds
TEST(Motion, AFloatingValveOpensByItsSweptVolume) {
  MotionModel model = linear_damper(2e-11, 30e6, 1.0);
  const StepDrive drive{.from = 0.02, .to = 0.03, .rise_time = 0.1};
  const auto travel_to_pressure = [&] {
    for (const MotionSample& s : run_motion(model, drive, {.samples_per_cycle = 5000}).samples)
      if (s.p_compression - s.p_rod > 50e3) return s.travel - 0.02;
    return 0.0;
  };
  const double without = travel_to_pressure();
  model.float_valve = FloatingValve{
      .swept_area = 250e-6, .gap = 1e-3, .opening_drop = 5e3, .full_drop = 12e3, .settle_time = 1e-4};
  const double ring = model.piston_area - model.rod_area;
  EXPECT_GT(without, 0.0);
  EXPECT_NEAR((travel_to_pressure() - without) * ring / 0.25e-6, 1.0, 0.03);  // 12 kPa pass 2 % of it beside
}

TEST(Motion, AFloatingValveThatShutsLateLetsOilBackAtTheTurn) {
  MotionModel model = motion_of(cartridge());
  model.reservoir.gas = GasCushion{.pressure = 0.5e6, .volume = 1e-3};
  const auto drop_after_turn = [&](double settle_time) {
    model.float_valve = FloatingValve{.swept_area = 250e-6,
                                      .gap = 1e-3,
                                      .opening_drop = 5e3,
                                      .full_drop = 12e3,
                                      .settle_time = settle_time};
    const MotionResult result = run_motion(model, kThreeCycles);
    return result.samples[400 + 104].p_rod - result.samples[400 + 104].p_compression;  // 10 ms on
  };
  EXPECT_LT(drop_after_turn(20e-3), 0.8 * drop_after_turn(1e-4));
}

TEST(Motion, OuterAirPushesWithItsPolytropicForce) {
  MotionModel model = sprung_cartridge();
  model.outer_air = OuterAir{.area = 1452.201e-6, .volume = 1452.201e-6 * 0.14, .exponent = 1.2};
  model.travel = 0.12;
  model.compression.volume = model.piston_area * 0.14;
  const MotionResult result =
      run_motion(model, SineDrive{.middle = 0.06, .amplitude = 0.06, .frequency = 1.0, .n_cycles = 1});
  EXPECT_NEAR(result.samples[100].force_air, 1372.917, 1372.917e-5);  // SP-06, at 120 mm
  EXPECT_NEAR(result.samples[0].force_air, 0.0, 1e-9);
}

TEST(Motion, AnOpenBathsAirPushesTheLegToo) {
  MotionModel model = motion_of(cartridge());
  model.reservoir.gas =
      GasCushion{.pressure = 101325.0, .volume = 300e-6, .exponent = 1.2, .travel_area = 1000e-6};
  const MotionResult result =
      run_motion(model, SineDrive{.middle = 0.1, .amplitude = 0.09, .frequency = 0.5, .n_cycles = 1});
  const MotionSample& s = result.samples[100];
  const double volume = 300e-6 - (1000e-6 + model.rod_area) * 0.19;
  const double over = 101325.0 * (std::pow(300e-6 / volume, 1.2) - 1.0);
  EXPECT_NEAR(s.force_air / (1000e-6 * over), 1.0,
              2e-3);  // the cartridge still holds a little of the rod's oil
  EXPECT_LT(result.cycles[0].energy_error, 1e-4);
}

TEST(Motion, WhatCannotBeComputedIsNamed) {
  const auto first = [](auto change) {
    MotionModel model = crowded_cartridge();
    change(model);
    const Problems problems = validate(model);
    return problems.empty() ? std::string() : problems.front().field;
  };
  EXPECT_EQ(first([](MotionModel&) {}), "");
  EXPECT_EQ(first([](MotionModel& m) { m.piston_area = 0; }), "piston_area");
  EXPECT_EQ(first([](MotionModel& m) { m.rod_area = 1; }), "rod_area");
  EXPECT_EQ(first([](MotionModel& m) { m.oil.air_exponent = 2; }), "oil.air_exponent");
  EXPECT_EQ(first([](MotionModel& m) { m.compression.volume = m.piston_area * 0.1; }), "compression.volume");
  EXPECT_EQ(first([](MotionModel& m) { m.rod.volume = 0; }), "rod.trapped_air");
  EXPECT_EQ(first([](MotionModel& m) { m.reservoir.gas->volume = 10e-6; }), "reservoir.gas.volume");
  EXPECT_EQ(first([](MotionModel& m) { m.reservoir.piston->mass = 0; }), "reservoir.piston.friction");
  EXPECT_EQ(first([](MotionModel& m) { m.reservoir.gas.reset(), m.reservoir.piston.reset(); }), "reservoir");
  EXPECT_EQ(first([](MotionModel& m) { m.laws.clear(); }), "laws");
  EXPECT_EQ(first([](MotionModel& m) { m.laws[1].temperature = 200; }), "laws[1].temperature");
  EXPECT_EQ(first([](MotionModel& m) { m.heat->capacity = 0; }), "heat.capacity");
  EXPECT_EQ(first([](MotionModel& m) { m.float_valve->full_drop = 0; }), "float_valve.full_drop");
  EXPECT_EQ(first([](MotionModel& m) { m.restrictions[0].opening_end = 0; }), "restrictions[0].opening_end");
  EXPECT_EQ(first([](MotionModel& m) { m.position_bleed->travel = {0.1, 0.1, 0.2}; }),
            "position_bleed.travel");
  EXPECT_EQ(first([](MotionModel& m) { m.outer_air->volume = 1e-6; }), "outer_air.volume");
}

TEST(Motion, LawsOverTemperatureComeFromOneSolve) {
  TestDamper damper = cartridge();
  oil::OilModel oil;
  oil.viscosity_points = {{313.15, 15e-6}, {373.15, 3.4e-6}};
  oil.density_15 = 860.0;
  oil.expansion = 7.3e-4;
  const double temperatures[] = {293.15, 333.15};
  const auto laws = laws_over_temperature(damper.model, damper.solved.stacks, oil, temperatures);
  ASSERT_EQ(laws.size(), 2u);
  EXPECT_GT(laws[0].density, laws[1].density);
  EXPECT_GT(valve::flow_at(laws[1].laws.piston, 1e5).q, valve::flow_at(laws[0].laws.piston, 1e5).q);
}

// two thousand cycles at five thousand samples were 0.8 GB
TEST(Motion, SamplesOfTheLastCycleAloneAreThoseOfTheWholeRun) {
  const SineDrive drive{.middle = 0.1, .amplitude = 0.03, .frequency = 3.0, .n_cycles = 5};
  const MotionResult whole = run_motion(sprung_cartridge(), drive, {.samples_per_cycle = 50});
  const MotionResult last =
      run_motion(sprung_cartridge(), drive, {.samples_per_cycle = 50, .last_cycle_only = true});
  ASSERT_EQ(last.samples.size(), 51u);
  EXPECT_EQ(last.cycles.size(), 5u);
  const std::size_t before = whole.samples.size() - last.samples.size();
  for (std::size_t i = 0; i < last.samples.size(); ++i) {
    EXPECT_EQ(last.samples[i].time, whole.samples[before + i].time);
    EXPECT_EQ(last.samples[i].force, whole.samples[before + i].force);
  }
}

// a piston of 35 g without friction on its stop: ringing there was followed for 48 000 steps a cycle
TEST(Motion, AFreePistonThatReachesItsStopComesToRestThere) {
  MotionModel model = sprung_cartridge();
  model.reservoir.piston->mass = 0.035;
  model.reservoir.piston->friction = 0.0;
  model.reservoir.piston->travel_out = 20e-3;  // the rod wants 23
  const SineDrive drive{.middle = 0.09, .amplitude = 0.08, .frequency = 1.0, .n_cycles = 3};
  model.oil.bulk_modulus = 1.5e9;
  model.compression.trapped_air = 6e-6;  // what the stop holds back is squeezed
  const MotionResult result = run_motion(model, drive);
  ASSERT_EQ(result.cycles.size(), 3u);
  EXPECT_GT(result.cycles.back().piston_travel_max, 20e-3);
  EXPECT_LT(result.n_steps, 3 * 4000);
  for (const CycleFigures& cycle : result.cycles) EXPECT_LT(cycle.energy_error, 1e-4);
}

}  // namespace
}  // namespace shimwright::damper
