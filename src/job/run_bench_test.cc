#include "job/run_bench.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <sstream>
#include <thread>

#include "document/document_json.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing_jobs::job_text;
using testing_jobs::read;

std::string with_bench(const std::string& bench, const std::string& motion = "") {
  return job_text("fork") + "\n" + motion + "\n" + bench;
}

document::BenchDocument bench_of(const std::string& text, const BenchOptions& options = {}) {
  const file::JobSpec job = read(text);
  Result<document::BenchDocument, RunFault> result = run_bench_job(job, options);
  if (!result) {
    for (const Diagnostic& diagnostic : result.error().diagnostics) std::cerr << render(diagnostic, text);
    ADD_FAILURE() << "the bench does not run";
    return {};
  }
  return std::move(*result);
}

const char* const kTwoSpeeds =
    "[bench]\n[[bench.drive]]\nkind = \"sine\"\nstroke = \"50 mm\"\nspeed = \"0.25 m/s, 0.5 m/s\"\n";

TEST(Bench, TheFigureOfStrokeFrequencyAndSpeedFollowsFromTheOtherTwo) {
  const document::BenchDocument document = bench_of(
      with_bench("[bench]\n[[bench.drive]]\nkind = \"sine\"\nstroke = \"40 mm\"\nfrequency = \"2 Hz\"\n"
                 "[[bench.drive]]\nkind = \"sine\"\nfrequency = \"2 Hz\"\nspeed = \"0.5 m/s\"\n"
                 "[[bench.drive]]\nkind = \"triangle\"\nstroke = \"40 mm\"\nspeed = \"0.2 m/s\"\n"));
  const auto& runs = document.units.at(0).runs;
  ASSERT_EQ(runs.size(), 3u);
  EXPECT_DOUBLE_EQ(runs[0].top_speed, std::numbers::pi * 0.04 * 2.0);
  EXPECT_DOUBLE_EQ(runs[1].stroke, 0.5 / (std::numbers::pi * 2.0));
  EXPECT_DOUBLE_EQ(runs[2].frequency, 0.2 / (2.0 * 0.04));
  for (const document::BenchRun& run : runs) {
    EXPECT_TRUE(run.finished);
    ASSERT_EQ(run.cycles.size(), 4u);
    // a loop reaches the speed of its drive, between two of its 240 points at the most
    EXPECT_NEAR(run.cycles.back().compression_speed, run.top_speed, 1e-3 * run.top_speed);
    EXPECT_LT(run.cycles.back().energy_error, 1e-4);
  }
}

TEST(Bench, AJobWithoutDrivesRunsTheFourSpeedsOfItsKindAndSaysSo) {
  const document::BenchDocument document = bench_of(job_text("fork"));
  EXPECT_EQ(document.n_runs, 4);
  EXPECT_EQ(document.n_finished, 4);
  EXPECT_THAT(document.units.at(0).assumptions, testing::Contains(testing::HasSubstr("has no drive")));
}

TEST(Bench, ASlowLoopIsTheSteadyCurve) {
  const document::BenchDocument document =
      bench_of(with_bench("[bench]\nsamples = 400\n[[bench.drive]]\nkind = \"triangle\"\nstroke = \"60 "
                          "mm\"\nspeed = \"0.05 m/s\"\n"));
  RunOptions options;
  options.speeds = {0.05};
  options.sections = {.force = true};
  const document::ResultDocument steady = testing_jobs::run(job_text("fork"), options);
  const document::BenchLoop& loop = document.units.at(0).runs.at(0).loop;
  // the two strokes half way: static force and its rise over travel cancel in the difference
  double in = 0.0, out = 0.0;
  for (std::size_t i = 0; i + 1 < loop.time.size(); ++i) {
    if ((loop.travel[i] - 0.15) * (loop.travel[i + 1] - 0.15) > 0.0) continue;
    (loop.travel[i + 1] > loop.travel[i] ? in : out) = loop.force[i];
  }
  const double damping =
      steady.units[0].force->curves[0].points[0].force + steady.units[0].force->curves[1].points[0].force;
  EXPECT_NEAR(in - out, damping, 0.01 * damping);  // oil and walls give a little even so slowly
}

