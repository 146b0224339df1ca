#include "spring/coil.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

#include "base/check.h"

namespace shimwright::spring {
namespace {

constexpr double kPoundPerInch = 175.1268352464;  // [N/m], exact by definition of inch and pound

/// got within a relative tolerance of the expected value
void expect_within(double got, double expected, double relative) {
  EXPECT_NEAR(got, expected, relative * std::abs(expected));
}

CoilGeometry shock_spring() {  // SP-02
  return {.wire_diameter = 12e-3,
          .mean_diameter = 60e-3,
          .active_coils = 6.5,
          .total_coils = 8.5,
          .free_length = 220e-3,
          .shear_modulus = 78.5e9};
}

TEST(CoilReference, RateOfAForkSpring) {
  // SP-01: closed form by an independent script to 1e-5, its own tolerance; exact is 1.393168 N/mm
  expect_within(
      coil_rate(
          {.wire_diameter = 4.5e-3, .mean_diameter = 36.5e-3, .active_coils = 60, .shear_modulus = 79.3e9}),
      1.393166e3, 1e-5);
}

TEST(CoilReference, RateAndStressOfAShockSpring) {
  // SP-02: by an independent script; stresses in MPa at 1000 N, five printed digits
  const CoilGeometry coil = shock_spring();
  expect_within(coil_rate(coil), 144.9231e3, 1e-6);
  EXPECT_DOUBLE_EQ(spring_index(coil), 5.0);
  expect_within(wahl_factor(5.0), 1.31050, 1e-5);
  expect_within(bergstraesser_factor(5.0), 1.29412, 1e-5);
  expect_within(shear_stress(coil, 1000.0, wahl_factor(5.0)), 115.87e6, 1e-4);
  expect_within(shear_stress(coil, 1000.0, bergstraesser_factor(5.0)), 114.43e6, 1e-4);
  expect_within(shear_stress(coil, 1000.0, 1.0), 88.42e6, 1e-4);
}

TEST(CoilReference, RateOfATextbookExample) {
  // SP-04: Shigley, Mechanical Engineering Design, example 10-1 (from memory): 4.13 lbf/in, three printed
  // digits
  const double inch = 25.4e-3, psi = 6894.757293168361;
  const CoilGeometry coil{.wire_diameter = .037 * inch,
                          .mean_diameter = .400 * inch,
                          .active_coils = 10.5,
                          .shear_modulus = 11.85e6 * psi};
  expect_within(coil_rate(coil), 4.13 * kPoundPerInch, 3e-3);
  expect_within(coil_rate(coil), 0.7235e3, 3e-4);
}

TEST(Coil, CutShortItIsStifferByTheCoilsLost) {
  CoilGeometry coil = shock_spring();
  const double rate = coil_rate(coil);
  coil.active_coils *= 0.8;
  expect_within(coil_rate(coil), rate / 0.8, 1e-14);  // rounding
}

TEST(Coil, BindsWhenItsTotalCoilsTouch) {
  EXPECT_DOUBLE_EQ(solid_length(shock_spring()), 0.102);
  EXPECT_DOUBLE_EQ(bind_compression(shock_spring()), 0.118);
}

TEST(Coil, RatesAddSideBySideAndTheirInversesEndToEnd) {
  const std::array<double, 3> rates{6.0, 3.0, 2.0};
  EXPECT_DOUBLE_EQ(rate_in_parallel(rates), 11.0);
  EXPECT_DOUBLE_EQ(rate_in_series(rates), 1.0);
}

TEST(CoilStack, OneCoilIsRateTimesPreloadAndTravel) {
  const CoilStack stack{{{9e3, std::nullopt}}, 0.01};
  const ElementForce here = coil_force(stack, 0.05);
  EXPECT_DOUBLE_EQ(here.force, 9e3 * 0.06);
  EXPECT_DOUBLE_EQ(here.rate, 9e3);
  EXPECT_DOUBLE_EQ(here.energy, 0.5 * 9e3 * (0.06 * 0.06 - 0.01 * 0.01));
  EXPECT_EQ(bind_travel(stack), std::nullopt);
}

TEST(CoilStack, WithoutPreloadItHasItsRateFromTheFirstMillimetreOn) {
  const CoilStack stack{{{9e3, std::nullopt}}, 0.0};
  EXPECT_EQ(coil_force(stack, 0.0).force, 0.0);
  EXPECT_DOUBLE_EQ(coil_force(stack, 0.0).rate, 9e3);
  EXPECT_DOUBLE_EQ(coil_force(stack, 1e-12).rate, 9e3);
}

TEST(CoilStack, ShorterThanItsRoomItWaitsAndNeverPulls) {
  const CoilStack stack{{{9e3, std::nullopt}}, -0.02};
  EXPECT_EQ(coil_force(stack, 0.019).force, 0.0);
  EXPECT_EQ(coil_force(stack, 0.019).rate, 0.0);
  EXPECT_NEAR(coil_force(stack, 0.03).force, 90.0, 1e-9);
}

TEST(CoilStack, DualRateCrossesOverWhenTheSoftCoilBinds) {
  // hand calculation: 40 and 60 N/mm give 24 in series; the soft one is solid after 20 mm, at 800 N, where
  // the hard one has gone 13.333 mm; from there on the hard one works alone
  const CoilStack stack{{{60e3, std::nullopt}, {40e3, 0.02}}, 0.0};
  EXPECT_NEAR(coil_force(stack, 0.01).force, 240.0, 1e-9);
  EXPECT_NEAR(coil_force(stack, 0.01).rate, 24e3, 1e-9);
  ASSERT_EQ(crossover_travels(stack).size(), 1u);
  const double crossover = crossover_travels(stack)[0];
  EXPECT_NEAR(crossover, 0.02 + 800.0 / 60e3, 1e-15);
  EXPECT_NEAR(coil_force(stack, crossover - 1e-12).force, 800.0,
              1e-6);  // no step in the force: 1e-12 m x 60e3 N/m
  EXPECT_NEAR(coil_force(stack, crossover + 1e-12).force, 800.0, 1e-6);
  EXPECT_NEAR(coil_force(stack, crossover + 0.01).force, 1400.0, 1e-9);
  EXPECT_NEAR(coil_force(stack, crossover + 0.01).rate, 60e3, 1e-9);
  EXPECT_EQ(bind_travel(stack), std::nullopt);
}

TEST(CoilStack, IsSolidWhenEveryCoilIs) {
  const CoilStack stack{{{60e3, 0.05}, {40e3, 0.02}}, 0.005};
  EXPECT_NEAR(*bind_travel(stack), 0.05 + 0.02 - 0.005, 1e-15);
  EXPECT_NEAR(coil_force(stack, *bind_travel(stack)).force, 60e3 * 0.05, 1e-9);
}

TEST(CoilStack, WithoutACoilIsABug) {
  EXPECT_THROW(static_cast<void>(coil_force({}, 0.0)), LogicFault);
}

}  // namespace
}  // namespace shimwright::spring
