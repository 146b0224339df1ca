#include "resolve/resolve_motion.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

#include "file/test_jobs.h"

namespace shimwright::resolve {
namespace {

using file::testing_jobs::changed;
using file::testing_jobs::job_text;
using file::testing_jobs::read;

struct Resolved {
  std::optional<MotionParts> parts;
  ResolveReport report;
};

Resolved resolve(const std::string& text, const file::AirLeftSpec* air = nullptr) {
  const file::JobSpec job = read(text);
  const Conditions conditions = resolve_conditions(job);
  Resolved result;
  plate::Workspace workspace;
  const auto damper = resolve_damper(job, job.units.at(0), conditions, result.report);
  if (!damper) return result;
  MotionRequest request;
  request.oil_temperature = 313.15;
  request.air_temperature = 293.15;
  request.ambient_pressure = conditions.ambient_pressure;
  request.top_speed = 1.0;
  request.air_left = air;
  result.parts = resolve_motion(job, job.units[0], *damper, request, result.report, workspace);
  return result;
}

double disc(double diameter) {
  return 0.25 * std::numbers::pi * diameter * diameter;
}

TEST(ResolveMotion, ChambersComeFromTheFillsSpace) {
  const Resolved resolved = resolve(job_text("fork"));
  ASSERT_TRUE(resolved.parts);
  const damper::MotionModel& model = resolved.parts->model;
  // 395 mm inside, 35 mm of rod in it with the rod fully out
  EXPECT_NEAR(model.compression.volume, disc(0.024) * 0.36, 1e-12);
  EXPECT_NEAR(model.rod.volume, (disc(0.024) - disc(0.012)) * 0.035, 1e-12);
  EXPECT_DOUBLE_EQ(model.reservoir.oil.volume, 45e-6);
  ASSERT_TRUE(model.reservoir.piston);
  // from 20 to 40 degC the oil has pushed the free piston out by its growth
  const double pushed = resolved.parts->model.reservoir.piston->travel_in - 5e-3;
  EXPECT_NEAR(pushed * disc(0.026), 3.1e-6, 0.2e-6);  // 211 mL x (0.00080 - 69e-6) x 20 K is 3.1 mL
  EXPECT_NEAR(model.reservoir.piston->travel_out, 0.085 - pushed, 1e-12);
  EXPECT_NEAR(model.reservoir.piston->spring_force, 90.0 + 3000.0 * pushed, 1e-9);
  EXPECT_FALSE(model.heat);
  EXPECT_THAT(resolved.parts->assumptions, testing::ElementsAre(testing::HasSubstr("does not fade")));
}

TEST(ResolveMotion, WhatTheMotionTableSaysGoesBeforeEverythingElse) {
  const Resolved resolved =
      resolve(job_text("fork") +
              "\n[unit.motion]\ncompression_volume = \"170 mL\"\nrod_volume = \"9 mL\"\n"
              "reservoir_oil = \"40 mL\"\ntube_wall = \"1.5 mm\"\nmetal_mass = \"1 kg\"\n"
              "cooling_time = \"10 min\"\nfree_piston_inward = \"3 mm\"\n"
              "relief_port = { position = \"60 mm\", area = \"2 mm2\" }\n"
              "position_bleed = [{ travel = \"0 mm\", area = \"3 mm2\" }, { travel = \"100 mm\", "
              "area = \"0 mm2\" }]\n");
  ASSERT_TRUE(resolved.parts);
  const damper::MotionModel& model = resolved.parts->model;
  EXPECT_DOUBLE_EQ(model.compression.volume, 170e-6);
  EXPECT_DOUBLE_EQ(model.rod.volume, 9e-6);
  EXPECT_DOUBLE_EQ(model.reservoir.oil.volume, 40e-6);
  EXPECT_NEAR(model.compression.compliance, 170e-6 * 0.024 / (70e9 * 1.5e-3), 1e-20);
  ASSERT_TRUE(model.heat);
  EXPECT_GT(model.heat->capacity, 900.0);
  EXPECT_NEAR(model.heat->loss, model.heat->capacity / 600.0, 1e-9);
  EXPECT_GT(model.laws.size(), 1u);
  ASSERT_TRUE(model.reservoir.piston && model.reservoir.piston->port && model.position_bleed);
  EXPECT_GT(model.reservoir.piston->travel_in, 3e-3);
  EXPECT_NEAR(model.reservoir.piston->travel_in - 3e-3, 60e-3 - model.reservoir.piston->port->position,
              1e-12);
  EXPECT_TRUE(resolved.parts->assumptions.empty());
}

TEST(ResolveMotion, TheTimeInWhichAirGoesBackIsAKeyOfTheOilWithADefault) {
  EXPECT_DOUBLE_EQ(resolve(job_text("fork")).parts->model.oil.return_time, 1.0);
  const Resolved quick =
      resolve(changed(job_text("fork"), "air_release_pressure = \"20 kPa(a)\"",
                      "air_release_pressure = \"20 kPa(a)\"\nair_return_time = \"0.2 s\""));
  ASSERT_TRUE(quick.parts);
  EXPECT_DOUBLE_EQ(quick.parts->model.oil.return_time, 0.2);
}

TEST(ResolveMotion, AMidValveThatFloatsSweepsItsVolume) {
  const Resolved resolved = resolve(job_text("fork"));
  ASSERT_TRUE(resolved.parts && resolved.parts->model.float_valve);
  EXPECT_DOUBLE_EQ(resolved.parts->model.float_valve->gap, 0.45e-3);
  EXPECT_TRUE(resolved.parts->model.float_valve->in_compression);
}

TEST(ResolveMotion, MoreAirThanTheChamberHoldsIsRefusedAtItsKey) {
  file::AirLeftSpec air;
  air.rod.si = 500e-6;
  air.rod.given = true;
  air.rod.kind = units::Kind::Volume;
  const Resolved resolved = resolve(job_text("fork"), &air);
  EXPECT_FALSE(resolved.parts);
  ASSERT_FALSE(resolved.report.diagnostics.empty());
  EXPECT_EQ(resolved.report.diagnostics[0].code, "E0901");
}

TEST(ResolveMotion, AUnitWithoutItsTravelIsMissingIt) {
  const Resolved resolved = resolve(changed(job_text("fork"), "travel = \"300 mm\"\n", ""));
  EXPECT_FALSE(resolved.parts);
  ASSERT_FALSE(resolved.report.missing.empty());
  EXPECT_EQ(resolved.report.missing.back().key, "travel");
}

}  // namespace
}  // namespace shimwright::resolve
