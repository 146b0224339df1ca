#include "spring/air_spring.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

#include "base/check.h"
#include "spring/atmosphere.h"

namespace shimwright::spring {
namespace {

double circle(double diameter) {
  return std::numbers::pi / 4.0 * diameter * diameter;
}

void check(double got, double expected, double relative) {
  EXPECT_NEAR(got, expected, relative * std::abs(expected));
}

/// SP-06: a 43 mm bore with 140 mm of air at one atmosphere.
AirSpring open_fork(double exponent) {
  AirSpring spring;
  spring.positive.area = circle(0.043);
  spring.positive.empty_volume = circle(0.043) * 0.140;
  spring.positive.exponent = exponent;
  return spring;
}

/// Sealed gas at 1.0 MPa gauge at 20 degC at sea level, on a rod; so much of it that travel hardly matters.
AirSpring reservoir(double rod_diameter) {
  AirSpring spring;
  spring.positive.area = circle(rod_diameter);
  spring.positive.empty_volume = 100e-6;
  spring.positive.pressure = 1.101325e6;
  return spring;
}

TEST(AirSpringReference, TrappedAirOfAForkOverItsTravel) {
  // SP-06: polytropic air, by an independent script, three printed decimals of a newton
  struct Row {
    double exponent;
    std::vector<std::pair<double, double>> points;  // travel m, force N
  };
  const std::vector<Row> rows{{1.0, {{.05, 81.747}, {.10, 367.861}, {.12, 882.866}}},
                              {1.2, {{.05, 102.894}, {.10, 514.501}, {.12, 1372.917}}},
                              {1.4, {{.05, 125.994}, {.10, 702.894}, {.12, 2096.121}}}};
  for (const Row& row : rows) {
    for (const auto& [travel, force] : row.points)
      check(air_force(open_fork(row.exponent), {}, travel).force, force, 1e-5);
  }
  // SP-07: rates at 100 mm
  check(air_force(open_fork(1.0), {}, 0.1).rate, 12.8751e3, 1e-5);
  check(air_force(open_fork(1.2), {}, 0.1).rate, 19.8494e3, 1e-5);
  check(air_force(open_fork(1.4), {}, 0.1).rate, 29.7514e3, 1e-5);
}

TEST(AirSpringReference, GaugeAfterWarmingAndAfterAClimb) {
  // SP-09: ideal gas at constant volume from 20 to 60 degC; SP-10: the same gas at 2000 m, ISO 2533
  check(gauge_reading(reservoir(0.012), {.temperature = 333.15}), 1.150275e6, 1e-6);
  check(gauge_reading(reservoir(0.012), {.ambient_pressure = ambient_pressure(2000.0)}), 1.021830e6, 1e-6);
}

TEST(AirSpringReference, GasPushesTheRodOutByPressureTimesItsArea) {
  // HY-01: 1.0 MPa gauge on rods of 12 and 16 mm
  check(air_force(reservoir(0.012), {}, 0.0).force, 113.0973, 1e-6);
  check(air_force(reservoir(0.016), {}, 0.0).force, 201.0619, 1e-6);
  // HY-09: outwards at every travel as long as the gas is above ambient, and inwards below it
  for (const double travel : {0.0, 0.03, 0.06}) EXPECT_GT(air_force(reservoir(0.012), {}, travel).force, 0.0);
  EXPECT_LT(air_force(reservoir(0.012), {.ambient_pressure = 1.2e6}, 0.0).force, 0.0);
}

TEST(AirSpringReference, QuickBubblesHeatAndShrink) {
  // AR-02: 0.1 to 1 MPa without heat flow, Rabie eqs 2.86 to 2.89
  check(adiabatic_temperature(288.15, 10.0) - 288.15, 268.18, 1e-4);
  AirSpring bubble;
  bubble.positive = {.area = 1.0, .empty_volume = 1.0, .pressure = 0.1e6, .exponent = 1.4};
  check(air_pressures(bubble, {}, 1.0 - .193070).positive, 1e6, 1e-4);
}

AirSpring balanced() {
  AirSpring spring;
  spring.positive = {.area = circle(0.030), .empty_volume = 130e-6, .pressure = 0.8e6};
  spring.negative = AirChamber{.area = circle(0.030) - circle(0.010), .empty_volume = 25e-6, .pressure = 1.0};
  spring.balance_travel = 0.004;
  return spring;
}

TEST(AirSpring, TransferPortMakesBothPressuresEqualThere) {
  for (const double kelvin : {263.15, 293.15, 333.15}) {
    const AirPressures at_port = air_pressures(balanced(), {.temperature = kelvin}, 0.004);
    check(*at_port.negative, at_port.positive, 1e-14);  // rounding of two powers
  }
  EXPECT_GT(*air_pressures(balanced(), {}, 0.0).negative, air_pressures(balanced(), {}, 0.0).positive);
  EXPECT_LT(*air_pressures(balanced(), {}, 0.1).negative, air_pressures(balanced(), {}, 0.1).positive);
}

TEST(AirSpring, NegativeChamberTakesTheStartOffAndLeavesTheEnd) {
  AirSpring alone = balanced();
  alone.negative.reset();
  alone.balance_travel.reset();
  const double start = air_force(alone, {}, 0.0).force - air_force(balanced(), {}, 0.0).force;
  const double end = air_force(alone, {}, 0.12).force - air_force(balanced(), {}, 0.12).force;
  EXPECT_GT(start, 4.0 * end);
  EXPECT_GT(end, 0.0);
  EXPECT_GT(air_force(balanced(), {}, 0.0).rate, air_force(alone, {}, 0.0).rate);
}

TEST(AirSpring, OilInTheChamberIsVolumeLost) {
  AirSpring with_oil = balanced(), smaller = balanced();
  with_oil.positive.oil_volume = 5e-6;
  smaller.positive.empty_volume -= 5e-6;
  EXPECT_EQ(air_force(with_oil, {}, 0.1).force, air_force(smaller, {}, 0.1).force);
}

TEST(AirSpring, ForceStaysWhereItWasOnceTheAirIsUsedUp) {
  const AirSpring spring = open_fork(1.2);
  const double end = air_end_travel(spring);
  check(end, 0.98 * 0.140, 1e-14);  // 1/50 of the volume is left
  const ElementForce there = air_force(spring, {}, end), beyond = air_force(spring, {}, 0.2);
  EXPECT_EQ(beyond.force, there.force);
  EXPECT_EQ(beyond.rate, 0.0);
  check(beyond.energy, there.energy + there.force * (0.2 - end), 1e-14);
}

TEST(AirSpring, WithoutAirIsABug) {
  AirSpring spring = open_fork(1.2);
  spring.positive.oil_volume = spring.positive.empty_volume;
  EXPECT_THROW(static_cast<void>(air_force(spring, {}, 0.0)), LogicFault);
}

}  // namespace
}  // namespace shimwright::spring
