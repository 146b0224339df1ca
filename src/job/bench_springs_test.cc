// The springs on the bench, from the job's text to the loops, against closed forms.
#include "job/bench_springs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "damper/motion.h"
#include "document/document_json.h"
#include "job/run_bench.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;
using testing_jobs::changed;
using testing_jobs::job_text;
using testing_jobs::read;

const char* const kSine =
    "[[bench.drive]]\nkind = \"sine\"\nstroke = \"60 mm\"\nspeed = \"0.25 m/s, 1 m/s\"\n";

document::BenchUnit on_bench(const std::string& text, const BenchOptions& options = {}) {
  const file::JobSpec job = read(text);
  Result<document::BenchDocument, RunFault> result = run_bench_job(job, options);
  if (!result) {
    for (const Diagnostic& diagnostic : result.error().diagnostics) std::cerr << render(diagnostic, text);
    ADD_FAILURE() << "the bench does not run";
    return {};
  }
  EXPECT_TRUE(document::non_finite_paths(*result).empty());
  return std::move(result->units.at(0));
}

std::string fork(const std::string& bench, const std::string& drives = kSine) {
  return job_text("fork") + "\n[bench]\n" + bench + drives;
}

/// The fork with a coil spring in place of its air, and no top-out spring.
std::string coil_fork(const std::string& bench, const std::string& drives = kSine) {
  std::string text = job_text("fork");
  const auto at = text.find("[unit.air_spring]");
  const auto end = text.find("[unit.fill]");
  text.replace(at, end - at, "[[unit.coil_spring]]\nrate = \"9.5 N/mm\"\npreload = \"8 mm\"\n\n");
  return text + "\n[bench]\n" + bench + drives;
}

TEST(BenchSprings, TheyAreOutUnlessAskedForAndTheDocumentSaysSo) {
  const document::BenchUnit unit = on_bench(fork(""));
  EXPECT_FALSE(unit.springs.in);
  EXPECT_THAT(unit.springs.names, ElementsAre("air", "top-out"));
  EXPECT_THAT(unit.springs.words, HasSubstr("The springs are not fitted"));
  for (const document::BenchRun& run : unit.runs)
    EXPECT_TRUE(std::ranges::all_of(run.loop.springs, [](double f) { return f == 0.0; }));
  EXPECT_FALSE(unit.release->springs_in);
}

TEST(BenchSprings, ACoilAddsItsLineAndTheDamperIsWhatIsLeft) {
  const document::BenchUnit bare = on_bench(coil_fork(""));
  const document::BenchUnit sprung = on_bench(coil_fork("with_springs = true\n"));
  EXPECT_TRUE(sprung.springs.in);
  EXPECT_THAT(sprung.springs.names, ElementsAre("coil"));
  EXPECT_NEAR(sprung.springs.force_out, 9500.0 * 0.008, 1e-9);
  EXPECT_NEAR(sprung.springs.force_in, 9500.0 * 0.308, 1e-9);
  EXPECT_THAT(sprung.springs.words, HasSubstr("The springs are fitted (coil): they add 76.0"));
  ASSERT_EQ(sprung.runs.size(), 2u);
  for (std::size_t r = 0; r < 2; ++r) {
    const document::BenchLoop& loop = sprung.runs[r].loop;
    for (std::size_t i = 0; i < loop.time.size(); ++i) {
      EXPECT_NEAR(loop.springs[i], 9500.0 * (loop.travel[i] + 0.008), 1e-9);
      EXPECT_NEAR(loop.force[i] - loop.springs[i], bare.runs[r].loop.force[i], 1e-9);
    }
    const document::BenchCycle& with = sprung.runs[r].cycles.back();
    const document::BenchCycle& without = bare.runs[r].cycles.back();
    EXPECT_NEAR(with.energy_in, without.energy_in, 1e-11 * without.energy_in);
    EXPECT_EQ(with.heat, without.heat);
    EXPECT_NEAR(with.damper_compression_force, without.compression_force, 1e-9);
    EXPECT_NEAR(with.damper_rebound_force, without.rebound_force, 1e-9);
    EXPECT_NEAR(without.damper_compression_force, without.compression_force, 0.0);
    EXPECT_NEAR(with.phase_lag, without.phase_lag, 1e-12);
    EXPECT_EQ(sprung.runs[r].n_steps, bare.runs[r].n_steps);
  }
}