TEST(Bench, AirLeftIsReadBackFromTheLoopAlone) {
  BenchOptions options;
  options.air_in_rod_chamber = 2e-6;
  const document::BenchDocument document = bench_of(with_bench(kTwoSpeeds), options);
  const document::BenchUnit& unit = document.units.at(0);
  EXPECT_EQ(unit.air_rod, 2e-6);
  const document::BenchRun& read_run = unit.runs.at(1);  // the fastest
  ASSERT_TRUE(read_run.air.has_value());
  EXPECT_EQ(read_run.air->chamber, document::OilChamber::Rod);
  EXPECT_NEAR(read_run.air->air, 2e-6,
              0.1e-6);  // the loop is its own: what is lost is the search's last step
  EXPECT_LT(read_run.air->misfit, 0.1 * read_run.air->misfit_clean);
  for (const document::TurnLag& turn : read_run.turns) EXPECT_TRUE(turn.clean.has_value());
  // without air there is nothing to compare with
  const document::BenchDocument clean = bench_of(with_bench(kTwoSpeeds));
  EXPECT_FALSE(clean.units.at(0).runs.at(1).air.has_value());
  EXPECT_FALSE(clean.units.at(0).runs.at(1).turns.at(0).clean.has_value());
}

TEST(Bench, AnyNumberOfThreadsGivesTheSameBits) {
  BenchOptions threads;
  threads.run_all = [](std::size_t n, const std::function<void(std::size_t)>& one) {
    std::vector<std::thread> all;
    for (std::size_t i = n; i-- > 0;) all.emplace_back([&one, i] { one(i); });
    for (std::thread& thread : all) thread.join();
  };
  EXPECT_EQ(document::to_json(bench_of(with_bench(kTwoSpeeds), threads)),
            document::to_json(bench_of(with_bench(kTwoSpeeds))));
}

TEST(Bench, StoppedByHandItKeepsWhatIsFinished) {
  BenchOptions options;
  int n_asked = 0;
  options.progress = [&](double done, std::string_view) {
    ++n_asked;
    return done < 0.5;
  };
  const document::BenchDocument document = bench_of(with_bench(kTwoSpeeds), options);
  EXPECT_GT(n_asked, 1);
  EXPECT_TRUE(document.stopped);
  EXPECT_EQ(document.n_finished, 1);
  EXPECT_TRUE(document.units.at(0).runs.at(0).finished);
  EXPECT_FALSE(document.units.at(0).runs.at(0).loop.time.empty());
  EXPECT_FALSE(document.units.at(0).runs.at(1).finished);
  EXPECT_TRUE(document::bench_from_json(document::to_json(document)).has_value());
}

TEST(Bench, AStrokeThatFollowsAndIsTooLongIsAFaultAtItsDrive) {
  const std::string text =
      with_bench("[bench]\n[[bench.drive]]\nkind = \"sine\"\nfrequency = \"0.1 Hz\"\nspeed = \"1 m/s\"\n");
  const auto result = run_bench_job(read(text), {});
  ASSERT_FALSE(result.has_value());
  ASSERT_EQ(result.error().diagnostics.size(), 1u);
  EXPECT_EQ(result.error().diagnostics[0].code, "E0804");
  EXPECT_EQ(result.error().diagnostics[0].path, "bench.drive[0]");
}

TEST(Bench, AStepIsFollowedToItsEndAndHeld) {
  const document::BenchDocument document = bench_of(with_bench(
      "[bench]\n[[bench.drive]]\nkind = \"step\"\nfrom = \"50 mm\"\nto = \"150 mm\"\nrise_time = \"0.1 s\"\n"
      "hold_time = \"0.2 s\"\n"));
  const document::BenchRun& run = document.units.at(0).runs.at(0);
  ASSERT_EQ(run.cycles.size(), 1u);
  EXPECT_NEAR(run.loop.travel.back(), 0.15, 1e-9);
  EXPECT_NEAR(run.loop.time.back(), 0.3, 1e-9);
  EXPECT_NEAR(run.top_speed, 1.875 * 0.1 / 0.1, 1e-12);
  EXPECT_TRUE(run.turns.empty());
}

