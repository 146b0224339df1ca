#include "valve/valve.h"

#include <gtest/gtest.h>

#include <cmath>

#include "valve/test_valves.h"

namespace shimwright::valve {
namespace {

TEST(Valve, AWholeValveHasNoProblems) {
  EXPECT_TRUE(validate(benchmark_valve().model).empty());
}

TEST(Valve, ProblemsNameTheirPlace) {
  ValveModel model = benchmark_valve().model;
  model.compression.ports->area = 0.0;
  model.rebound.stack.reset();
  model.rebound.face_bleeds = {flow::Notches{}};
  model.rebound.land_width = -1.0;
  model.bleeds.push_back({.passage = flow::Needle{}});
  model.leakage = flow::AnnularGap{};
  const Problems problems = validate(model);
  const auto complains_of = [&](const std::string& field) {
    for (const Problem& problem : problems)
      if (problem.field == field) return true;
    return false;
  };
  EXPECT_TRUE(complains_of("compression.ports.area"));
  EXPECT_TRUE(complains_of("rebound.face_bleeds[0].width"));
  EXPECT_TRUE(complains_of("rebound.face_bleeds"));
  EXPECT_TRUE(complains_of("rebound.curtain.land_width"));
  EXPECT_TRUE(complains_of("bleeds[1].pitch"));
  EXPECT_TRUE(complains_of("leakage.diameter"));
}

TEST(Valve, AStacksProblemsCarryItsPlace) {
  ValveModel model = benchmark_valve().model;
  model.compression.stack->discs[0].thickness = -1e-3;
  const Problems problems = validate(model);
  ASSERT_FALSE(problems.empty());
  EXPECT_EQ(problems[0].field.rfind("compression.stack.", 0), 0u) << problems[0].field;
}

TEST(Valve, AWayThatPassesNothingIsAProblem) {
  ValveModel model;
  model.bleeds = {{.passage = flow::round_holes(1, 1e-3, 0, {}), .rebound = false}};
  Problems problems = validate(model);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].field, "rebound");
  model.bleeds[0].rebound = true;
  EXPECT_TRUE(validate(model).empty());
}

TEST(Valve, ASeatedNeedleAloneIsAProblem) {
  ValveModel model;
  model.bleeds = {
      {.passage = flow::Needle{
           .bore_diameter = 3e-3, .half_angle = 0.3, .pitch = 1e-3, .clicks_per_turn = 8, .clicks = 0}}};
  EXPECT_EQ(validate(model).size(), 2u);
  const ValveLaw law = valve_law(model, {}, {.density = 860, .viscosity = 0.01});
  EXPECT_EQ(flow_at(law, 1e6).q, 0.0);
  EXPECT_TRUE(std::isinf(drop_at(law, 1e-6)));
}

}  // namespace
}  // namespace shimwright::valve
