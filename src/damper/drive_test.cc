#include "damper/drive.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace shimwright::damper {
namespace {

/// Speed and acceleration are the derivatives of travel, piece by piece.
void expect_consistent(const Drive& drive) {
  const DriveClock clock(drive);
  const auto corners = clock.corners();
  for (int segment = 0; segment + 1 < static_cast<int>(corners.size()); ++segment)
    for (const double share : {0.1, 0.37, 0.8}) {
      const double t = corners[segment] + share * (corners[segment + 1] - corners[segment]);
      const double h = 1e-6;
      const DrivePoint a = clock.at(t - h, segment), here = clock.at(t, segment),
                       b = clock.at(t + h, segment);
      EXPECT_NEAR((b.travel - a.travel) / (2 * h), here.speed, 1e-6) << t;
      EXPECT_NEAR((b.speed - a.speed) / (2 * h), here.acceleration, 1e-4 + 1e-6 * std::abs(here.acceleration))
          << t;
    }
}

SampledDrive recorded(Smoothness smoothness) {
  SampledDrive drive{.smoothness = smoothness};
  for (int i = 0; i <= 100; ++i) {
    drive.time.push_back(0.01 * i);
    drive.travel.push_back(0.05 - 0.04 * std::cos(2 * std::numbers::pi * 2.0 * 0.01 * i));
  }
  return drive;
}

TEST(Drive, SpeedAndAccelerationBelongToTheTravel) {
  expect_consistent(SineDrive{.middle = 0.05, .amplitude = 0.03, .frequency = 2.0});
  expect_consistent(TriangleDrive{.middle = 0.05, .amplitude = 0.03, .frequency = 2.0});
  expect_consistent(StepDrive{.from = 0.02, .to = 0.08, .rise_time = 0.05, .hold_time = 0.2});
  expect_consistent(recorded(Smoothness::Acceleration));
}

TEST(Drive, SineStartsAtRestAtItsOuterEnd) {
  const DriveClock clock(SineDrive{.middle = 0.05, .amplitude = 0.03, .frequency = 2.0, .n_cycles = 4});
  EXPECT_DOUBLE_EQ(clock.at(0.0, 0).travel, 0.02);
  EXPECT_EQ(clock.at(0.0, 0).speed, 0.0);
  EXPECT_DOUBLE_EQ(clock.t_end(), 2.0);
  EXPECT_EQ(clock.cycle_ends().size(), 5u);
  EXPECT_NEAR(clock.at(0.125, 0).speed, 2 * std::numbers::pi * 2.0 * 0.03, 1e-12);  // a quarter on
}

TEST(Drive, TriangleKnowsBothSidesOfItsCorners) {
  const DriveClock clock(TriangleDrive{.middle = 0.05, .amplitude = 0.03, .frequency = 2.0, .n_cycles = 2});
  ASSERT_EQ(clock.corners().size(), 5u);
  EXPECT_DOUBLE_EQ(clock.at(0.25, 0).speed, 0.24);  // 4 amplitude frequency
  EXPECT_DOUBLE_EQ(clock.at(0.25, 1).speed, -0.24);
  EXPECT_NEAR(clock.at(0.25, 0).travel, 0.08, 1e-15);
  EXPECT_NEAR(clock.at(0.25, 1).travel, 0.08, 1e-15);
  EXPECT_NEAR(clock.at(1.0, 3).travel, 0.02, 1e-15);
}

TEST(Drive, StepArrivesAtRest) {
  const DriveClock clock(StepDrive{.from = 0.02, .to = 0.08, .rise_time = 0.05, .hold_time = 0.2});
  EXPECT_DOUBLE_EQ(clock.at(0.05, 0).travel, 0.08);
  EXPECT_NEAR(clock.at(0.05, 0).speed, 0.0, 1e-12);
  EXPECT_EQ(clock.at(0.1, 1).travel, 0.08);
  EXPECT_EQ(clock.at(0.1, 1).speed, 0.0);
}

TEST(Drive, ARecordedStrokePassesItsSamples) {
  for (const Smoothness smoothness : {Smoothness::Speed, Smoothness::Acceleration}) {
    const SampledDrive drive = recorded(smoothness);
    const DriveClock clock(drive);
    for (std::size_t i = 0; i < drive.time.size(); ++i)
      EXPECT_NEAR(clock.at(drive.time[i], 0).travel, drive.travel[i], 1e-15);
  }
}

TEST(Drive, TheSmoothSampledStrokeFollowsASineToFourthOrder) {
  const DriveClock clock(recorded(Smoothness::Acceleration));
  const double w = 2 * std::numbers::pi * 2.0;
  // cubic spline: 5/384 h^4 f'''' in the travel, (w h)^4 = 2.5e-4
  EXPECT_NEAR(clock.at(0.505, 0).travel, 0.05 - 0.04 * std::cos(w * 0.505), 0.04 * 2.5e-4 * 5 / 384 * 1.1);
  EXPECT_NEAR(clock.at(0.505, 0).speed, 0.04 * w * std::sin(w * 0.505), 0.04 * w * 2e-5);
}

TEST(Drive, WhatCannotBeDrivenIsNamed) {
  EXPECT_EQ(validate(SineDrive{.amplitude = 0.0}).at(0).field, "sine.amplitude");
  EXPECT_EQ(validate(SineDrive{.amplitude = 0.1, .frequency = -1}).at(0).field, "sine.frequency");
  EXPECT_EQ(validate(TriangleDrive{.amplitude = 0.1, .n_cycles = 0}).at(0).field, "triangle.n_cycles");
  EXPECT_EQ(validate(StepDrive{.to = 0.1}).at(0).field, "step.rise_time");
  EXPECT_EQ(validate(SampledDrive{.time = {0, 1}, .travel = {0}}).at(0).field, "sampled.travel");
  EXPECT_EQ(validate(SampledDrive{.time = {0, 0}, .travel = {0, 1}}).at(0).field, "sampled.time");
  EXPECT_EQ(validate(SampledDrive{.time = {0, 1}, .travel = {0, NAN}}).at(0).field, "sampled.travel");
  EXPECT_TRUE(validate(SineDrive{.amplitude = 0.1}).empty());
}

}  // namespace
}  // namespace shimwright::damper