/// A record as a bench writes it: one settled loop of the fork with this air in its rod chamber.
std::string record_with_air(double air) {
  BenchOptions options;
  options.air_in_rod_chamber = air;
  const document::BenchDocument document = bench_of(
      with_bench("[bench]\n[[bench.drive]]\nkind = \"sine\"\nstroke = \"50 mm\"\nfrequency = \"3 Hz\"\n"),
      options);
  const document::BenchLoop& loop = document.units.at(0).runs.at(0).loop;
  std::string csv = "time [s];travel [mm];load [N]\n";
  // three cycles one after the other, so that the computed one settles too
  for (int cycle = 0; cycle < 3; ++cycle)
    for (std::size_t i = cycle == 0 ? 0 : 1; i < loop.time.size(); ++i)
      csv += fmt::format("{:.9f};{:.9f};{:.6f}\n", cycle / 3.0 + loop.time[i] - loop.time.front(),
                         1e3 * loop.travel[i], loop.force[i]);
  return csv;
}

TEST(Bench, AMeasuredForceIsSetBesideTheComputedOneAndReadForAir) {
  const std::string job = with_bench(
      "[bench]\n[[bench.drive]]\nkind = \"recorded\"\nfile = \"run.csv\"\nforce_column = \"load\"\n");
  file::MemoryFiles files({{"test.job.toml", job}, {"run.csv", record_with_air(3e-6)}});
  const file::LoadResult loaded = file::load_job(files, "test.job.toml");
  ASSERT_TRUE(loaded.ok());
  const auto document = run_bench_job(loaded.job, {});
  ASSERT_TRUE(document.has_value());
  const document::BenchRun& run = document->units.at(0).runs.at(0);
  ASSERT_TRUE(run.measured && run.air);
  EXPECT_EQ(run.measured->force.size(), run.measured->computed.size());
  EXPECT_EQ(run.air->chamber, document::OilChamber::Rod);
  EXPECT_NEAR(run.air->air, 3e-6, 0.6e-6);  // the estimate's own claim: some 20 percent
  EXPECT_EQ(document->header.files.back().name, "run.csv");
  EXPECT_TRUE(
      std::ranges::any_of(document->findings, [](const document::Finding& f) { return f.code == "F706"; }));
}

/// The same record as the drive of a bench of this stiffness shows it: what the bench gives is on its travel
/// [N/mm].
std::string on_a_bench(const std::string& csv, double stiffness) {
  std::istringstream rows(csv);
  std::string moved, row;
  std::getline(rows, row);
  moved = row + "\n";
  while (std::getline(rows, row)) {
    double time = 0.0, travel = 0.0, force = 0.0;
    char gap = ' ';
    std::istringstream(row) >> time >> gap >> travel >> gap >> force;
    moved += fmt::format("{:.9f};{:.9f};{:.6f}\n", time, travel + force / stiffness, force);
  }
  return moved;
}

document::BenchDocument bench_of_record(const std::string& csv, const std::string& more = "") {
  const std::string job = with_bench(
      "[bench]\n[[bench.drive]]\nkind = \"recorded\"\nfile = \"run.csv\"\nforce_column = \"load\"\n" + more);
  file::MemoryFiles files({{"test.job.toml", job}, {"run.csv", csv}});
  const file::LoadResult loaded = file::load_job(files, "test.job.toml");
  EXPECT_TRUE(loaded.ok());
  auto document = run_bench_job(loaded.job, {});
  EXPECT_TRUE(document.has_value());
  return document ? std::move(*document) : document::BenchDocument{};
}

bool blames_air(const document::BenchDocument& document) {
  return std::ranges::any_of(document.findings, [](const document::Finding& f) { return f.code == "F706"; });
}

// a frame that gives 2 micrometres for each newton was read as 0.8 to 1.6 mL, and the bleed was blamed
TEST(Bench, AFrameThatGivesIsNotBlamedOnTheBleed) {
  const std::string clean = record_with_air(0.0);
  for (const double stiffness : {200.0, 500.0, 5000.0}) {
    const document::BenchDocument document = bench_of_record(on_a_bench(clean, stiffness));
    EXPECT_FALSE(blames_air(document)) << stiffness;
    ASSERT_TRUE(document.units.at(0).runs.at(0).air.has_value());
    const document::AirReading& air = *document.units[0].runs[0].air;
    EXPECT_FALSE(air.significant && air.air > 0.1e-6) << stiffness;
    EXPECT_TRUE(air.stiffness_fitted);
  }
  const document::BenchDocument stated =
      bench_of_record(on_a_bench(clean, 500.0), "stiffness = \"500 N/mm\"\n");
  EXPECT_FALSE(blames_air(stated));
  EXPECT_NEAR(stated.units.at(0).runs.at(0).air->stiffness.value_or(0.0), 500e3, 1.0);
  EXPECT_FALSE(stated.units[0].runs[0].air->stiffness_fitted);
}