// two chambers of 33 mm bore at 4.1 bar(g), p V^1.2, at the bench's 20 degC where they were set; 200 m high
TEST(BenchSprings, AnAirSpringFollowsItsPolytropeAtTheTemperatureOfTheBench) {
  const document::BenchUnit unit = on_bench(fork("with_springs = true\n"));
  const double area = 0.25 * std::numbers::pi * 0.033 * 0.033;
  const double ambient = 98945.0;  // 200 m, US Standard Atmosphere 1976 (row from memory)
  const auto polytrope = [&](double length, double oil, double x) {
    const double volume = area * length - oil;
    return (4.1e5 + ambient) * std::pow(volume / (volume - area * x), 1.2) - ambient;
  };
  const document::BenchLoop& loop = unit.runs[0].loop;
  for (std::size_t i = 0; i < loop.time.size(); ++i) {
    // the stroke lies beyond the 12 mm of the top-out spring
    ASSERT_GT(loop.travel[i], 0.012);
    const double closed =
        area * (polytrope(0.44, 15e-6, loop.travel[i]) - polytrope(0.09, 0.0, -loop.travel[i]));
    // the atmosphere from a row of five figures
    EXPECT_NEAR(loop.springs[i], closed, 1e-4 * std::abs(closed));
  }
}

TEST(BenchSprings, WhatIsInTheDamperAlreadyIsNotPutInTwice) {
  // the shock's gas pushes on its rod by the pressures of the chambers
  const document::BenchUnit shock =
      on_bench(job_text("shock") + "\n[bench]\nwith_springs = true\n" + changed(kSine, "60 mm", "30 mm"));
  EXPECT_THAT(shock.springs.names, ElementsAre("coil", "bump stop"));
  EXPECT_NEAR(shock.springs.force_out, 56e3 * 0.009, 1e-6);
  // the leg's air over its oil is the reservoir of an open leg
  file::DiskFiles disk;
  file::LoadResult trail = file::load_job(disk, SW_SOURCE_DIR "/examples/trail-fork/trail-fork.job.toml");
  ASSERT_TRUE(trail.ok());
  BenchOptions options;
  options.with_springs = true;
  const auto document = run_bench_job(trail.job, options);
  ASSERT_TRUE(document.has_value());
  EXPECT_TRUE(document->units.at(0).springs.in);
  EXPECT_THAT(document->units[0].springs.names, ElementsAre("coil", "top-out"));
  EXPECT_THAT(document->units[0].springs.words, HasSubstr("the air above its oil"));
}

TEST(BenchSprings, AirIsReadAndTurnsAreMeasuredOnTheDamperAlone) {
  BenchOptions options;
  options.air_in_rod_chamber = 2e-6;
  const document::BenchUnit bare = on_bench(coil_fork(""), options);
  const document::BenchUnit sprung = on_bench(coil_fork("with_springs = true\n"), options);
  ASSERT_TRUE(bare.runs[1].air && sprung.runs[1].air);
  // a thousand newtons put on and taken off leave rounding, and a search for a least value doubles it
  EXPECT_NEAR(sprung.runs[1].air->air, bare.runs[1].air->air, 1e-9);
  EXPECT_NEAR(sprung.runs[1].air->misfit, bare.runs[1].air->misfit, 1e-6);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(sprung.runs[1].turns[i].travel, bare.runs[1].turns[i].travel, 1e-9);
    EXPECT_NEAR(*sprung.runs[1].turns[i].clean, *bare.runs[1].turns[i].clean, 1e-9);
  }
}

TEST(BenchSprings, ALegWithSpringsIsHeldInByBothAndComesOutFaster) {
  const document::BenchUnit bare = on_bench(coil_fork(""));
  const document::BenchUnit sprung = on_bench(coil_fork("with_springs = true\n"));
  ASSERT_TRUE(bare.release && sprung.release);
  EXPECT_TRUE(sprung.release->springs_in);
  EXPECT_NEAR(sprung.release->cases[0].push_force - bare.release->cases[0].push_force,
              9500.0 * (sprung.release->pushed_to + 0.008), 1e-6);
  EXPECT_LT(sprung.release->cases[0].half_time, 0.3 * bare.release->cases[0].half_time);
  EXPECT_THAT(sprung.release->words, HasSubstr("With springs: "));
  EXPECT_EQ(sprung.release->balance_travel, 0.0);
  // the hand may have it otherwise than the machine
  const document::BenchUnit apart =
      on_bench(coil_fork("with_springs = true\nhand_test = { with_springs = false }\n"));
  EXPECT_TRUE(apart.springs.in);
  EXPECT_FALSE(apart.release->springs_in);
  EXPECT_EQ(apart.release->cases[0].time, bare.release->cases[0].time);
  const document::BenchUnit by_hand_only = on_bench(coil_fork("hand_test = { with_springs = true }\n"));
  EXPECT_FALSE(by_hand_only.springs.in);
  EXPECT_EQ(by_hand_only.release->cases[0].time, sprung.release->cases[0].time);
}

