#include "ride/sag.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/check.h"

namespace shimwright::ride {
namespace {

using spring::AirSpring;
using spring::CoilStack;
using spring::TopOutSpring;
using spring::UnitSpring;

UnitSpring coil_leg(double rate, double preload) {
  return {0.3, {{"coil", CoilStack{{{rate, std::nullopt}}, preload}}}};
}

WheelSpring coil_fork(double rate, double preload) {
  return {{coil_leg(rate, preload), coil_leg(rate, preload)}, ForkAngle{0.0}};
}

/// Invented air fork: one leg springs, with a transfer port, the other damps.
WheelSpring air_fork() {
  AirSpring air;
  air.positive = {.area = 1.0e-3, .empty_volume = 0.45e-3, .pressure = 1.0e6};
  air.negative = spring::AirChamber{.area = 0.9e-3, .empty_volume = 0.06e-3};
  air.balance_travel = 0.005;
  return {{{0.3, {{"air", air}}}, {0.3, {}}}, ForkAngle{0.4}};
}

TEST(Sag, OfALinearSpringIsLoadOverRateLessPreload) {
  // hand calculation: 60 kg on 2 x 4.5 N/mm with 10 mm preload
  const Sag sag = sag_under(60.0, coil_fork(4500.0, 0.01), {});
  EXPECT_NEAR(sag.wheel_travel, 60.0 * 9.80665 / 9000.0 - 0.01, 1e-12);
  EXPECT_NEAR(sag.share, sag.wheel_travel / 0.3, 1e-15);
  EXPECT_NEAR(sag.load, 588.399, 1e-9);
  EXPECT_FALSE(sag.topped_out || sag.bottomed);
  EXPECT_TRUE(sag.outcome.ok());
}

TEST(Sag, ToppedOutAndBottomedAreSaid) {
  const Sag light = sag_under(5.0, coil_fork(4500.0, 0.01), {});
  EXPECT_TRUE(light.topped_out);
  EXPECT_EQ(light.wheel_travel, 0.0);
  EXPECT_TRUE(light.outcome.ok());
  const Sag heavy = sag_under(500.0, coil_fork(4500.0, 0.01), {});
  EXPECT_TRUE(heavy.bottomed);
  EXPECT_EQ(heavy.wheel_travel, 0.3);
  EXPECT_EQ(heavy.outcome.status, Status::OutOfRange);
  // springs carry 2790 N of 4903 N
  EXPECT_NEAR(heavy.outcome.residual, 1.0 - 2790.0 / (500.0 * kGravity), 1e-12);
}

TEST(Sag, TopOutSpringsLetTheMachineSettleAtAnyLoad) {
  UnitSpring leg = coil_leg(4500.0, 0.005);
  leg.elements.push_back({"top-out", TopOutSpring{8e3, 0.02}});
  const Sag sag = sag_under(0.0, {{leg, leg}, ForkAngle{0.0}}, {});
  // 4.5 (5 + x) = 8 (20 - x), all in N/mm and mm
  EXPECT_NEAR(sag.wheel_travel, (8.0 * 20.0 - 4.5 * 5.0) / 12.5 * 1e-3, 1e-12);
  EXPECT_FALSE(sag.topped_out);
}

TEST(Sag, UsualTargetsAreRangesInsideTheTravel) {
  for (const Use use : {Use::Road, Use::OffRoad}) {
    for (const End end : {End::Front, End::Rear}) {
      const SagTarget target = usual_sag(use, end);
      EXPECT_LT(0.0, target.machine_alone.low);
      EXPECT_LT(target.machine_alone.low, target.machine_alone.high);
      EXPECT_LE(target.machine_alone.high, target.with_rider.low);
      EXPECT_LT(target.with_rider.low, target.with_rider.high);
      EXPECT_LT(target.with_rider.high, 0.5);
    }
  }
  // common practice: an off-road rear end of 300 mm sags about 95 to 110 mm with its rider
  const SagTarget rear = usual_sag(Use::OffRoad, End::Rear);
  EXPECT_NEAR(rear.with_rider.low * 300.0, 95.0, 3.0);
  EXPECT_NEAR(rear.with_rider.high * 300.0, 110.0, 3.0);
}

TEST(Sag, UsualTargetsAreThoseOfTheTrade) {
  // a second copy of the table [share of travel]; common practice, no source
  struct Row {
    Use use;
    End end;
    double alone_low, alone_high, rider_low, rider_high;
  };
  const Row rows[] = {{Use::Road, End::Front, 0.15, 0.25, 0.30, 0.35},
                      {Use::Road, End::Rear, 0.05, 0.15, 0.25, 0.33},
                      {Use::OffRoad, End::Front, 0.08, 0.15, 0.20, 0.25},
                      {Use::OffRoad, End::Rear, 0.08, 0.15, 0.31, 0.37}};
  for (const Row& row : rows) {
    const SagTarget target = usual_sag(row.use, row.end);
    EXPECT_EQ(target.machine_alone.low, row.alone_low);
    EXPECT_EQ(target.machine_alone.high, row.alone_high);
    EXPECT_EQ(target.with_rider.low, row.rider_low);
    EXPECT_EQ(target.with_rider.high, row.rider_high);
  }
}

TEST(SagAdvice, EachSettingAloneBringsTheRiderToTheTarget) {
  const SprungMass mass{50.0, 45.0};
  for (const WheelSpring& wheel : {coil_fork(4500.0, 0.01), air_fork()}) {
    const SagAdvice advice = advice_for(0.07, mass, wheel, {});
    ASSERT_FALSE(advice.settings.empty());
    for (const SagSetting& setting : advice.settings) {
      const WheelSpring after = with_setting(wheel, setting.knob, setting.change);
      EXPECT_NEAR(sag_under(95.0, after, {}).wheel_travel, 0.07,
                  1e-9);  // two roots, 1e-12 of a range up to 10
      EXPECT_EQ(sag_under(50.0, after, {}).wheel_travel, setting.machine_alone.wheel_travel);
    }
  }
}

TEST(SagAdvice, OffersOnlyTheKnobsTheWheelHas) {
  const auto knobs = [](const SagAdvice& advice) {
    std::vector<Knob> list;
    for (const SagSetting& setting : advice.settings) list.push_back(setting.knob);
    return list;
  };
  EXPECT_THAT(knobs(advice_for(0.07, {50.0, 45.0}, coil_fork(4500.0, 0.01), {})),
              testing::ElementsAre(Knob::Preload, Knob::Rate));
  EXPECT_THAT(knobs(advice_for(0.07, {50.0, 45.0}, air_fork(), {})), testing::ElementsAre(Knob::Pressure));
  EXPECT_THAT(knobs(advice_for(0.07, {50.0, 45.0}, {{{0.3, {}}}, ForkAngle{0.0}}, {})), testing::IsEmpty());
}

TEST(SagAdvice, GivesThePreloadOfAHandCalculation) {
  // 95 kg on 9 N/mm at 70 mm: 931.63 / 9 - 70 = 33.515 mm of preload, 23.515 more than there is
  const SagAdvice advice = advice_for(0.07, {50.0, 45.0}, coil_fork(4500.0, 0.01), {});
  EXPECT_NEAR(advice.missing_force, 95.0 * kGravity - 720.0, 1e-9);
  EXPECT_NEAR(advice.settings[0].change, 95.0 * kGravity / 9000.0 - 0.07 - 0.01, 1e-9);
  EXPECT_NEAR(advice.settings[1].change, 95.0 * kGravity / 720.0 - 1.0, 1e-9);
}

TEST(SagAdvice, OffersNoPreloadThatIsLessThanNoneOrMakesTheCoilSolid) {
  // far too hard a spring: no preload is small enough
  const SagAdvice hard = advice_for(0.09, {20.0, 20.0}, coil_fork(9000.0, 0.002), {});
  ASSERT_EQ(hard.settings.size(), 1u);
  EXPECT_EQ(hard.settings[0].knob, Knob::Rate);
  // far too soft, and 120 mm of compression is all it has
  UnitSpring leg = coil_leg(3000.0, 0.01);
  std::get<CoilStack>(leg.elements[0].law).in_series[0].bind_compression = 0.12;
  const SagAdvice soft = advice_for(0.07, {60.0, 60.0}, {{leg, leg}, ForkAngle{0.0}}, {});
  ASSERT_EQ(soft.settings.size(), 1u);
  EXPECT_EQ(soft.settings[0].knob, Knob::Rate);
}

TEST(SagAdvice, APreloadedSoftSpringShowsTooLittleStaticSag) {
  // the workshop's rule: rider sag set right, static sag shows whether the spring suits the rider
  const SprungMass mass{50.0, 45.0};
  const auto static_sag = [&](double rate) {
    return advice_for(0.09, mass, coil_fork(rate, 0.01), {}).settings.at(0).machine_alone.wheel_travel;
  };
  EXPECT_LT(static_sag(3500.0), static_sag(4500.0));
}

TEST(Sag, OfANegativeMassIsABug) {
  EXPECT_THROW(static_cast<void>(sag_under(-1.0, coil_fork(4500.0, 0.0), {})), LogicFault);
}

RC_GTEST_PROP(SagProperty, MoreMassSagsMoreAndTheSpringsThenCarryIt, ()) {
  const double mass = *rc::gen::inRange(30, 150);
  const WheelSpring wheel = *rc::gen::inRange(0, 2) == 0 ? air_fork() : coil_fork(4500.0, 0.01);
  const Sag sag = sag_under(mass, wheel, {});
  RC_ASSERT(sag.outcome.ok());
  if (!sag.topped_out) {
    // travel closed to 1e-12 of 0.3 m at rates below 1e5 N/m
    RC_ASSERT(std::abs(wheel_force_at(wheel, {}, sag.wheel_travel).force - mass * kGravity) < 1e-6);
  }
  RC_ASSERT(sag_under(mass + 1.0, wheel, {}).wheel_travel >= sag.wheel_travel);
}

}  // namespace
}  // namespace shimwright::ride