TEST(Bench, AirOnAFrameThatGivesIsStillFound) {
  const document::BenchDocument document = bench_of_record(on_a_bench(record_with_air(3e-6), 500.0));
  EXPECT_TRUE(blames_air(document));
  const document::AirReading& air = *document.units.at(0).runs.at(0).air;
  EXPECT_EQ(air.chamber, document::OilChamber::Rod);
  EXPECT_NEAR(air.air, 3e-6, 0.6e-6);
}

// --oil-temperature and --air have the bounds of their keys
TEST(Bench, ArgumentsAreJudgedLikeTheFile) {
  for (const double kelvin : {73.15, 13.15, 0.0, 5273.15, 1e9}) {
    BenchOptions options;
    options.oil_temperature = kelvin;
    const auto result = run_bench_job(read(with_bench(kTwoSpeeds)), options);
    ASSERT_FALSE(result.has_value()) << kelvin;
    ASSERT_EQ(result.error().diagnostics.size(), 1u);
    EXPECT_EQ(result.error().diagnostics[0].code, "E0905");
  }
  BenchOptions options;
  options.air_in_rod_chamber = -1e-6;
  EXPECT_FALSE(run_bench_job(read(with_bench(kTwoSpeeds)), options).has_value());
}

/// What a job with this drive is refused for.
std::vector<std::string> refused_drive(const std::string& drive) {
  file::MemoryFiles files({{"test.job.toml", with_bench("[bench]\n" + drive)}});
  std::vector<std::string> codes;
  for (const Diagnostic& fault : file::load_job(files, "test.job.toml").diagnostics)
    codes.push_back(fault.code);
  return codes;
}

TEST(Bench, AStepThatEndsWhereItBeginsAndOneFasterThanAnyBenchAreFaultsOfTheFile) {
  const auto step = [](double to, const char* rise) {
    return refused_drive(
        fmt::format("[[bench.drive]]\nkind = \"step\"\nfrom = \"100 mm\"\nto = \"{} mm\"\n"
                    "rise_time = \"{}\"\n",
                    to, rise));
  };
  EXPECT_THAT(step(100, "0.05 s"), testing::ElementsAre("E0810"));
  EXPECT_THAT(step(200, "0.1 ms"), testing::ElementsAre("E0811"));
  // 1.875 x 100 mm in 15.6 ms is 12.02 m/s, in 15.7 ms 11.94
  EXPECT_THAT(step(200, "15.6 ms"), testing::ElementsAre("E0811"));
  EXPECT_THAT(step(200, "15.7 ms"), testing::IsEmpty());
  // pi x 100 mm x 38.3 Hz is 12.03 m/s
  const auto sine = [](double frequency) {
    return refused_drive(fmt::format(
        "[[bench.drive]]\nkind = \"sine\"\nstroke = \"100 mm\"\nfrequency = \"{} Hz\"\n", frequency));
  };
  EXPECT_THAT(sine(38.3), testing::ElementsAre("E0811"));
  EXPECT_THAT(sine(38.1), testing::IsEmpty());
  EXPECT_THAT(refused_drive("hand_test = { pushed_to = \"301 mm\" }\n"), testing::ElementsAre("E0804"));
  EXPECT_THAT(refused_drive("hand_test = { pushed_to = \"300 mm\" }\n"), testing::IsEmpty());
}

TEST(BenchJson, TheDocumentReadsBack) {
  const document::BenchDocument document = bench_of(with_bench(kTwoSpeeds));
  const std::string text = document::to_json(document);
  const auto back = document::bench_from_json(text);
  ASSERT_TRUE(back.has_value()) << back.error().path;
  EXPECT_EQ(document::to_json(*back), text);
  EXPECT_TRUE(document::non_finite_paths(document).empty());
  EXPECT_FALSE(document::bench_from_json("{\"schema\": \"shimwright.result/1\"}").has_value());
}

}  // namespace
}  // namespace shimwright::job
