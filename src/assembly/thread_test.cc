#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "assembly/thread.h"
#include "base/check.h"

namespace shimwright::assembly {
namespace {

TEST(Thread, CoarsePitchIsKnownForListedSizesOnly) {
  EXPECT_DOUBLE_EQ(coarse_pitch(6e-3).value(), 1e-3);
  EXPECT_DOUBLE_EQ(coarse_pitch(12e-3).value(), 1.75e-3);
  EXPECT_FALSE(coarse_pitch(6.35e-3));
  EXPECT_FALSE(coarse_pitch(0.0));
}

TEST(Thread, ListedThreadsAreToldFromSlipsOfThePen) {
  EXPECT_TRUE(is_listed(nominal_thread(12e-3, 1.25e-3)));
  EXPECT_FALSE(is_listed(nominal_thread(12e-3, 1.1e-3)));
  EXPECT_FALSE(is_listed(nominal_thread(6.35e-3, 1e-3)));
  EXPECT_TRUE(is_listed(unified_thread(0.25 * 0.0254, 28)));
  EXPECT_TRUE(is_listed(unified_thread(0.25 * 0.0254, 20)));
  EXPECT_FALSE(is_listed(unified_thread(0.25 * 0.0254, 24)));
}

TEST(Thread, ImpossibleSizesAreProblemsByField) {
  const auto first_field = [](double diameter, double pitch) {
    const Problems problems = problems_in(nominal_thread(diameter, pitch));
    return problems.empty() ? std::string() : problems.front().field;
  };
  EXPECT_EQ(first_field(6e-3, 1e-3), "");
  EXPECT_EQ(first_field(0.0, 1e-3), "diameter");
  EXPECT_EQ(first_field(std::numeric_limits<double>::quiet_NaN(), 1e-3), "diameter");
  EXPECT_EQ(first_field(6e-3, -1e-3), "pitch");
  EXPECT_EQ(first_field(6e-3, 3e-3), "pitch");
  EXPECT_EQ(problems_in(nominal_thread(0.0, 0.0)).size(), 2u);
}

TEST(Thread, ABoreTakesItsOwnAreaOff) {
  const Thread thread = nominal_thread(8e-3, 1e-3);
  EXPECT_NEAR(stress_area(thread) - stress_area(thread, 4e-3), 0.25 * std::numbers::pi * 16e-6, 1e-18);
  EXPECT_THROW(stress_area(thread, 8e-3), LogicFault);
}

// The standard rounds its formulas to the R40 series (steps of 6 %), now and then one step off: one and a
// half steps is as far as any entry lies.
TEST(Thread, TheToleranceTableFollowsItsFormulaToTheRoundingOfTheStandard) {
  constexpr double kR40Step = 0.0593;
  const double tolerance = 1.5 * kR40Step;
  struct Size {
    double diameter, pitch;
  };
  constexpr Size kTableSizes[] = {{3, 0.5},   {3.5, 0.6}, {4, 0.7},   {4.5, 0.75}, {5, 0.8},
                                  {6, 0.75},  {6, 1},     {8, 1.25},  {10, 1.5},   {12, 1},
                                  {12, 1.25}, {12, 1.5},  {12, 1.75}, {16, 2},     {20, 2.5},
                                  {24, 1},    {24, 1.5},  {24, 2},    {24, 3}};
  for (const Size& size : kTableSizes) {
    SCOPED_TRACE(testing::Message() << "M" << size.diameter << " x " << size.pitch);
    const Thread thread = nominal_thread(size.diameter * 1e-3, size.pitch * 1e-3);
    const ThreadLimits table = medium_fit_limits(thread);
    const ThreadLimits formula = metric_formula_limits(thread);
    ASSERT_EQ(table.source, LimitSource::Table);
    ASSERT_EQ(formula.source, LimitSource::Formula);
    const auto expect_close = [&](const char* what, double by_table, double by_formula) {
      EXPECT_NEAR(by_table / by_formula, 1.0, tolerance) << what;
    };
    expect_close("T_d", table.external_major_max - table.external_major_min,
                 formula.external_major_max - formula.external_major_min);
    expect_close("T_d2", table.external_pitch_max - table.external_pitch_min,
                 formula.external_pitch_max - formula.external_pitch_min);
    expect_close("T_D1", table.internal_minor_max - table.internal_minor_min,
                 formula.internal_minor_max - formula.internal_minor_min);
    expect_close("T_D2", table.internal_pitch_max - table.internal_pitch_min,
                 formula.internal_pitch_max - formula.internal_pitch_min);
    expect_close("es", thread.diameter - table.external_major_max,
                 thread.diameter - formula.external_major_max);
  }
}

// ISO 965-1, grade 6, position g and H: the widths of the limits [um], typed a second time, by size; from
// memory.
TEST(Thread, TheToleranceTableIsThatOfTheStandard) {
  struct Row {
    double diameter, pitch;            // [mm]
    double es, t_d, t_d2, t_d1, t_D2;  // [um]
  };
  constexpr Row kRows[] = {{3, 0.5, 20, 106, 75, 140, 100},    {3.5, 0.6, 21, 125, 85, 160, 112},
                           {4, 0.7, 22, 140, 90, 180, 118},    {4.5, 0.75, 22, 140, 90, 190, 118},
                           {5, 0.8, 24, 150, 95, 200, 125},    {6, 0.75, 22, 140, 100, 190, 132},
                           {6, 1, 26, 180, 112, 236, 150},     {8, 1.25, 28, 212, 118, 265, 160},
                           {10, 1.5, 32, 236, 132, 300, 180},  {12, 1, 26, 180, 118, 236, 160},
                           {12, 1.25, 28, 212, 132, 265, 180}, {12, 1.5, 32, 236, 140, 300, 190},
                           {12, 1.75, 34, 265, 150, 335, 200}, {16, 2, 38, 280, 160, 375, 212},
                           {20, 2.5, 42, 335, 170, 450, 224},  {24, 1, 26, 180, 125, 236, 170},
                           {24, 1.5, 32, 236, 150, 300, 200},  {24, 2, 38, 280, 170, 375, 224},
                           {24, 3, 48, 375, 200, 500, 265},    {5.6, 0.5, 20, 106, 75, 140, 100},
                           {11.2, 1, 26, 180, 112, 236, 150},  {22.4, 1, 26, 180, 118, 236, 160},
                           {45, 1, 26, 180, 125, 236, 170}};
  constexpr double kMicron = 1e-6;
  for (const Row& row : kRows) {
    SCOPED_TRACE(testing::Message() << "M" << row.diameter << " x " << row.pitch);
    const Thread thread = nominal_thread(row.diameter * 1e-3, row.pitch * 1e-3);
    const ThreadLimits limits = medium_fit_limits(thread);
    ASSERT_EQ(limits.source, LimitSource::Table);
    EXPECT_NEAR(thread.diameter - limits.external_major_max, row.es * kMicron, 1e-10);
    EXPECT_NEAR(limits.external_major_max - limits.external_major_min, row.t_d * kMicron, 1e-10);
    EXPECT_NEAR(limits.external_pitch_max - limits.external_pitch_min, row.t_d2 * kMicron, 1e-10);
    EXPECT_NEAR(limits.internal_minor_max - limits.internal_minor_min, row.t_d1 * kMicron, 1e-10);
    EXPECT_NEAR(limits.internal_pitch_max - limits.internal_pitch_min, row.t_D2 * kMicron, 1e-10);
  }
  // beside the ranges there is no row
  for (const auto& [diameter, pitch] : {std::pair{2.8, 0.5}, std::pair{5.6, 1.0}, std::pair{11.2, 2.0}})
    EXPECT_EQ(medium_fit_limits(nominal_thread(diameter * 1e-3, pitch * 1e-3)).source, LimitSource::Formula);
}

// by hand, ISO 965-1 for pitches below 1 mm: T_D1 = 433 P - 190 P^1.22; at 0.5 mm 216.5 - 81.57 = 134.93 um
TEST(Thread, TheFormulaOfAFinePitchByHand) {
  const ThreadLimits limits = metric_formula_limits(nominal_thread(3e-3, 0.5e-3));
  EXPECT_NEAR(limits.internal_minor_max - limits.internal_minor_min, 134.93e-6, 0.02e-6);
}

TEST(Thread, AnUnlistedPitchTakesItsLimitsFromTheFormula) {
  EXPECT_EQ(medium_fit_limits(nominal_thread(12e-3, 1.1e-3)).source, LimitSource::Formula);
  EXPECT_EQ(medium_fit_limits(unified_thread(0.25 * 0.0254, 28)).source, LimitSource::Formula);
}

TEST(Thread, LimitsLeaveClearanceBetweenPostAndNut) {
  for (const Thread& thread : {nominal_thread(6e-3, 1e-3), nominal_thread(7.3e-3, 0.9e-3),
                               unified_thread(0.19 * 0.0254, 32), unified_thread(0.25 * 0.0254, 28)}) {
    const ThreadLimits limits = medium_fit_limits(thread);
    EXPECT_LT(limits.external_pitch_max, limits.internal_pitch_min);
    EXPECT_LT(limits.external_pitch_min, limits.external_pitch_max);
    EXPECT_LT(limits.internal_pitch_min, limits.internal_pitch_max);
    EXPECT_LT(limits.internal_minor_min, limits.internal_minor_max);
    EXPECT_LT(limits.internal_minor_max, limits.external_major_min);
  }
}

}  // namespace
}  // namespace shimwright::assembly
