// What the rod and the heat ask of the reservoir, through the whole chain: told, judged, and the same in
// every command. Closed forms: ideal gas law; the density law of ASTM D1250 as oil/oil.h states it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

#include "job/run_bench.h"
#include "job/test_jobs.h"
#include "spring/atmosphere.h"

namespace shimwright::job {
namespace {

using testing_jobs::changed;
using testing_jobs::find;
using testing_jobs::job_text;
using testing_jobs::n_of;
using testing_jobs::read;
using testing_jobs::run;

constexpr double kMl = 1e-6;
constexpr double kBar = 1e5;

/// The shock of the tests by hand: 16 mm rod over 108 mm, 70 mL at 10 bar(g) and 20 degC, at 200 m.
struct ByHand {
  double rod = 0.25 * std::numbers::pi * 0.016 * 0.016;
  double ambient = spring::ambient_pressure(200.0);
  // 46 mm over 215 mm, less 25 mm of rod and 28 mL of parts, and 75 mL in the reservoir
  double oil =
      0.25 * std::numbers::pi * (0.046 * 0.046 * 0.215 - 0.016 * 0.016 * 0.025) - 28 * kMl + 75 * kMl;

  double growth(double to) const {
    const auto density = [](double celsius) {
      const double x = 0.00082 * (celsius - 15.0);
      return std::exp(-x * (1.0 + 0.8 * x));
    };
    return oil * (density(20.0) / density(to) - 1.0 - 3.0 * 23e-6 * (to - 20.0));
  }
  double pressure(double gas, double travel, double celsius, double gauge = 10 * kBar) const {
    const double left = gas - rod * travel - growth(celsius);
    return (gauge + ambient) * (celsius + 273.15) / 293.15 * gas / left;
  }
};

const document::ReservoirResult& reservoir_of(const document::ResultDocument& document) {
  return *document.units.at(0).reservoir;
}

TEST(ReservoirOfAJob, TellsItsPressuresColdAndWarmRodOutAndIn) {
  const ByHand hand;
  const document::ResultDocument document = run(job_text("shock"));
  const document::ReservoirResult& reservoir = reservoir_of(document);
  EXPECT_NEAR(reservoir.oil_volume, hand.oil, 1e-12);
  EXPECT_NEAR(reservoir.growth, hand.growth(60.0), 1e-12);
  ASSERT_EQ(reservoir.states.size(), 4u);
  std::size_t i = 0;
  for (const double celsius : {20.0, 60.0}) {
    for (const double travel : {0.0, 0.108}) {
      const document::ReservoirState& state = reservoir.states[i++];
      const double pressure = hand.pressure(70 * kMl, travel, celsius);
      EXPECT_NEAR(state.pressure, pressure, 1e-9 * pressure);
      EXPECT_NEAR(state.rod_force, (pressure - hand.ambient) * hand.rod, 1e-6);
      EXPECT_EQ(state.rod_at, travel > 0.0 ? document::RodAt::FullyIn : document::RodAt::FullyOut);
    }
  }
}

// "201 N at 20 degC; by hand 283 N at 60": what the gas does to the rod, in the force curve and on the bench
TEST(ReservoirOfAJob, ForceAndBenchPushTheRodWithTheGasOfTheirTemperature) {
  const ByHand hand;
  for (const double celsius : {20.0, 60.0, 90.0}) {
    SCOPED_TRACE(celsius);
    const std::string text = changed(job_text("shock"), "oil_temperature  = \"60 degC\"",
                                     "oil_temperature = \"" + std::to_string(celsius) + " degC\"");
    const double expected = (hand.pressure(70 * kMl, 0.0, celsius) - hand.ambient) * hand.rod;
    const document::ResultDocument document = run(text);
    EXPECT_NEAR(document.units.at(0).force->static_rod_force, expected, 1e-6);
    if (celsius == 20.0) {
      EXPECT_NEAR(expected, 201.06, 0.01);  // 10 bar(g) x 2.0106 cm2
    }
  }
}

TEST(ReservoirOfAJob, BubblesInTheOilLeaveTheStatedPressureOnTheBenchToo) {
  for (const char* air : {"0 %", "0.2 %", "3 %"}) {
    SCOPED_TRACE(air);
    const std::string text = changed(job_text("shock"), "entrained_air        = \"0.2 %\"",
                                     "entrained_air = \"" + std::string(air) + "\"");
    const document::ResultDocument document = run(text);
    const auto bench =
        run_bench_job(read(text + "\n[bench]\ncycles = 2\n[[bench.drive]]\nkind = \"sine\"\nstroke = "
                                  "\"10 mm\"\nfrequency = \"0.5 Hz\"\n"),
                      {});
    ASSERT_TRUE(bench.has_value());
    const document::BenchUnit& unit = bench->units.at(0);
    EXPECT_NEAR(unit.reservoir_pressure, reservoir_of(document).states[2].pressure, 1.0);
    EXPECT_NEAR((unit.reservoir_pressure - document.conditions.ambient_pressure) * unit.rod_area,
                document.units.at(0).force->static_rod_force, 1e-3);
  }
}

std::string with_gas(const std::string& volume, const std::string& pressure = "10 bar(g)") {
  return changed(changed(job_text("shock"), "volume   = \"70 mL\"", "volume = \"" + volume + "\""),
                 "pressure = \"10 bar(g)\"", "pressure = \"" + pressure + "\"");
}

TEST(ReservoirOfAJob, GasThatRodAndHeatNeedMoreThanIsAStop) {
  const ByHand hand;
  const double needed = hand.rod * 0.108 + hand.growth(60.0);
  EXPECT_NEAR(needed / kMl, 34.4, 0.1);  // 21.7 of the rod, 12.7 of the heat
  for (const double share : {0.7, 0.99}) {
    const document::ResultDocument document = run(with_gas(std::to_string(share * needed / kMl) + " mL"));
    const document::Finding* finding = find(document, "F503");
    ASSERT_NE(finding, nullptr) << share;
    EXPECT_EQ(finding->severity, Severity::Stop);
    EXPECT_NEAR(finding->numbers.front().value.si, (1.0 - share) * needed, 1e-10);
    EXPECT_LT(reservoir_of(document).states.back().room_left, 0.0);
  }
  const document::ResultDocument more = run(with_gas(std::to_string(1.01 * needed / kMl) + " mL"));
  EXPECT_EQ(find(more, "F503"), nullptr);
  EXPECT_EQ(find(more, "F210")->severity, Severity::Stop);  // next to no gas: far above 70 bar
}

/// Gas volume at which the highest pressure at rest is this.
double gas_for(const ByHand& hand, double gauge) {
  const double needed = hand.rod * 0.108 + hand.growth(60.0);
  const double ratio = (10 * kBar + hand.ambient) * 333.15 / 293.15 / (gauge + hand.ambient);
  return needed / (1.0 - ratio);
}

TEST(ReservoirOfAJob, ItsLimitsOfPressureAreTheStatedOnes) {
  const ByHand hand;
  struct Case {
    double gauge;
    std::optional<Severity> severity;
  };
  const Case cases[] = {{39.9 * kBar, std::nullopt},
                        {40.1 * kBar, Severity::Look},
                        {69.8 * kBar, Severity::Look},
                        {70.2 * kBar, Severity::Stop}};
  for (const Case& one : cases) {
    const document::ResultDocument document =
        run(with_gas(std::to_string(gas_for(hand, one.gauge) / kMl) + " mL"));
    EXPECT_NEAR(reservoir_of(document).states.back().pressure - hand.ambient, one.gauge, 1e-4 * one.gauge);
    const document::Finding* finding = find(document, "F210");
    ASSERT_EQ(finding != nullptr, one.severity.has_value()) << one.gauge;
    if (finding != nullptr) {
      EXPECT_EQ(finding->severity, *one.severity) << one.gauge;
    }
  }
}

TEST(FillOfAJob, IsJudgedByWhatTheRodDisplaces) {
  const ByHand hand;
  const double rod = hand.rod * 0.108;
  const double pour = 0.01 * hand.oil;
  ASSERT_GT(pour, 0.1 * rod);  // the cylinder's reading is the wider of the two here
  struct Case {
    double difference;
    std::optional<Severity> severity;
  };
  const Case cases[] = {
      {0.0, std::nullopt},           {-0.98 * pour, std::nullopt},  {-1.02 * pour, Severity::Look},
      {0.98 * pour, std::nullopt},   {1.02 * pour, Severity::Look}, {-0.49 * rod, Severity::Look},
      {-0.51 * rod, Severity::Stop}, {0.8 * rod, Severity::Look}};
  for (const Case& one : cases) {
    const std::string stated = std::to_string((hand.oil + one.difference) / kMl);
    const document::ResultDocument document =
        run(changed(job_text("shock"), "cartridge = \"399 mL\"", "cartridge = \"" + stated + " mL\""));
    const document::Finding* finding = find(document, "F502");
    ASSERT_EQ(finding != nullptr, one.severity.has_value()) << one.difference / kMl;
    if (finding != nullptr) {
      EXPECT_EQ(finding->severity, *one.severity) << one.difference / kMl;
    }
    // missing oil is no room for warm oil
    EXPECT_NEAR(reservoir_of(document).states.back().room_left, 70 * kMl - rod - hand.growth(60.0), 1e-10);
  }
}

TEST(FillOfAJob, TheOuterOilByVolumeGivesTheLevel) {
  // 37 mm, a body of 24 mm up to 330 mm in it: (291.5 mL + pi/4 24^2 330) / (pi/4 37^2) is 410 mm of oil
  const std::string tube =
      "outer = \"291.5454 mL\"\ntube = { bore = \"37 mm\", height = \"560 mm\", standing = [{ diameter = "
      "\"24 mm\", "
      "bottom = \"0 mm\", top = \"330 mm\" }] }\n";
  const std::string text = changed(job_text("fork"), "[unit.fill]\n",
                                   "[unit.trapped_air]\nbore = \"37 mm\"\n[unit.fill]\n" + tube);
  const document::ResultDocument document = run(changed(text, "outer     = \"250 mL\"\n", ""));
  ASSERT_TRUE(document.units[0].fill->level);
  const double area = 0.25 * std::numbers::pi;
  const double oil = (291.5454e-6 + area * 0.024 * 0.024 * 0.33) / (area * 0.037 * 0.037);
  EXPECT_NEAR(*document.units[0].fill->level, 0.56 - oil, 1e-9);
  EXPECT_EQ(n_of(document, "F901"), 0);
  int levels = 0;
  for (const document::BuildStep& step : document.units[0].plan->steps)
    for (const document::UnitState state : step.makes) levels += state == document::UnitState::LevelSet;
  EXPECT_EQ(levels, 1);
}

TEST(FillOfAJob, TwoLevelsThatDisagreeAreTold) {
  const auto with_levels = [](const char* first, const char* second) {
    return changed(job_text("fork"), "[unit.fill]\n",
                   "[unit.trapped_air]\nbore = \"37 mm\"\nlevel = \"" + std::string(first) +
                       "\"\n[unit.fill]\ntube = { bore = \"37 mm\", height = \"560 mm\", level = \"" +
                       second + "\" }\n");
  };
  EXPECT_EQ(n_of(run(with_levels("120 mm", "120.9 mm")), "F506"), 0);
  EXPECT_EQ(n_of(run(with_levels("120 mm", "121.1 mm")), "F506"), 1);
}

}  // namespace
}  // namespace shimwright::job
