// Springs beside a damper in motion, against closed forms.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "damper/air_reading.h"
#include "damper/bench_reading.h"
#include "damper/motion.h"
#include "damper/test_motions.h"

namespace shimwright::damper {
namespace {

const SineDrive kSine{.middle = 0.1, .amplitude = 0.05, .frequency = 3.0, .n_cycles = 3};

SpringsBeside coil(double rate, double preload, double travel = 0.2) {
  return {{travel, {{"coil", spring::CoilStack{{{rate, std::nullopt}}, preload}}}}, {}};
}

/// Sealed air on one piston.
SpringsBeside air(double exponent) {
  const spring::AirChamber chamber{
      .area = 800e-6, .empty_volume = 300e-6, .pressure = 4e5, .exponent = exponent};
  return {{0.2, {{"air", spring::AirSpring{chamber, std::nullopt, std::nullopt}}}}, {}};
}

struct Pair {
  MotionResult bare, sprung;
};

Pair with_and_without(MotionModel model, const SpringsBeside& springs, const Drive& drive) {
  Pair pair;
  model.springs.reset();
  pair.bare = run_motion(model, drive);
  model.springs = springs;
  pair.sprung = run_motion(model, drive);
  return pair;
}

/// Largest departure of what the springs add from `force(travel)`, over its largest value.
template <typename Force>
double largest_departure(const Pair& pair, Force&& force) {
  double most = 0.0;
  double scale = 0.0;
  EXPECT_EQ(pair.bare.samples.size(), pair.sprung.samples.size());
  for (std::size_t i = 0; i < pair.bare.samples.size(); ++i) {
    const MotionSample& s = pair.sprung.samples[i];
    const double wanted = force(s.travel);
    most = std::max(most, std::abs(s.force - pair.bare.samples[i].force - wanted));
    most = std::max(most, std::abs(s.force_springs - wanted));
    most = std::max(most, std::abs(s.force_of_damper() - pair.bare.samples[i].force));
    scale = std::max(scale, std::abs(wanted));
  }
  return most / scale;
}

TEST(MotionSprings, AStraightSpringAddsItsLineToTheLoop) {
  const Pair pair = with_and_without(crowded_cartridge(), coil(5000.0, 0.012), kSine);
  EXPECT_LT(largest_departure(pair, [](double x) { return 5000.0 * (x + 0.012); }), 1e-12);
}

// p V^n: isothermal, between and without heat
TEST(MotionSprings, SealedAirAddsItsPolytrope) {
  for (const double n : {1.0, 1.2, 1.4}) {
    const Pair pair = with_and_without(sprung_cartridge(), air(n), kSine);
    const auto closed = [n](double x) {
      return (4e5 * std::pow(300e-6 / (300e-6 - 800e-6 * x), n) - kAtmosphere) * 800e-6;
    };
    EXPECT_LT(largest_departure(pair, closed), 1e-12) << n;
  }
}

TEST(MotionSprings, ALosslessSpringEnclosesNothingAndChangesNothingInside) {
  for (const SpringsBeside& springs : {coil(5000.0, 0.012), air(1.2), springs_of_a_leg(0.2)}) {
    const Pair pair = with_and_without(crowded_cartridge(), springs, kSine);
    ASSERT_EQ(pair.bare.n_steps, pair.sprung.n_steps);
    for (std::size_t i = 0; i < pair.bare.samples.size(); ++i) {
      // to the last bit: no step is another one
      EXPECT_EQ(pair.bare.samples[i].p_rod, pair.sprung.samples[i].p_rod);
      EXPECT_EQ(pair.bare.samples[i].temperature, pair.sprung.samples[i].temperature);
    }
    for (std::size_t c = 0; c < pair.bare.cycles.size(); ++c) {
      const CycleFigures& bare = pair.bare.cycles[c];
      const CycleFigures& sprung = pair.sprung.cycles[c];
      // the area of the loop: rounding of the travel at the cycle's ends, times some thousand newtons
      EXPECT_NEAR(sprung.energy_in, bare.energy_in, 1e-12 * bare.energy_in);
      EXPECT_EQ(sprung.heat, bare.heat);
      EXPECT_NEAR(sprung.stored_change, bare.stored_change, 1e-11);  // differences of some 100 J
      // a thousand newtons put on and taken off again leave their rounding
      EXPECT_NEAR(sprung.phase_lag, bare.phase_lag, 1e-13);
      EXPECT_NEAR(sprung.damper_compression.value, bare.peak_compression.value, 1e-11);
      EXPECT_NEAR(sprung.damper_rebound.value, bare.peak_rebound.value, 1e-11);
      EXPECT_GT(sprung.peak_compression.value, bare.peak_compression.value);
    }
  }
}

// the area that the drawn points enclose, by trapezes: what a technician integrates
TEST(MotionSprings, TheDrawnLoopEnclosesAsMuchWithASpringAsWithout) {
  const Pair pair = with_and_without(sprung_cartridge(), coil(8000.0, 0.0), kSine);
  const auto area = [](const MotionResult& run) {
    double sum = 0.0;
    const std::size_t n = run.samples.size();
    for (std::size_t i = n - 200; i < n; ++i)
      sum += 0.5 * (run.samples[i].force + run.samples[i - 1].force) *
             (run.samples[i].travel - run.samples[i - 1].travel);
    return sum;
  };
  // a straight line is integrated exactly by trapezes, there and back
  EXPECT_NEAR(area(pair.sprung), area(pair.bare), 1e-10 * area(pair.bare));
}

TEST(MotionSprings, AStepLeavesInTheSpringWhatTheLineSays) {
  const StepDrive step{.from = 0.05, .to = 0.15, .rise_time = 0.1, .hold_time = 0.2};
  const Pair pair = with_and_without(sprung_cartridge(), coil(5000.0, 0.01), step);
  const double stored = 0.5 * 5000.0 * (0.16 * 0.16 - 0.06 * 0.06);
  EXPECT_NEAR(pair.sprung.cycles[0].energy_in - pair.bare.cycles[0].energy_in, stored, 1e-9 * stored);
  EXPECT_NEAR(pair.sprung.cycles[0].stored_change - pair.bare.cycles[0].stored_change, stored, 1e-9 * stored);
}

RC_GTEST_PROP(MotionSprings, TheBalanceOfWorkHoldsInAnyStrokeWithSprings, ()) {
  MotionModel model = *rc::gen::inRange(0, 2) == 0 ? sprung_cartridge() : crowded_cartridge();
  model.springs = springs_of_a_leg(model.travel);
  SampledDrive drive;
  for (int i = 0; i < 12; ++i) {
    drive.time.push_back(0.03 * i);
    drive.travel.push_back(model.travel * (0.1 + 0.8e-6 * (*rc::gen::inRange(0, 1000001))));
  }
  const MotionResult result = run_motion(model, drive);
  RC_ASSERT(result.outcome.status != Status::Stalled);
  const CycleFigures& cycle = result.cycles.at(0);
  RC_ASSERT(std::abs(cycle.energy_in - cycle.heat - cycle.stored_change) <= 1e-4 * cycle.heat + 1e-9);
}

TEST(MotionSprings, ACoilThatIsSolidOnTheWayIsSaid) {
  MotionModel model = sprung_cartridge();
  model.springs = SpringsBeside{{0.2, {{"coil", spring::CoilStack{{{5000.0, 0.13}}, 0.01}}}}, {}};
  EXPECT_TRUE(run_motion(model, SineDrive{.middle = 0.05, .amplitude = 0.05, .frequency = 1.0}).outcome.ok());
  const MotionResult beyond = run_motion(model, kSine);  // to 150 mm; solid at 120 mm
  EXPECT_EQ(beyond.outcome.status, Status::OutOfRange);
  EXPECT_NEAR(beyond.outcome.residual, (0.15 - 0.12) / 0.2, 1e-6);
  EXPECT_NE(beyond.outcome.note.find("solid"), std::string::npos) << beyond.outcome.note;

  // a hand cannot push it there either
  EXPECT_TRUE(rod_release(model, {.pushed_to = 0.11, .moving_mass = 0.5}).outcome.ok());
  const ReleaseResult pushed = rod_release(model, {.pushed_to = 0.16, .moving_mass = 0.5});
  EXPECT_EQ(pushed.outcome.status, Status::OutOfRange);
  EXPECT_NE(pushed.outcome.note.find("solid"), std::string::npos) << pushed.outcome.note;
}

TEST(MotionSprings, SpringsThatCannotBeAreRefusedByField) {
  MotionModel model = sprung_cartridge();
  model.springs = coil(-1.0, 0.0);
  const Problems problems = validate(model);
  ASSERT_FALSE(problems.empty());
  EXPECT_EQ(problems.front().field.rfind("springs.elements[0]", 0), 0u) << problems.front().field;
}

/// A linear damper whose gas does not push: the spring alone brings the rod out.
MotionModel without_push(double rate) {
  MotionModel model = linear_damper(2e-9, kAtmosphere, 1.0);
  model.oil.bulk_modulus = 1e14;
  model.springs = coil(rate, 0.0, model.travel);
  return model;
}

// m x'' + c x' + k x = 0 from rest, underdamped: x = X e^(-bt) (cos wt + b/w sin wt), b = c / 2m, w^2 = k/m -
// b^2
TEST(MotionSprings, ARodLetGoComesOutAsAMassOnASpringAndADamper) {
  const double rate = 20e3;
  const double mass = 40.0;
  const MotionModel model = without_push(rate);
  const double ring = model.piston_area - model.rod_area;
  const double c = ring * ring / 2e-9;
  const double b = 0.5 * c / mass;
  const double w = std::sqrt(rate / mass - b * b);
  ASSERT_GT(w, 0.0);
  const ReleaseResult result = rod_release(model, {.pushed_to = 0.08, .moving_mass = mass});
  EXPECT_NEAR(result.before.force, rate * 0.08, 1e-6 * rate * 0.08);
  EXPECT_TRUE(result.fully_out);
  EXPECT_TRUE(result.outcome.ok());
  const auto place = [&](double t) {
    return 0.08 * std::exp(-b * t) * (std::cos(w * t) + b / w * std::sin(w * t));
  };
  EXPECT_NEAR(place(result.time), 0.0, 1e-6);
  EXPECT_NEAR(place(result.time_to_half), 0.04, 1e-6);
  for (const MotionSample& s : result.samples) EXPECT_NEAR(s.travel, place(s.time), 2e-6) << s.time;
}

TEST(MotionSprings, ATopOutSpringHoldsTheRodWhereBothAreEqual) {
  MotionModel model = without_push(5000.0);
  model.springs->unit.elements.push_back({"top-out", spring::TopOutSpring{9000.0, 0.012}});
  model.laws[0].laws.piston = linear_law(1e-10);  // so slow that it does not swing through
  const ReleaseResult result = rod_release(model, {.pushed_to = 0.08, .moving_mass = 0.5, .time_max = 60.0});
  // 5000 x = 9000 (12 mm - x)
  const double balance = 9000.0 * 0.012 / 14000.0;
  EXPECT_NEAR(result.balance, balance, 1e-6);
  EXPECT_FALSE(result.fully_out);
  EXPECT_NEAR(result.rest_travel, balance, 1e-6);
}

TEST(MotionSprings, AirIsReadOffALoopWithTheSpringsInAsWithout) {
  MotionModel model = sprung_cartridge();
  model.springs = coil(5000.0, 0.01);
  MotionModel with_air = model;
  with_air.rod.trapped_air = 2e-6;
  const MotionResult run = run_motion(with_air, kSine, {.samples_per_cycle = 100});
  std::vector<double> loop;
  for (std::size_t i = 200; i < 300; ++i) loop.push_back(run.samples[i].force);
  const AirEstimate estimate = air_from_loop({loop, 0.0, {}}, model, kSine, 10e-6);
  EXPECT_EQ(estimate.chamber, Chamber::Rod);
  EXPECT_NEAR(estimate.air, 2e-6, 0.05e-6);
}

}  // namespace
}  // namespace shimwright::damper