// with the air equal on both faces nothing pushes fully out; 8 N/mm over 12 mm pull it in until the air holds
TEST(BenchSprings, ATopOutSpringLeavesTheLegWhereItBalances) {
  const document::BenchUnit unit = on_bench(fork("with_springs = true\n"));
  ASSERT_TRUE(unit.release);
  EXPECT_GT(unit.release->balance_travel, 1e-3);
  EXPECT_LT(unit.release->balance_travel, 12e-3);
  EXPECT_THAT(unit.release->words, HasSubstr("The springs come to rest"));
}

TEST(BenchSprings, ASpringThatIsSolidOnTheWayIsSaidOfRunsAndTry) {
  const std::string text =
      changed(coil_fork("with_springs = true\n"), "rate = \"9.5 N/mm\"\n",
              "rate = \"9.5 N/mm\"\nfree_length = \"400 mm\"\nsolid_length = \"232 mm\"\n");
  const document::BenchUnit unit =
      on_bench(text);  // solid at 168 mm less 8 mm of preload; the stroke ends at 180 mm
  EXPECT_EQ(unit.runs[0].outcome.status, Status::OutOfRange);
  EXPECT_THAT(unit.runs[0].outcome.note, HasSubstr("A coil spring is solid"));
  EXPECT_THAT(unit.release->words, HasSubstr("An estimate (well bled): A coil spring is solid"));
}

TEST(BenchSprings, TheBuildSheetsOwnTryIsOfTheBareUnit) {
  const document::ResultDocument document = testing_jobs::run(fork("with_springs = true\n"));
  ASSERT_TRUE(document.units.at(0).fill && document.units[0].fill->release);
  EXPECT_FALSE(document.units[0].fill->release->springs_in);
}

TEST(BenchSprings, TheVerbMayAskOtherwiseThanTheJob) {
  BenchOptions out;
  out.with_springs = false;
  EXPECT_FALSE(on_bench(coil_fork("with_springs = true\n"), out).springs.in);
}

TEST(BenchSprings, AUnitWithoutSpringsIsAFaultWhereItWasAskedFor) {
  std::string text = coil_fork("with_springs = true\n");
  text = changed(text, "[[unit.coil_spring]]\nrate = \"9.5 N/mm\"\npreload = \"8 mm\"\n", "");
  file::MemoryFiles files({{"test.job.toml", text}});
  const file::LoadResult loaded = file::load_job(files, "test.job.toml");
  ASSERT_EQ(loaded.diagnostics.size(), 1u);
  EXPECT_EQ(loaded.diagnostics[0].code, "E0809");
  EXPECT_EQ(loaded.diagnostics[0].path, "bench.with_springs");
  // without the key the bench runs, and says what there is
  const document::BenchUnit unit = on_bench(changed(text, "with_springs = true\n", ""));
  EXPECT_THAT(unit.springs.words, HasSubstr("has no springs"));
}

// the reader asks for all of it; a spec that was made otherwise may lack a length
TEST(BenchSprings, ASpringThatIsNotFullyStatedStopsOnlyWhoWantsItIn) {
  file::JobSpec job = read(fork(""));
  job.units.at(0).air_spring->positive->length = {};
  const auto out = run_bench_job(job, {});
  ASSERT_TRUE(out.has_value());
  EXPECT_FALSE(out->units.at(0).springs.in);
  BenchOptions wanted;
  wanted.with_springs = true;
  const auto in = run_bench_job(job, wanted);
  ASSERT_FALSE(in.has_value());
  EXPECT_THAT(in.error().diagnostics.at(0).what, HasSubstr("the length of the chamber"));
}

// ---- over time

TEST(BenchTraces, EveryStateOfTheTryByHandIsThereOverTime) {
  const document::BenchUnit unit = on_bench(fork(""));
  ASSERT_EQ(unit.release_traces.size(), unit.release->cases.size());
  for (std::size_t k = 0; k < unit.release_traces.size(); ++k) {
    const document::ReleaseTrace& trace = unit.release_traces[k];
    const document::ReleaseCase& one = unit.release->cases[k];
    EXPECT_EQ(trace.name, one.name);
    ASSERT_GT(trace.time.size(), 100u);
    EXPECT_TRUE(std::ranges::is_sorted(trace.time));
    EXPECT_NEAR(trace.travel.front(), unit.release->pushed_to, 1e-12);
    EXPECT_NEAR(trace.force.front(), one.push_force, 1e-6 * one.push_force);
    EXPECT_EQ(trace.force.size(), trace.time.size());
    EXPECT_EQ(trace.springs.size(), trace.time.size());
    EXPECT_FALSE(trace.events.empty());
    if (one.fully_out) {
      EXPECT_NEAR(trace.time.back(), one.time, 1e-12);
      EXPECT_TRUE(std::ranges::any_of(
          trace.events, [](const document::BenchEvent& e) { return e.what == "the rod is fully out"; }));
    }
  }
}

