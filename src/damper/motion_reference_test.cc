#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "damper/motion.h"
#include "damper/motion_elements.h"
#include "damper/test_motions.h"

// Closed forms, and the cases of the collection named in each test (their numbers as there).

namespace shimwright::damper {
namespace {

constexpr double kPi = std::numbers::pi;

/// Runs a drive that must run to its end.
MotionResult run(const MotionModel& model, const Drive& drive, const MotionOptions& options = {}) {
  const MotionResult result = run_motion(model, drive, options);
  if (result.outcome.status == Status::Stalled) throw std::runtime_error(result.outcome.note);
  return result;
}

/// Nearly incompressible and tight, so that the steady closed forms hold.
void make_stiff(MotionModel& model) {
  model.oil.bulk_modulus = 1e14;
  model.oil.bunsen = 0.0;
}

// area of a linear damper's loop: pi c w X^2 (RD-12 in form); c = (A_p - A_r)^2 / G
TEST(MotionReference, ALinearDampersLoopIsPiCWXSquared) {
  const double conductance = 2e-11;
  MotionModel model = linear_damper(conductance, 30e6, 1.0);
  make_stiff(model);
  const double ring = model.piston_area - model.rod_area;
  const double c = ring * ring / conductance;
  const SineDrive drive{.middle = 0.05, .amplitude = 0.02, .frequency = 1.5, .n_cycles = 2};
  const MotionResult result = run(model, drive);
  ASSERT_TRUE(result.outcome.ok()) << result.outcome.note;
  const double w = 2 * kPi * drive.frequency;
  const double loop = kPi * c * w * drive.amplitude * drive.amplitude;
  EXPECT_NEAR(last_cycle(result).energy_in / loop, 1.0, 1e-5);  // tolerance 1e-6 a step, added up
  EXPECT_NEAR(last_cycle(result).heat / loop, 1.0, 1e-5);
  EXPECT_LT(last_cycle(result).energy_error, 1e-5);
}

// RD-13: a quadratic damper's loop is (8/3) c_q w^2 X^3, c_q = rho (A_p - A_r)^3 / (2 (cd A)^2)
TEST(MotionReference, AnOrificesLoopIsEightThirdsOfItsCoefficient) {
  MotionModel model = motion_of(orifice_damper(36e-3, 12e-3, 4e-6, 2e6));
  model.reservoir.gas = GasCushion{.pressure = 2e6, .volume = 1e-3};
  make_stiff(model);
  model.oil.release_pressure = 0.0;
  const double ring = model.piston_area - model.rod_area;
  const double cq = 0.5 * 870.0 * std::pow(ring, 3) / std::pow(0.7 * 4e-6, 2);
  const SineDrive drive{.middle = 0.05, .amplitude = 0.01, .frequency = 2.0, .n_cycles = 2};
  const MotionResult result = run(model, drive);
  const double w = 2 * kPi * drive.frequency;
  EXPECT_NEAR(last_cycle(result).energy_in / (8.0 / 3 * cq * w * w * std::pow(drive.amplitude, 3)), 1.0,
              1e-5);
}

// QS-07: one orifice of 4 mm2, piston 36, rod 12 mm, at 0.1 m/s: drop 454 211.3 Pa, damping 410.9607 N; at
// 0.5 m/s 25 times that. Held at constant speed by a triangle.
TEST(MotionReference, ARigidOrificeAtConstantSpeedGivesTheSteadyForce) {
  for (const double speed : {0.1, 0.5}) {
    TestDamper damper = orifice_damper(36e-3, 12e-3, 4e-6, 30e6);
    MotionModel model = motion_of(damper);
    model.reservoir.gas = GasCushion{.pressure = 30e6, .volume = 1.0};  // a cubic metre: pressure stays
    make_stiff(model);
    const TriangleDrive drive{.middle = 0.05, .amplitude = 0.02, .frequency = speed / 0.08, .n_cycles = 1};
    const MotionResult result = run(model, drive);
    const MotionSample& s = result.samples[60];  // well inside the way in
    EXPECT_NEAR(s.speed, speed, 1e-12);
    const double many = std::pow(speed / 0.1, 2);
    EXPECT_NEAR((s.p_compression - s.p_rod) / (454211.3 * many), 1.0, 1e-5);
    const double gas = (30e6 - 101325.0) * model.rod_area;
    EXPECT_NEAR((s.force - gas) / (410.9607 * many), 1.0, 1e-4);  // 1e-4 of gas left in a force far larger
  }
}

// QS-01, QS-02, QS-06 as a law: curtain under a linear shim behind its ports, beside a bleed of 3 mm2.
TEST(MotionReference, AShimmedPistonAtConstantSpeedGivesTheQuasiStaticForce) {
  struct Case {
    double speed, drop;
  };
  for (const auto& [speed, drop] : {Case{.05, 28544.6}, Case{.10, 48919.6}, Case{2.0, 931407.0}}) {
    TestDamper damper;
    damper.liquid.density = 860.0;
    damper.model.chambers = {.piston_area = disc_area(46e-3), .rod_area = disc_area(12e-3)};
    damper.model.piston_valve.compression.ports = stacked(1e-3).ports;  // in the way of nothing
    damper.model.piston_valve.rebound = stacked(120e-6);
    damper.model.piston_valve.bleeds = {bore(3e-6)};
    damper.solved.stacks.piston.rebound = straight_curve(3.729663e-9, 20e6, 16e-3);
    solve(damper);
    MotionModel model = motion_of(damper);
    model.reservoir.gas = GasCushion{.pressure = 30e6, .volume = 1.0};
    make_stiff(model);
    const TriangleDrive drive{.middle = 0.05, .amplitude = 0.02, .frequency = speed / 0.08, .n_cycles = 1};
    const MotionSample s = run(model, drive).samples[160];  // on the way out
    EXPECT_NEAR(s.speed, -speed, 1e-12);
    EXPECT_NEAR((s.p_rod - s.p_compression) / drop, 1.0, 5e-4) << speed;  // the case's own tolerance
  }
}

// BM-08: K A^2 / V = 23 987.97 N/mm for 1548.805 mm2, 150 cm3, 1.5 GPa: a blocked damper is an oil spring.
// Both chambers of it here, so two columns.
TEST(MotionReference, ABlockedDamperIsAnOilSpring) {
  MotionModel model = linear_damper(1e-30, 1e5, 1.0);
  model.rod_area = 0.0;
  model.piston_area = 1548.805e-6;
  model.travel = 1e-3;
  model.laws[0].laws.foot = linear_law(1e-30);
  model.compression.volume = 150e-6;
  model.rod.volume = 300e-6;
  model.reservoir.oil.volume = 10e-6;
  const SineDrive drive{.middle = 1e-6, .amplitude = 1e-6, .frequency = 5.0, .n_cycles = 1};
  const MotionResult result = run(model, drive);
  const double rate = (result.samples[100].force - result.samples[0].force) / 2e-6;
  // a column of 150 cm3 and one of 300: 1.5 times; over 2 um the volumes change by 2e-5
  EXPECT_NEAR(rate / (1.5 * 23987.97e3), 1.0, 1e-4);
  EXPECT_NEAR(last_cycle(result).phase_lag, kPi / 2, 1e-3);
}

// BM-02, BM-06: effective modulus of oil with 1 % of air, from the pressure that a chamber really makes.
TEST(MotionReference, AirMakesTheOilAsSoftAsTheTwoPhaseLawSays) {
  struct Case {
    double exponent, pressure, modulus;
  };
  for (const auto& [exponent, pressure, modulus] :
       {Case{1.4, 0.101325e6, 1.405e7}, Case{1.4, 0.5e6, 1.899e8}, Case{1.4, 1e6, 4.832e8},
        Case{1.4, 2e6, 9.137e8}, Case{1.4, 5e6, 1.324e9}, Case{1.4, 10e6, 1.441e9},
        Case{1.0, 1e6, 5.921e8}}) {
    MotionModel model = linear_damper(1e-30, pressure, 1.0);
    model.rod_area = 0.0;
    model.laws[0].laws.foot = linear_law(1e-30);
    model.reservoir.oil.volume = 10e-6;
    model.rod.volume = 1.0;  // gives way without a force
    model.oil.air_exponent = exponent;
    // the case counts the share of air at one atmosphere
    const motion::Squeezed s = motion::squeezed_at(model.oil, pressure);
    model.compression.volume = 150e-6 * (0.99 * s.oil + 0.01 * s.air);
    model.compression.trapped_air = 0.01 * 150e-6;
    const double step = 1e-4 * model.compression.volume / model.piston_area * pressure / modulus;
    const SineDrive drive{.middle = step, .amplitude = step, .frequency = 1.0, .n_cycles = 1};
    model.travel = 0.02;
    const MotionResult result = run(model, drive, {.tolerance = 1e-9});
    const double rise = result.samples[100].p_compression - result.samples[0].p_compression;
    const double squeezed = 2 * step * model.piston_area / model.compression.volume;
    EXPECT_NEAR(rise / squeezed / modulus, 1.0, 2e-3) << pressure;  // the case's 0.1 %, and 4 digits printed
  }
}

// SP-06 in form: a polytropic reservoir follows p V^n = const over the stroke
TEST(MotionReference, TheGasReservoirIsPolytropic) {
  MotionModel model = linear_damper(1e-6, 0.5e6, 40e-6);
  make_stiff(model);
  model.reservoir.gas->exponent = 1.3;
  const SineDrive drive{.middle = 0.05, .amplitude = 0.05, .frequency = 0.1, .n_cycles = 1};
  const MotionResult result = run(model, drive);
  for (const int i : {25, 50, 100}) {
    const MotionSample& s = result.samples[i];
    const double volume = 40e-6 - model.rod_area * s.travel;
    EXPECT_NEAR(s.p_reservoir / (0.5e6 * std::pow(40e-6 / volume, 1.3)), 1.0, 1e-5) << i;
  }
}

// HY-08: 500 W for 60 s into 0.35 kg of oil at 1.9 kJ/(kg.K), nothing lost: 45.113 K. The bench makes the 500
// W.
TEST(MotionReference, WorkWarmsTheOilByItsHeatCapacity) {
  const double conductance = 2e-11;
  MotionModel model = linear_damper(conductance, 30e6, 1.0);
  make_stiff(model);
  model.heat = HeatModel{.capacity = 0.35 * 1900.0, .loss = 0.0};
  const double ring = model.piston_area - model.rod_area;
  const double c = ring * ring / conductance;
  const double amplitude = 0.02;
  const double w = std::sqrt(2 * 500.0 / c) / amplitude;  // mean power c w^2 X^2 / 2
  const int n_cycles = static_cast<int>(std::lround(60.0 * w / (2 * kPi)));
  const SineDrive drive{
      .middle = 0.05, .amplitude = amplitude, .frequency = n_cycles / 60.0, .n_cycles = n_cycles};
  const double power = 0.5 * c * std::pow(2 * kPi * drive.frequency * amplitude, 2);
  const MotionResult result = run(model, drive, {.samples_per_cycle = 0});
  EXPECT_NEAR((last_cycle(result).temperature_end - model.temperature) * 500.0 / power, 45.113, 45.113e-4);
}

TEST(MotionReference, HeatThatIsLostGivesTheUsualExponential) {
  MotionModel model = linear_damper(1.0, 5e6, 1e-3);  // no resistance
  model.temperature = 343.15;
  model.heat = HeatModel{.capacity = 300.0, .loss = 3.0, .air_temperature = 293.15};
  const StepDrive still{.from = 0.05, .to = 0.050001, .rise_time = 1.0, .hold_time = 99.0};
  const MotionResult result = run(model, still);
  EXPECT_NEAR(result.samples.back().temperature, 293.15 + 50.0 * std::exp(-1.0), 1e-4);
}

// HY-01, HY-09: gas pushes the rod out by (p - p_atm) A_r
TEST(MotionReference, AtRestTheGasPushesTheRodOut) {
  for (const auto& [rod, force] : {std::pair{12e-3, 113.0973}, std::pair{16e-3, 201.0619}}) {
    MotionModel model = linear_damper(1e-9, 1e6 + 101325.0, 1.0);
    model.rod_area = disc_area(rod);
    EXPECT_NEAR(rest_at(model, 0.0).force, force, 1e-4);
    const StepDrive still{.from = 0.0, .to = 1e-6, .rise_time = 0.1, .hold_time = 0.1};
    EXPECT_NEAR(run(model, still).samples.back().force, force, 1e-3);
  }
}

// HY-06: rod 12 mm x 60 mm displaces 6.785840 cm3, all of it into the reservoir
TEST(MotionReference, TheReservoirTakesWhatTheRodDisplaces) {
  MotionModel model = linear_damper(1e-9, 1e6, 1e-3);
  make_stiff(model);
  EXPECT_NEAR((rest_at(model, 0.06).reservoir_taken - rest_at(model, 0.0).reservoir_taken) * 1e6, 6.785840,
              1e-6);
}

// HY-05: piston 46, rod 12 mm, 1.0 MPa gauge, no foot valve: past the drop of 1.101325 MPa the rod chamber
// stands at no pressure and the force stays 1818.835 N
TEST(MotionReference, CompressionForceEndsWhereTheRodChamberIsEmpty) {
  MotionModel model = motion_of(orifice_damper(46e-3, 12e-3, 4e-6, 1.101325e6));
  model.reservoir.gas = GasCushion{.pressure = 1.101325e6, .volume = 1.0};
  model.oil.release_pressure = 100.0;  // nearly nothing
  model.oil.bunsen = 1.0;
  model.oil.saturation_pressure = 1e7;
  model.oil.release_time = 1e-5;
  const TriangleDrive drive{.middle = 0.05, .amplitude = 0.02, .frequency = 20.0, .n_cycles = 1};
  const MotionResult result = run(model, drive);
  EXPECT_NEAR(result.samples[60].force, 1818.835, 0.2);  // 1e-4
  EXPECT_LT(result.samples[60].p_rod, 100.0);
}

// AR-01 in form: no more air comes out than was dissolved, and all of it at no pressure
TEST(MotionReference, NoMoreAirComesOutThanWasDissolved) {
  MotionOil oil{.bunsen = 0.09, .saturation_pressure = 1.1e6, .release_pressure = 20e3};
  const double dissolved = 0.09 * 100e-6 * 1.1e6 / 101325.0;
  EXPECT_NEAR(dissolved * 1e6, 97.7, 0.05);  // the case
  EXPECT_GT(motion::release_rate(oil, 1e3, 0.99 * dissolved, 100e-6).rate, 0.0);
  EXPECT_EQ(motion::release_rate(oil, 1e3, dissolved, 100e-6).rate, 0.0);
  EXPECT_LT(motion::release_rate(oil, 1e5, 0.5 * dissolved, 100e-6).rate, 0.0);
}

// linear damper behind an oil column: a spring and a damper in a row (Maxwell), tau = V / (K G). Peak c w X /
// sqrt(1 + (w tau)^2), lag atan(w tau). Textbook; the peak comes to the steady curve with the square of the
// frequency.
TEST(MotionReference, OilBehindALinearValveIsAMaxwellElement) {
  const double conductance = 2e-11;
  MotionModel model = linear_damper(conductance, 30e6, 1.0);
  model.travel = 0.02;
  const double ring = model.piston_area - model.rod_area;
  const SineDrive mean{.middle = 1e-3, .amplitude = 1e-4};
  // the gas keeps the compression chamber's pressure; the rod chamber is the column, at 30 MPa and its volume
  // there
  model.rod.volume = 200e-6 - ring * mean.middle;
  const double tau = 200e-6 / (model.oil.bulk_modulus * conductance);
  const double c = ring * ring / conductance;
  double last = 0.0;
  for (const double frequency : {8.0, 4.0, 2.0, 1.0}) {
    const MotionResult result = run(
        model,
        SineDrive{.middle = mean.middle, .amplitude = mean.amplitude, .frequency = frequency, .n_cycles = 4},
        {.tolerance = 1e-8});
    const double w = 2 * kPi * frequency;
    const double wt = w * tau;
    const CycleFigures& cycle = last_cycle(result);
    const double peak = 0.5 * (cycle.peak_compression.value - cycle.peak_rebound.value);
    const double steady = c * w * mean.amplitude;
    // over 0.2 mm the column's volume changes by 1e-3, to both sides alike; pressure on 1.5 GPa 2 %, to both
    // alike
    EXPECT_NEAR(peak * std::sqrt(1 + wt * wt) / steady, 1.0, 1e-3) << frequency;
    EXPECT_NEAR(cycle.phase_lag / std::atan(wt), 1.0, 1e-3) << frequency;
    const double off = 1.0 - peak / steady;
    if (last > 0.0) {
      EXPECT_NEAR(std::log2(last / off), 2.0, 0.15) << frequency;  // order two
    }
    last = off;
  }
}

TEST(MotionReference, ASlowSineRunsAlongTheSteadyCurve) {
  TestDamper damper = cartridge();
  MotionModel model = motion_of(damper);
  model.reservoir.gas = GasCushion{.pressure = 0.2e6, .volume = 1.0};
  double last = 1.0;
  for (const double frequency : {1.6, 0.4, 0.1}) {
    const MotionResult result =
        run(model, SineDrive{.middle = 0.1, .amplitude = 0.05, .frequency = frequency, .n_cycles = 2});
    double off = 0.0;
    double peak = 0.0;
    for (int i = 200; i < 400; ++i) {
      const MotionSample& s = result.samples[i];
      Chambers chambers = damper.model.chambers;
      chambers.reservoir_pressure = s.p_reservoir;
      off =
          std::max(off, std::abs(s.force - force_total(steady_point(chambers, damper.solved.laws, s.speed))));
      peak = std::max(peak, std::abs(s.force));
    }
    EXPECT_LT(off / peak, last) << frequency;
    last = off / peak;
  }
  EXPECT_LT(last, 2e-3);  // of the peak, anywhere in the loop, at 0.03 m/s; mostly at the turns
}

// thin tube: V D / (E s); a steel tube of 25 mm bore and 1 mm wall softens the oil by K D / (E s) = 18 %
TEST(MotionReference, ATubesWallActsLikeSofterOil) {
  const double give = tube_compliance(150e-6, 25e-3, 1e-3, 206e9);
  const double effective = 1.0 / (1.0 / 1.5e9 + give / 150e-6);
  EXPECT_NEAR(1.5e9 / effective - 1.0, 1.5e9 * 25e-3 / (206e9 * 1e-3), 1e-12);
  MotionModel model = linear_damper(1e-30, 1e5, 1.0);
  model.rod_area = 0.0;
  model.laws[0].laws.foot = linear_law(1e-30);
  model.reservoir.oil.volume = 10e-6;
  model.compression.volume = 150e-6;
  model.rod.volume = 1.0;
  model.compression.compliance = give;
  const SineDrive drive{.middle = 1e-6, .amplitude = 1e-6, .frequency = 5.0, .n_cycles = 1};
  const MotionResult result = run(model, drive, {.tolerance = 1e-9});
  const double rate = (result.samples[100].force - result.samples[0].force) / 2e-6;
  EXPECT_NEAR(rate / (effective * model.piston_area * model.piston_area / 150e-6), 1.0, 1e-3);
}

}  // namespace
}  // namespace shimwright::damper
