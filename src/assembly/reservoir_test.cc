#include "assembly/reservoir.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "assembly/fill.h"
#include "assembly/test_units.h"

namespace shimwright::assembly {
namespace {

constexpr double kMl = 1e-6;
constexpr double kBar = 1e5;
constexpr double kProductRounding = 1e-12;  // relative, of a few products

/// A shock of 16 mm rod: 70 mL at 11 bar absolute and 20 degC.
Reservoir shock() {
  return {.rod_area = circle(16e-3),
          .gas_volume = 70 * kMl,
          .gas_pressure = 11 * kBar,
          .set_temperature = 293.15};
}

// By hand, from the ideal gas law: the rod of 16 mm over 108 mm is 21.7147 mL.
TEST(Reservoir, TheFourStatesOfAShockByHand) {
  const double rod = 21.7147;
  const double growth = 12.0;
  struct Case {
    double travel, growth, temperature, bar;
  };
  const Case cases[] = {{0.0, 0.0, 293.15, 11.0},
                        {0.108, 0.0, 293.15, 11.0 * 70.0 / (70.0 - rod)},
                        {0.0, growth, 333.15, 11.0 * 333.15 / 293.15 * 70.0 / (70.0 - growth)},
                        {0.108, growth, 333.15, 11.0 * 333.15 / 293.15 * 70.0 / (70.0 - growth - rod)}};
  for (const Case& one : cases) {
    const ReservoirState state = reservoir_at(shock(), one.travel, one.growth * kMl, one.temperature);
    EXPECT_NEAR(state.pressure / kBar, one.bar, 1e-4 * one.bar);  // the rod's volume is read to 1e-4 mL
    EXPECT_FALSE(state.locked);
  }
}

TEST(Reservoir, GasThatIsLessThanRodAndGrowthIsAskedForTheDifference) {
  Reservoir little = shock();
  little.gas_volume = 30 * kMl;
  const ReservoirState state = reservoir_at(little, 0.108, 12.0 * kMl, 333.15);
  EXPECT_NEAR(state.room_left / kMl, 30.0 - 12.0 - 21.7147, 1e-4);
  EXPECT_TRUE(state.locked);
  EXPECT_EQ(state.gas_volume, 0.0);
}

TEST(Reservoir, TheTighterOfStopAndGasIsTold) {
  Reservoir both = shock();
  both.capacity = 25 * kMl;
  EXPECT_NEAR(reservoir_at(both, 0.108, 0.0, 293.15).room_left / kMl, 25.0 - 21.7147, 1e-4);
  both.capacity = 500 * kMl;
  EXPECT_NEAR(reservoir_at(both, 0.108, 0.0, 293.15).room_left / kMl, 70.0 - 21.7147, 1e-4);
}

// F0 + k x over the area, x what the oil pushes it: 90 N, 3 N/mm on 26 mm, a rod of 12 mm over 300 mm
TEST(Reservoir, APistonOnASpringByHand) {
  const Reservoir sprung{.rod_area = circle(12e-3),
                         .piston_area = circle(26e-3),
                         .spring_force = 90.0,
                         .spring_rate = 3000.0,
                         .outside_pressure = 98945.0};
  const double push = 300.0 * 12.0 * 12.0 / (26.0 * 26.0);  // [mm]
  const ReservoirState in = reservoir_at(sprung, 0.3, 0.0, 293.15);
  EXPECT_NEAR(in.pressure - 98945.0, (90.0 + 3.0 * push) / (std::numbers::pi * 169.0) * 1e6, 1e-3);
  EXPECT_EQ(reservoir_at(sprung, 0.3, 0.0, 353.15).pressure,
            in.pressure);  // no gas: heat acts by growth alone
}

RC_GTEST_PROP(ReservoirLaws, OilRodAndGasFillTheBodyInEveryState, ()) {
  const auto pick = [](double low, double high) {
    return low + (high - low) * *rc::gen::inRange(0, 10001) / 1e4;
  };
  const double bore = pick(18e-3, 50e-3);
  const double rod = pick(0.3, 0.6) * bore;
  const double travel = pick(0.05, 0.32);
  const double cold = pick(263.15, 303.15);
  const double rise = pick(0.0, 80.0);
  CartridgeFill fill{
      .bore = bore, .length = travel + pick(0.05, 0.1), .rod_diameter = rod, .rod_inside = pick(0.0, 0.04)};
  fill.solids = 0.1 * circle(bore) * fill.length;
  fill.elsewhere = pick(0.0, 100.0) * kMl;
  const double oil = oil_volume(fill);
  Warming warming{
      .oil_volume = oil, .oil_expansion = pick(5e-4, 1e-3), .body_expansion = pick(0.0, 3e-5), .rise = rise};
  const double growth = oil_growth(warming);
  Reservoir reservoir{
      .rod_area = circle(rod), .gas_pressure = pick(2.0, 20.0) * kBar, .set_temperature = cold};
  reservoir.gas_volume = (circle(rod) * travel + std::max(0.0, growth)) * pick(1.2, 4.0);

  // what the body holds, from the tube's own sizes: steel and oil and gas, nothing else
  const double body = circle(bore) * fill.length + fill.elsewhere + reservoir.gas_volume;
  for (const double share : {0.0, 0.5, 1.0}) {
    for (const bool warm : {false, true}) {
      const double s = share * travel;
      const double temperature = cold + (warm ? rise : 0.0);
      const ReservoirState state = reservoir_at(reservoir, s, warm ? growth : 0.0, temperature);
      const double steel = fill.solids + circle(rod) * (fill.rod_inside + s);
      const double oil_now = oil + (warm ? growth : 0.0);
      RC_ASSERT(std::abs(oil_now + steel + state.gas_volume - body) < kProductRounding * body);
      // the ideal gas law
      const double amount = reservoir.gas_pressure * reservoir.gas_volume / cold;
      RC_ASSERT(std::abs(state.pressure * state.gas_volume / temperature - amount) <
                kProductRounding * amount);
      RC_ASSERT(state.room_left == state.gas_volume);
    }
  }
}

RC_GTEST_PROP(ReservoirLaws, PressureRisesWithRodAndWithHeat, ()) {
  Reservoir reservoir = shock();
  const double growth = *rc::gen::inRange(0, 20) * kMl;
  const double travel = *rc::gen::inRange(0, 100) * 1e-3;
  const double warm = 293.15 + *rc::gen::inRange(0, 60);
  const double cold_out = reservoir_at(reservoir, travel, 0.0, 293.15).pressure;
  RC_ASSERT(reservoir_at(reservoir, travel, growth, warm).pressure >= cold_out);
  RC_ASSERT(reservoir_at(reservoir, travel + 8e-3, growth, warm).pressure >
            reservoir_at(reservoir, travel, growth, warm).pressure);
}

RC_GTEST_PROP(ReservoirLaws, TheSetPressureBringsWhatIsWanted, ()) {
  const double growth = *rc::gen::inRange(0, 20) * kMl;
  const double warm = 273.15 + *rc::gen::inRange(0, 80);
  const double wanted = *rc::gen::inRange(3, 40) * kBar;
  Reservoir charged = shock();
  charged.gas_pressure = set_pressure_for(charged, wanted, growth, warm);
  RC_ASSERT(std::abs(reservoir_at(charged, 0.0, growth, warm).pressure - wanted) < kProductRounding * wanted);

  Reservoir sprung{
      .rod_area = circle(12e-3), .piston_area = circle(26e-3), .spring_force = 90.0, .spring_rate = 3e3};
  const double set = set_pressure_for(sprung, wanted, growth, warm);
  sprung.spring_force = (set - sprung.outside_pressure) * sprung.piston_area;
  RC_PRE(sprung.spring_force >= 0.0);
  RC_ASSERT(std::abs(reservoir_at(sprung, 0.0, growth, warm).pressure - wanted) < 1e-9 * wanted);
}

TEST(Reservoir, WhatCannotBeIsAProblemByField) {
  EXPECT_TRUE(problems_in(shock()).empty());
  Reservoir bad = shock();
  bad.gas_volume = 0.0;
  bad.rod_area = 0.0;
  ASSERT_EQ(problems_in(bad).size(), 2u);
  EXPECT_EQ(problems_in(bad)[0].field, "rod_area");
  EXPECT_EQ(problems_in(bad)[1].field, "gas_volume");
}

}  // namespace
}  // namespace shimwright::assembly
