#include "job/asked_values.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing_jobs::job_text;
using testing_jobs::read;
using testing_jobs::refused;

std::vector<std::string> codes_of(const Diagnostics& diagnostics) {
  std::vector<std::string> codes;
  for (const Diagnostic& diagnostic : diagnostics) codes.push_back(diagnostic.code);
  return codes;
}

const std::vector<std::string> kOutside = {"E0905"};

// both sides of each bound, as a file would have it (schema_bench.cc, schema_valve.cc)
TEST(AskedValues, ASpeedIsJudgedAsInTheFile) {
  for (const double speed : {-1.0, 0.0, 12.1, 500.0})
    EXPECT_EQ(codes_of(refused(job_text("fork"), {.sections = {.force = true}, .speeds = {0.5, speed}})),
              kOutside)
        << speed;
  Diagnostics none;
  judge_asked(RunOptions{.speeds = {1e-4, 12.0}}, none);
  EXPECT_TRUE(none.empty());
}

TEST(AskedValues, APressureIsJudgedAsInTheFile) {
  Diagnostics found, none;
  judge_asked(RunOptions{.pressures = {-1.0, 0.0, 101e6, 40e9}}, found);
  EXPECT_EQ(found.size(), 4u);
  judge_asked(RunOptions{.pressures = {1.0, 100e6}}, none);
  EXPECT_TRUE(none.empty());
}

TEST(AskedValues, ATemperatureOfTheOilIsJudgedAsInTheFile) {
  for (const double temperature : {13.0, 73.0, 223.0, 474.0, 5273.0, 1e9}) {
    const auto bench = run_bench_job(read(job_text("fork")), {.oil_temperature = temperature});
    ASSERT_FALSE(bench) << temperature;
    EXPECT_EQ(codes_of(bench.error().diagnostics), kOutside) << temperature;
  }
  Diagnostics none;
  judge_asked(BenchOptions{.oil_temperature = 223.15}, none);
  judge_asked(BenchOptions{.oil_temperature = 473.15}, none);
  EXPECT_TRUE(none.empty());
}

TEST(AskedValues, AWorkingTemperatureIsJudgedAndSetAsInTheFile) {
  for (const double temperature : {222.0, 474.0}) {
    EXPECT_EQ(
        codes_of(refused(job_text("fork"), {.sections = {.force = true}, .oil_temperature = temperature})),
        kOutside);
    EXPECT_EQ(
        codes_of(refused(job_text("fork"), {.sections = {.springs = true}, .air_temperature = temperature})),
        kOutside);
  }
  file::JobSpec job;  // a job that states no conditions
  set_conditions(job, RunOptions{.oil_temperature = 333.15});
  ASSERT_TRUE(job.conditions);
  EXPECT_EQ(job.conditions->oil_temperature.si, 333.15);
  EXPECT_EQ(job.conditions->oil_temperature.text, "60 degC");
  EXPECT_FALSE(job.conditions->air_temperature.given);
}

TEST(AskedValues, AirThatNoChamberHoldsIsRefused) {
  for (const double air : {-1e-6, 2e-3})
    EXPECT_FALSE(run_bench_job(read(job_text("fork")), {.air_in_rod_chamber = air})) << air;
}

TEST(AskedValues, AirThatThisRodChamberDoesNotHoldIsToldAsAskedFor) {
  const auto bench = run_bench_job(read(job_text("fork")), {.air_in_rod_chamber = 300e-6});
  ASSERT_FALSE(bench);
  EXPECT_EQ(codes_of(bench.error().diagnostics), kOutside);
  for (const Diagnostic& diagnostic : bench.error().diagnostics) {
    EXPECT_EQ(diagnostic.line, 0);
    EXPECT_EQ(diagnostic.got, "300 mL");
    EXPECT_THAT(diagnostic.what, testing::HasSubstr("air left in the rod chamber"));
    EXPECT_THAT(diagnostic.remedy, testing::Not(testing::HasSubstr("Measure")));
  }
}

TEST(AskedValues, ANeedleIsTurnedInTheUnitThatIsNamedWithIt) {
  file::JobSpec job = read(job_text("fork"));
  job.units.push_back(job.units[0]);
  job.units[1].name.value = "other leg";
  RunOptions options;
  options.sections = {.force = true};
  const auto force = [&](const char* name) {
    options.clicks.clear();
    if (name != nullptr) options.clicks = {{name, 1}};
    const auto document = run_job(job, options);
    std::vector<double> forces;
    for (const document::UnitResult& unit : document.value().units)
      forces.push_back(unit.force->curves[1].points[10].force);
    return forces;
  };
  const auto before = force(nullptr);
  const auto both = force("rebound needle");
  const auto second = force("other leg: rebound needle");
  ASSERT_EQ(before.size(), 2u);
  EXPECT_GT(both[0], before[0]);
  EXPECT_GT(both[1], before[1]);
  EXPECT_EQ(second[0], before[0]);
  EXPECT_EQ(second[1], both[1]);
  options.clicks = {{"needle", 1}};
  const auto refusal = run_job(job, options);
  ASSERT_FALSE(refusal);
  EXPECT_THAT(refusal.error().diagnostics[0].expected, testing::HasSubstr("\"other leg: rebound needle\""));
}

TEST(AskedValues, ClicksBeyondTheLastAreRefusedAsInTheFile) {
  RunOptions options;
  options.sections = {.force = true};
  for (const int clicks : {23, 99}) {
    options.clicks = {{"rebound needle", clicks}};
    EXPECT_EQ(codes_of(refused(job_text("fork"), options)), std::vector<std::string>{"E0906"}) << clicks;
  }
  options.clicks = {{"rebound needle", 22}};
  EXPECT_TRUE(run_job(read(job_text("fork")), options).has_value());
}

}  // namespace
}  // namespace shimwright::job
