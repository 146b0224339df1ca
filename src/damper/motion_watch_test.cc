// What happened and when, and how soon a motion ends when asked to.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "damper/air_reading.h"
#include "damper/bench_reading.h"
#include "damper/motion.h"
#include "damper/test_motions.h"

namespace shimwright::damper {
namespace {

using Kind = MotionEventKind;

std::vector<MotionEvent> all_of(const std::vector<MotionEvent>& events, Kind kind) {
  std::vector<MotionEvent> found;
  std::ranges::copy_if(events, std::back_inserter(found),
                       [&](const MotionEvent& e) { return e.kind == kind; });
  return found;
}

// ---- events between steps

// constant speed from 50 to 150 mm and back in a second: travel is known to the last digit
const TriangleDrive kTriangle{.middle = 0.1, .amplitude = 0.05, .frequency = 1.0, .n_cycles = 1};

TEST(Watch, TheBumpStopIsTouchedWhereTheDriveIsThere) {
  MotionModel model = sprung_cartridge();
  model.springs = springs_of_a_leg(model.travel);
  std::get<spring::BumpStop>(model.springs->unit.elements[3].law).start = 0.12;
  const MotionResult run = run_motion(model, kTriangle);
  const auto touched = all_of(run.events, Kind::BumpStopTouched);
  ASSERT_EQ(touched.size(), 2u);
  EXPECT_TRUE(touched[0].rising);
  EXPECT_NEAR(touched[0].time, 0.07 / 0.2, 1e-9);
  EXPECT_NEAR(touched[0].travel, 0.12, 1e-9);
  EXPECT_FALSE(touched[1].rising);
  EXPECT_NEAR(touched[1].time, 0.5 + 0.03 / 0.2, 1e-9);
  // looking changes no step
  model.springs.reset();
  EXPECT_EQ(run_motion(model, kTriangle).n_steps, run.n_steps);
}

// 10 s^3 - 15 s^4 + 6 s^5 = 1 - 0.05 mm / 100 mm: s by bisection
TEST(Watch, ARodDrivenToItsEndIsThereAndLeavesItAgain) {
  const MotionModel model = sprung_cartridge();
  const MotionResult run =
      run_motion(model, StepDrive{.from = 0.1, .to = 0.2, .rise_time = 0.2, .hold_time = 0.1});
  const auto end = all_of(run.events, Kind::RodFullyIn);
  ASSERT_EQ(end.size(), 1u);
  double low = 0.5, high = 1.0;
  for (int i = 0; i < 60; ++i) {
    const double s = 0.5 * (low + high);
    (s * s * s * (10.0 + s * (-15.0 + 6.0 * s)) < 1.0 - kEndTouch / 0.1 ? low : high) = s;
  }
  EXPECT_NEAR(end[0].time, 0.2 * low, 1e-9);
  EXPECT_TRUE(all_of(run.events, Kind::RodFullyOut).empty());
}

/// The first crossing of a threshold by a drop, read off dense samples.
double first_crossing(const MotionResult& run, double threshold, double sign) {
  for (const MotionSample& s : run.samples)
    if (sign * (s.p_compression - s.p_rod) > threshold) return s.time;
  return INFINITY;
}

TEST(Watch, AValveOpensWhereItsDropPassesItsPreload) {
  TestDamper preloaded = cartridge();
  // nothing lifts below 3 bar in compression
  plate::LiftCurve& curve = *preloaded.solved.stacks.piston.compression;
  curve.pressure = {0.0, 3e5, 20e6};
  curve.lift = {0.0, 0.0, 5e-9 * 19.7e6};
  curve.slope = {0.0, 0.0, 5e-9};
  solve(preloaded);
  MotionModel model = sprung_cartridge();
  model.laws = {{293.15, preloaded.liquid.density, preloaded.solved.laws}};
  model.heat.reset();
  const SineDrive drive{.middle = 0.1, .amplitude = 0.05, .frequency = 3.0, .n_cycles = 1};
  const MotionResult run = run_motion(model, drive, {.samples_per_cycle = 20000});
  const auto opens = all_of(run.events, Kind::PistonOpensInCompression);
  ASSERT_GE(opens.size(), 2u);
  EXPECT_TRUE(opens[0].rising);
  // the opening lies where the law has its last node without lift
  const auto& nodes = preloaded.solved.laws.piston.compression.nodes;
  double shut = 0.0;
  for (const valve::LawNode& node : nodes) {
    if (node.lift > 0.0) break;
    shut = node.root_drop * node.root_drop;
  }
  EXPECT_NEAR(shut, 3e5, 0.05e5);  // the ports in front of the stack take a little
  EXPECT_NEAR(opens[0].time, first_crossing(run, shut, 1.0), 1.0 / 3.0 / 20000);
  EXPECT_FALSE(opens[1].rising);
  // without preload the kilopascal that is held for shut
  const auto rebound = all_of(run.events, Kind::PistonOpensInRebound);
  ASSERT_FALSE(rebound.empty());
  EXPECT_NEAR(rebound[0].time, first_crossing(run, 1e3, -1.0), 1.0 / 3.0 / 20000);
}

TEST(Watch, EventsComeInTheirOrderWithTheForceThatWasThere) {
  MotionModel model = crowded_cartridge();
  model.springs = springs_of_a_leg(model.travel);
  const MotionResult run =
      run_motion(model, SineDrive{.middle = 0.1, .amplitude = 0.09, .frequency = 2.0, .n_cycles = 2},
                 {.samples_per_cycle = 4000});
  ASSERT_GT(run.events.size(), 8u);
  double before = 0.0;
  for (const MotionEvent& event : run.events) {
    EXPECT_GE(event.time, before);
    before = event.time;
    const auto after =
        std::ranges::find_if(run.samples, [&](const MotionSample& s) { return s.time >= event.time; });
    ASSERT_NE(after, run.samples.end());
    if (after == run.samples.begin()) continue;
    const MotionSample& last = *std::prev(after);
    const double least = std::min(last.force, after->force);
    const double most = std::max(last.force, after->force);
    EXPECT_GT(event.force, least - 0.02 * std::abs(least) - 5.0);
    EXPECT_LT(event.force, most + 0.02 * std::abs(most) + 5.0);
  }
}

// the first fall below release was told twice: once by the steps before it and once by those that go on from
// there
TEST(Watch, WhatFallsComesBackBeforeItFallsAgain) {
  MotionModel model = motion_of(cartridge());
  model.reservoir.gas = GasCushion{.pressure = 0.11e6, .volume = 1e-3};
  const MotionResult run =
      run_motion(model, SineDrive{.middle = 0.1, .amplitude = 0.05, .frequency = 12.0, .n_cycles = 3});
  int n_falls = 0;
  for (const Kind kind : {Kind::CompressionAtRelease, Kind::RodAtRelease}) {
    const std::vector<MotionEvent> events = all_of(run.events, kind);
    for (std::size_t i = 0; i < events.size(); ++i) {
      EXPECT_EQ(events[i].rising, i % 2 == 1) << i;
      n_falls += events[i].rising ? 0 : 1;
    }
  }
  EXPECT_GT(n_falls, 1);
}

TEST(Watch, ARodLetGoTellsWhatItsValvesDo) {
  const ReleaseResult result = rod_release(sprung_cartridge(), {.pushed_to = 0.15, .moving_mass = 0.5});
  const auto rebound = all_of(result.events, Kind::PistonOpensInRebound);
  ASSERT_FALSE(rebound.empty());
  EXPECT_LT(rebound[0].time, 0.1 * result.time);
  ASSERT_TRUE(result.fully_out);
  EXPECT_EQ(all_of(result.events, Kind::RodFullyOut).size(), 1u);
  EXPECT_EQ(result.samples.front().time, 0.0);
  EXPECT_EQ(result.samples.back().time, result.time);
}

// ---- stopping, counted in steps

/// Says "go on" so many times; from then on somebody has asked to stop.
struct Patience {
  int left = 0;
  int n_asked_after = 0;
  std::function<bool(double)> proceed() {
    return [this](double) {
      if (left-- > 0) return true;
      ++n_asked_after;
      return false;
    };
  }
};

TEST(Stopping, ARunEndsWithinOneAskWhereverItIs) {
  const MotionModel model = crowded_cartridge();
  // one cycle of a minute: nothing but the count of steps can end it
  SampledDrive lap;
  for (int i = 0; i <= 2000; ++i) {
    lap.time.push_back(0.03 * i);
    lap.travel.push_back(0.1 + 0.05 * std::sin(1.7 * i) * std::cos(0.3 * i));
  }
  for (const int patience : {0, 1, 7}) {
    Patience told{patience};
    const MotionResult run = run_motion(model, lap, {.proceed = told.proceed()});
    EXPECT_TRUE(run.stopped);
    EXPECT_EQ(told.n_asked_after, 1);
    EXPECT_LE(run.n_steps, (patience + 1) * kStepsBetweenAsks);
  }
}

TEST(Stopping, AReleaseEndsWithinOneAsk) {
  MotionModel slow = sprung_cartridge();
  slow.laws[0].laws.piston = linear_law(1e-14);  // an hour to come out
  for (const int patience : {0, 2}) {
    Patience told{patience};
    const ReleaseResult result =
        rod_release(slow, {.pushed_to = 0.15, .moving_mass = 0.5, .time_max = 3600.0},
                    {.step_max = 1e-3, .proceed = told.proceed()});
    EXPECT_TRUE(result.stopped);
    EXPECT_EQ(told.n_asked_after, 1);
    EXPECT_LE(result.n_steps, (patience + 1) * kStepsBetweenAsks);
  }
}

TEST(Stopping, ReadingAirAndTheReservoirEndWithinOneAsk) {
  const MotionModel model = sprung_cartridge();
  const SineDrive drive{.middle = 0.1, .amplitude = 0.05, .frequency = 6.0, .n_cycles = 3};
  const MotionResult run = run_motion(model, drive, {.samples_per_cycle = 100});
  std::vector<double> loop;
  for (std::size_t i = 200; i < 300; ++i) loop.push_back(run.samples[i].force);
  // whole readings take some hundred asks; a stop in the middle costs one more, not one for each trial
  for (const int patience : {0, 20}) {
    Patience told{patience};
    const AirEstimate air = air_from_loop({loop, 0.0, {}}, model, drive, 10e-6, {.proceed = told.proceed()});
    EXPECT_TRUE(air.stopped);
    EXPECT_EQ(told.n_asked_after, 1);
    EXPECT_LE(air.n_steps, (patience + 1) * kStepsBetweenAsks);
    Patience again{patience / 4};
    const ReservoirNeed need = reservoir_need(model, drive, 2e5, 3e6, {.proceed = again.proceed()});
    EXPECT_TRUE(need.stopped);
    EXPECT_EQ(again.n_asked_after, 1);
    EXPECT_LE(need.n_steps, (patience / 4 + 1) * kStepsBetweenAsks);
  }
  EXPECT_FALSE(air_from_loop({loop, 0.0, {}}, model, drive, 10e-6).stopped);
}

}  // namespace
}  // namespace shimwright::damper
