// From the words of a job file to models: what each part becomes, and what it is refused for.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "file/test_jobs.h"
#include "resolve/resolve_damper.h"
#include "resolve/resolve_fill.h"
#include "resolve/resolve_oil.h"
#include "resolve/resolve_post.h"
#include "resolve/resolve_springs.h"
#include "resolve/resolve_stack.h"

namespace shimwright::resolve {
namespace {

using file::testing_jobs::changed;
using file::testing_jobs::job_text;
using file::testing_jobs::read;

double disc_area(double diameter) {
  return 0.25 * std::numbers::pi * diameter * diameter;
}

// places

TEST(FieldPlaces, AFieldFindsItsOwnPlaceOrTheOneAroundIt) {
  FieldPlaces places;
  file::Origin disc;
  disc.line = 7;
  file::Origin thickness;
  thickness.line = 8;
  places.add("discs[2]", disc);
  places.add("discs[2].thickness", thickness);
  EXPECT_EQ(places.find("discs[2].thickness")->origin.line, 8);
  EXPECT_EQ(places.find("discs[2].outer_radius")->origin.line, 7);
  EXPECT_EQ(places.find("discs[3].thickness"), nullptr);

  FieldPlaces outer;
  outer.add_all("compression.stack", places);
  EXPECT_EQ(outer.find("compression.stack.discs[2].thickness")->origin.line, 8);
}

TEST(FieldPlaces, ARefusalIsToldInTheWrittenUnitAtItsLine) {
  const file::JobSpec job = read(job_text("lone-stack"));
  FieldPlaces places;
  places.add("seat.radius", job.stack->seat, 2.0);
  const Diagnostics told =
      located(job, {{"seat.radius", 10.5e-3, 9.0e-3, "inside the face shim"}}, places, {});
  ASSERT_EQ(told.size(), 1u);
  EXPECT_EQ(told[0].code, "E0901");
  EXPECT_EQ(told[0].path, "stack.seat");
  EXPECT_EQ(told[0].line, job.stack->seat.origin.line);
  EXPECT_EQ(told[0].got, "21.0 mm");  // as a diameter, which is what stands there
  EXPECT_THAT(told[0].expected, testing::HasSubstr("18.0 mm"));
}

// stacks

TEST(ResolveStack, CountsBecomeDiscsAndDiametersRadii) {
  const file::JobSpec job = read(job_text("lone-stack"));
  ResolveReport report;
  const auto model = resolve_stack(job, *job.stack, {"stack", 0.0}, report);
  ASSERT_TRUE(model.has_value());
  ASSERT_EQ(model->stack.discs.size(), 8u);
  EXPECT_DOUBLE_EQ(model->stack.discs[0].outer_radius, 11e-3);
  EXPECT_DOUBLE_EQ(model->stack.discs[4].thickness, 0.10e-3);
  EXPECT_EQ(model->labels[0], "22 x 0.15 mm");
  EXPECT_DOUBLE_EQ(model->stack.seat.radius, 10.5e-3);
  EXPECT_DOUBLE_EQ(model->stack.load.arc_fraction, 0.7);
  EXPECT_DOUBLE_EQ(model->stack.discs[0].fatigue_strength, 780e6);
}

TEST(ResolveStack, ADiscWithoutAMaterialIsPlainSpringSteelOfUnknownStrength) {
  const file::JobSpec job = read(changed(job_text("lone-stack"), "material  = \"spring-steel\"\n", ""));
  ResolveReport report;
  const auto model = resolve_stack(job, *job.stack, {"stack", 0.0}, report);
  ASSERT_TRUE(model.has_value());
  EXPECT_DOUBLE_EQ(model->stack.discs[0].youngs_modulus, 206e9);
  EXPECT_DOUBLE_EQ(model->stack.discs[0].fatigue_strength, 0.0);
}

TEST(ResolveStack, WhatALoneStackLacksIsNamed) {
  file::JobSpec job = read(job_text("lone-stack"));
  job.stack->clamp = {};
  ResolveReport report;
  EXPECT_FALSE(resolve_stack(job, *job.stack, {"stack", 0.0}, report).has_value());
  ASSERT_EQ(report.missing.size(), 1u);
  EXPECT_EQ(report.missing[0].key, "clamp");
}

// oil

TEST(ResolveOil, OneViscosityAndTheIndexGiveTheOilOfTwoViscosities) {
  // 32 mm2/s at 40 degC and 5.4 at 100 have a viscosity index of 102.2 (case VI-05, trust C)
  const file::JobSpec job = read(R"(format = 1
title = "Oils"
[oil.one]
viscosity = [{ at = "40 degC", value = "32 mm2/s" }]
viscosity_index = 102.2
density_15 = "870 kg/m3"
)");
  ResolveReport report;
  const auto model = resolve_oil(job, job.parts.oils[0], 101325.0, report);
  ASSERT_TRUE(model.has_value());
  // the index is given to one decimal: 0.1 of it is 0.01 mm2/s here
  EXPECT_NEAR(oil::kinematic_viscosity(*model, 373.15), 5.4e-6, 0.01e-6);
  EXPECT_DOUBLE_EQ(model->expansion, oil::lubricating_oil_expansion(870.0));
}

TEST(ResolveOil, AnIndexThatNoOilHasIsRefusedAtItsLine) {
  const file::JobSpec job = read(R"(format = 1
title = "Oils"
[oil.one]
viscosity = [{ at = "40 degC", value = "3 mm2/s" }]
viscosity_index = 20
density_15 = "870 kg/m3"
)");
  ResolveReport report;
  EXPECT_FALSE(resolve_oil(job, job.parts.oils[0], 101325.0, report).has_value());
  ASSERT_EQ(report.diagnostics.size(), 1u);
  EXPECT_EQ(report.diagnostics[0].code, "E0903");
  EXPECT_EQ(report.diagnostics[0].line, 5);
}

// damper

TEST(ResolveDamper, GaugePressuresHaveTheAirOfThePlaceAdded) {
  const file::JobSpec job = read(job_text("shock"));
  ResolveReport report;
  const Conditions conditions = resolve_conditions(job);
  const auto parts = resolve_damper(job, job.units[0], conditions, report);
  ASSERT_TRUE(parts.has_value());
  EXPECT_LT(conditions.ambient_pressure, 101325.0);  // 200 m up
  EXPECT_NEAR(parts->reservoir.reservoir.gas_pressure, 10e5 + conditions.ambient_pressure, 1e-6);
  // the job's oil is at 60 degC: what it grew by squeezes the gas, which is as warm (ideal gas law)
  const double growth = growth_at(parts->reservoir, parts->oil, 333.15);
  EXPECT_NEAR(parts->model.chambers.reservoir_pressure,
              (10e5 + conditions.ambient_pressure) * 333.15 / 293.15 * 70e-6 / (70e-6 - growth), 1e-3);
  // 12 N of the free piston's seal: more pressure going in, less coming out
  const double drag = 12.0 / disc_area(52e-3);
  EXPECT_NEAR(chambers_in(*parts, Stroke::Compression).reservoir_pressure -
                  chambers_in(*parts, Stroke::Rebound).reservoir_pressure,
              2.0 * drag, 1e-6);
}

TEST(ResolveDamper, ASprungPistonPressesAgainstTheAirOutside) {
  const file::JobSpec job = read(job_text("fork"));
  ResolveReport report;
  const Conditions conditions = resolve_conditions(job);
  const auto parts = resolve_damper(job, job.units[0], conditions, report);
  ASSERT_TRUE(parts.has_value());
  // 90 N, and 3 N/mm for what the oil grew by from 20 to 45 degC
  const double area = disc_area(26e-3);
  const double growth = growth_at(parts->reservoir, parts->oil, 318.15);
  EXPECT_GT(growth, 1e-6);
  EXPECT_NEAR(parts->model.chambers.reservoir_pressure,
              conditions.ambient_pressure + (90.0 + 3000.0 * growth / area) / area, 1e-6);
  ASSERT_EQ(parts->adjusters.size(), 2u);
  EXPECT_EQ(parts->adjusters[0].name, "rebound needle");
  EXPECT_EQ(parts->adjusters[0].stroke, Stroke::Rebound);
  EXPECT_EQ(parts->adjusters[1].clicks_max, 24);
}

TEST(ResolveDamper, ANeedleThatActsBothWaysStandsForEachStroke) {
  const file::JobSpec job = read(job_text("shock"));
  ResolveReport report;
  const auto parts = resolve_damper(job, job.units[0], resolve_conditions(job), report);
  ASSERT_TRUE(parts.has_value());
  EXPECT_EQ(std::ranges::count(parts->adjusters, std::string("rebound needle"), &AdjusterModel::name), 2);
}

TEST(ResolveValve, ALengthMakesAPortAThickEdgeAndAWrittenCoefficientGoesFirst) {
  const std::string text = job_text("fork");
  const auto law_of = [](const std::string& job_file) {
    const file::JobSpec job = read(job_file);
    ResolveReport report;
    const auto parts = resolve_damper(job, job.units[0], resolve_conditions(job), report);
    return parts->piston.model.compression.ports->discharge;
  };
  EXPECT_EQ(law_of(text).law, flow::Discharge::Law::ThickEdge);
  const flow::Discharge fixed =
      law_of(changed(text, "port_length = \"6 mm\"\nseat        = \"20.5 mm\"",
                     "port_length = \"6 mm\"\nport_discharge = 0.65\nseat = \"20.5 mm\""));
  EXPECT_EQ(fixed.law, flow::Discharge::Law::Fixed);
  EXPECT_DOUBLE_EQ(fixed.coefficient, 0.65);
}

TEST(ResolveValve, TheBandsClearanceIsWrittenInDiameter) {
  const file::JobSpec job = read(job_text("fork"));
  ResolveReport report;
  const auto parts = resolve_damper(job, job.units[0], resolve_conditions(job), report);
  ASSERT_TRUE(parts && parts->piston.model.leakage);
  EXPECT_DOUBLE_EQ(parts->piston.model.leakage->clearance, 0.015e-3);
  EXPECT_DOUBLE_EQ(parts->piston.model.leakage->diameter, 24e-3);  // the piston's, none is written
}

// springs

TEST(ResolveSprings, AnAirChamberIsItsBoreTimesItsLengthLessTheOil) {
  const file::JobSpec job = read(job_text("fork"));
  ResolveReport report;
  const Conditions conditions = resolve_conditions(job);
  const auto springs = resolve_springs(job, job.units[0], conditions, report);
  ASSERT_TRUE(springs && springs->air_element);
  const auto& air = std::get<spring::AirSpring>(springs->unit.elements[*springs->air_element].law);
  EXPECT_NEAR(air.positive.empty_volume, disc_area(33e-3) * 0.44, 1e-12);
  EXPECT_DOUBLE_EQ(air.positive.oil_volume, 15e-6);
  EXPECT_NEAR(air.positive.pressure, 4.1e5 + conditions.ambient_pressure, 1e-6);  // set at the same 200 m
  EXPECT_TRUE(air.negative.has_value());
}

TEST(ResolveSprings, CoilsThatAreStackedShareOneForce) {
  const file::JobSpec job = read(R"(format = 1
title = "Two coils"
[[unit]]
name = "leg"
kind = "fork leg"
travel = "100 mm"
[[unit.coil_spring]]
rate = "4 N/mm"
preload = "5 mm"
[[unit.coil_spring]]
rate = "12 N/mm"
stacked = true
)");
  ResolveReport report;
  const auto springs = resolve_springs(job, job.units[0], resolve_conditions(job), report);
  ASSERT_TRUE(springs.has_value());
  ASSERT_EQ(springs->unit.elements.size(), 1u);
  // 1/(1/4 + 1/12) = 3 N/mm, 5 mm squeezed
  EXPECT_NEAR(spring::force_at(springs->unit, springs->conditions, 0.0).force, 15.0, 1e-9);
}

TEST(ResolveSprings, ALegWithoutSpringsHasNone) {
  file::JobSpec job = read(job_text("fork"));
  job.units[0].air_spring.reset();
  ResolveReport report;
  EXPECT_FALSE(resolve_springs(job, job.units[0], resolve_conditions(job), report).has_value());
  EXPECT_TRUE(report.missing.empty());
}

// posts

TEST(ResolvePost, AStackThatFloatsOnAListedCollarAddsNoHeight) {
  const file::JobSpec job = read(job_text("fork"));
  ResolveReport report;
  const auto post = resolve_post(job, *job.units[0].piston_valve, "post", report);
  ASSERT_TRUE(post.has_value());
  const auto& pieces = post->spacer_case.assembly.pieces;
  ASSERT_EQ(pieces.size(), 6u);
  EXPECT_FALSE(pieces[1].adds_height);  // the mid-valve's stack, on its collar
  EXPECT_TRUE(pieces[4].adds_height);   // the rebound stack
  EXPECT_NEAR(pieces[4].thickness, 0.9e-3, 1e-12);
  EXPECT_EQ(post->spacer_case.stock.size(), 3u);
  EXPECT_EQ(post->spacers_before, 6u);
}

TEST(ResolvePost, WithoutACollarTheFloatIsPartOfTheHeight) {
  std::string text = changed(job_text("fork"),
                             "  { role = \"collar\", name = \"float collar\", height = \"1.30 mm\", "
                             "tolerance = \"0.01 mm\", outer_diameter = "
                             "\"9 mm\" },\n",
                             "");
  const file::JobSpec job = read(text);
  ResolveReport report;
  const auto post = resolve_post(job, *job.units[0].piston_valve, "post", report);
  ASSERT_TRUE(post.has_value());
  EXPECT_TRUE(post->spacer_case.assembly.pieces[1].adds_height);
  EXPECT_NEAR(post->spacer_case.assembly.pieces[1].thickness, 0.85e-3 + 0.45e-3, 1e-12);
}

TEST(ResolvePost, APieceIsWhatItsRoleSaysWhateverItIsCalled) {
  const auto stack_adds_height = [](const std::string& collar) {
    const file::JobSpec job =
        read(changed(job_text("fork"), R"(role = "collar", name = "float collar")", collar));
    ResolveReport report;
    const auto post = resolve_post(job, *job.units[0].piston_valve, "post", report);
    return post->spacer_case.assembly.pieces[1].adds_height;
  };
  EXPECT_FALSE(stack_adds_height(R"(role = "collar", name = "float collar")"));
  EXPECT_FALSE(stack_adds_height(R"(role = "collar", name = "the thing with the shoulder")"));
  EXPECT_FALSE(stack_adds_height(R"(role = "collar")"));
  EXPECT_TRUE(stack_adds_height(R"(name = "float collar")"));
  EXPECT_TRUE(stack_adds_height(R"(role = "washer", name = "collar")"));
}

TEST(ResolvePost, ADrawerOfManySpacersIsCutToWhatTheSearchTakes) {
  std::string text = changed(job_text("fork"), "in_hand        = 4\n", "in_hand        = 40\n");
  const file::JobSpec job = read(text);
  ResolveReport report;
  const auto post = resolve_post(job, *job.units[0].piston_valve, "post", report);
  ASSERT_TRUE(post.has_value());
  int total = 0;
  for (const auto& line : post->spacer_case.stock) total += line.in_hand;
  EXPECT_LE(total, assembly::kMostSpacers);
}

// fill

// the flat face between pocket and seat is under pressure too, and its land goes on from there
TEST(ResolveStack, TheSeatsFaceCarriesPressureFromThePocketToItsEnd) {
  const std::string lone = job_text("lone-stack");  // seat 21 mm, pocket 13 to 20 mm over 70 % of the circle
  ResolveReport report;
  const auto outer_edge = [&](const std::string& text) {
    const file::JobSpec job = read(text);
    const auto model = resolve_stack(job, *job.stack, {"a stack", 0.0}, report);
    return model ? model->stack.load.land_outer_radius : -1.0;
  };
  EXPECT_NEAR(outer_edge(lone), 10.5e-3, 1e-12);
  EXPECT_NEAR(outer_edge(changed(lone, "seat      = \"21 mm\"", "seat = \"21 mm\"\nland = \"0.4 mm\"")),
              10.9e-3, 1e-12);
  // a pocket up to the edge has no face: all of the pressure acts up to there
  EXPECT_EQ(outer_edge(changed(lone, "outer = \"20 mm\"", "outer = \"21 mm\"")), 0.0);
  // nothing supports the disc: there is no face
  EXPECT_EQ(outer_edge(changed(lone, "seat      = \"21 mm\"", "seat = \"21 mm\"\nseat_support = false")),
            0.0);
  EXPECT_EQ(report.size(), 0u);
}

TEST(ResolvePost, AnOpenNutHasItsChamferAtBothFacesAndAClosedOneAtOne) {
  const auto nut = [](const char* more) {
    const file::JobSpec job =
        read(changed(job_text("fork"), "nut  = { part = \"post-nut\",",
                     "nut  = { part = \"post-nut\", chamfer = \"0.4 mm\"," + std::string(more)));
    ResolveReport report;
    const auto model = resolve_post(job, *job.units[0].piston_valve, "valve", report);
    EXPECT_TRUE(model.has_value());
    return model ? model->spacer_case.assembly.nut : assembly::Nut{};
  };
  EXPECT_DOUBLE_EQ(nut("").face_chamfer, 0.4e-3);
  EXPECT_DOUBLE_EQ(nut("").top_chamfer, 0.4e-3);
  EXPECT_DOUBLE_EQ(nut(" blind_depth = \"4 mm\",").face_chamfer, 0.4e-3);
  EXPECT_DOUBLE_EQ(nut(" blind_depth = \"4 mm\",").top_chamfer, 0.0);
}

TEST(ResolvePost, ACollarIsTheOneBesideItsStack) {
  const file::JobSpec job = read(job_text("fork"));
  const file::ValveSpec& valve = *job.units[0].piston_valve;
  const file::PieceSpec* collar = file::collar_of(valve, file::PieceKind::CompressionStack);
  ASSERT_NE(collar, nullptr);
  EXPECT_EQ(collar->name.value, "float collar");
  // the piston stands between it and the other stack
  EXPECT_EQ(file::collar_of(valve, file::PieceKind::ReboundStack), nullptr);
}

TEST(ResolvePost, WhatTheCollarLeavesIsItsLengthLessAllThatSlides) {
  const file::JobSpec job = read(job_text("fork"));
  ResolveReport report;
  const auto mid = resolve_post(job, *job.units[0].piston_valve, "valve", report);
  const auto base = resolve_post(job, *job.units[0].foot_valve, "valve", report);
  ASSERT_TRUE(mid && base);
  ASSERT_EQ(mid->floats.size(), 1u);
  EXPECT_NEAR(mid->floats[0].left.gap, 1.30e-3 - 0.85e-3, 1e-12);
  ASSERT_EQ(base->floats.size(), 1u);
  EXPECT_NEAR(base->floats[0].left.gap, 2.0e-3 - 0.3e-3 - 0.5e-3, 1e-12);  // the spring is pressed flat
}

TEST(ResolveFill, TheCompensatorTakesItsPistonTimesItsStroke) {
  const file::JobSpec job = read(job_text("fork"));
  ResolveReport report;
  const auto fill = resolve_fill(job, job.units[0], resolve_conditions(job), nullptr, report);
  ASSERT_TRUE(fill && fill->reservoir && fill->cartridge);
  EXPECT_NEAR(fill->reservoir->reservoir.capacity, disc_area(26e-3) * 85e-3, 1e-12);
  EXPECT_DOUBLE_EQ(fill->cartridge->length, 0.395);
}

}  // namespace
}  // namespace shimwright::resolve