TEST(BenchTraces, AStepTellsWhatValvesDoAndWhereItBottoms) {
  const document::BenchUnit unit = on_bench(fork(
      "", "[[bench.drive]]\nkind = \"step\"\nfrom = \"150 mm\"\nto = \"300 mm\"\nrise_time = \"0.1 s\"\n"));
  std::vector<std::string> told;
  for (const document::BenchEvent& event : unit.runs.at(0).events) told.push_back(event.what);
  EXPECT_THAT(told, testing::IsSupersetOf({"the piston valve opens in compression",
                                           "the foot valve opens in compression",
                                           "the rod bottoms out: all travel is used"}));
  // a stroke that comes again does not tell of its valves
  for (const document::BenchRun& run : on_bench(fork("")).runs)
    for (const document::BenchEvent& event : run.events) EXPECT_THAT(event.what, Not(HasSubstr("valve")));
}

TEST(BenchTraces, AStepTellsWhereAirBeginsToComeOut) {
  // a weak compensator cannot push the oil after a rod that is pulled out fast
  std::string text = changed(job_text("fork"), "spring_force = \"90 N\"", "spring_force = \"12 N\"");
  text = changed(text, "spring_rate  = \"3.0 N/mm\"", "spring_rate  = \"0.2 N/mm\"");
  const document::BenchUnit unit =
      on_bench(text +
               "\n[bench]\n[[bench.drive]]\nkind = \"step\"\nfrom = \"250 mm\"\nto = \"50 mm\"\n"
               "rise_time = \"0.035 s\"\n");
  const document::BenchRun& run = unit.runs.at(0);
  const auto begins = std::ranges::find(
      run.events, "the compression chamber drops below the release pressure", &document::BenchEvent::what);
  ASSERT_NE(begins, run.events.end());
  // there the loop's own pressure passes the release pressure
  const auto after = std::ranges::find_if(run.loop.time, [&](double t) { return t > begins->time; });
  const auto i = static_cast<std::size_t>(after - run.loop.time.begin());
  ASSERT_GT(i, 0u);
  EXPECT_GE(run.loop.compression_pressure[i - 1], unit.release_pressure);
  EXPECT_LE(run.loop.compression_pressure[i], unit.release_pressure);
}

// ---- stopping

TEST(BenchStop, TakesEffectInsideOneRunCountedInSteps) {
  // one long run: nothing but a question inside of it can end it
  const std::string text =
      fork("cycles = 2000\n", "[[bench.drive]]\nkind = \"sine\"\nstroke = \"60 mm\"\nspeed = \"0.5 m/s\"\n");
  for (const int patience : {1, 3, 50}) {
    int n_asked = 0;
    int n_asked_after = 0;
    BenchOptions options;
    options.progress = [&](double, std::string_view) {
      if (++n_asked <= patience) return true;
      ++n_asked_after;
      return false;
    };
    const auto document = run_bench_job(read(text), options);
    ASSERT_TRUE(document.has_value());
    EXPECT_TRUE(document->stopped);
    EXPECT_EQ(n_asked_after, 1);  // it was asked for once, and that was enough
    EXPECT_LE(document->units.at(0).runs.at(0).n_steps, patience * damper::kStepsBetweenAsks);
    EXPECT_FALSE(document->units[0].release.has_value());
  }
}

TEST(BenchStop, WhatFollowsTheRunsEndsAtTheNextQuestionToo) {
  // counts all questions of a whole bench with air to read, then stops at each of some places
  const std::string text = fork("air_left = { rod = \"2 mL\" }\n");
  int n_all = 0;
  BenchOptions options;
  options.progress = [&](double, std::string_view) { return ++n_all > 0; };
  ASSERT_TRUE(run_bench_job(read(text), options).has_value());
  ASSERT_GT(n_all, 100);
  for (const double share : {0.1, 0.4, 0.7, 0.95, 0.999}) {
    const int last = static_cast<int>(share * n_all);
    int n_asked = 0;
    options.progress = [&](double, std::string_view) { return ++n_asked <= last; };
    const auto document = run_bench_job(read(text), options);
    ASSERT_TRUE(document.has_value());
    EXPECT_TRUE(document->stopped) << share;
    EXPECT_EQ(n_asked, last + 1) << share;
    EXPECT_TRUE(document::bench_from_json(document::to_json(*document)).has_value());
    EXPECT_TRUE(
        std::ranges::any_of(document->findings, [](const document::Finding& f) { return f.code == "F710"; }));
  }
}

}  // namespace
}  // namespace shimwright::job
