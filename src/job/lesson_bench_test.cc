// The numbers of docs/lessons/02-two-millilitres-of-air are those of this program: its tables are made again
// and compared. SW_LESSON_OUT=folder writes them there instead.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

#include "file/load.h"
#include "job/run_bench.h"

namespace shimwright::job {
namespace {

const std::string kFolder = SW_SOURCE_DIR "/docs/lessons/02-two-millilitres-of-air/";
constexpr double kAir[] = {0.0, 1e-6, 2e-6, 5e-6};

document::BenchUnit lesson(double air) {
  file::DiskFiles disk;
  const file::LoadResult loaded = file::load_job(disk, kFolder + "fork.job.toml");
  for (const Diagnostic& diagnostic : loaded.diagnostics) ADD_FAILURE() << render(diagnostic, "");
  BenchOptions options;
  options.air_in_rod_chamber = air;
  const auto document = run_bench_job(loaded.job, options);
  if (!document) {
    for (const Diagnostic& diagnostic : document.error().diagnostics) ADD_FAILURE() << render(diagnostic, "");
    return {};
  }
  EXPECT_TRUE(document->header.outcome.ok()) << document->header.outcome.note;
  return document->units.at(0);
}

std::string loops_table() {
  std::string table = "air_ml,travel_mm,speed_m_s,force_n,compression_bar,rod_bar\n";
  for (const double air : kAir) {
    const document::BenchLoop loop = lesson(air).runs.at(0).loop;
    for (std::size_t i = 0; i < loop.time.size(); ++i)
      table += fmt::format("{:g},{:.5g},{:.5g},{:.5g},{:.5g},{:.5g}\n", 1e6 * air, 1e3 * loop.travel[i],
                           loop.speed[i], loop.force[i], 1e-5 * loop.compression_pressure[i],
                           1e-5 * loop.rod_pressure[i]);
  }
  return table;
}

std::string readings_table() {
  std::string table =
      "air_ml,turn_to_compression_mm,turn_to_rebound_mm,energy_j,phase_lag_deg,read_ml,misfit_percent\n";
  for (const double air : kAir) {
    const document::BenchRun run = lesson(air).runs.at(0);
    table += fmt::format("{:g}", 1e6 * air);
    for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound})
      for (const document::TurnLag& turn : run.turns)
        if (turn.stroke == stroke) table += fmt::format(",{:.3g}", 1e3 * turn.travel);
    table += fmt::format(",{:.4g},{:.3g},{:.3g},{:.2g}\n", run.cycles.back().energy_in,
                         run.cycles.back().phase_lag * 180.0 / 3.14159265358979,
                         run.air ? 1e6 * run.air->air : 0.0, run.air ? 100.0 * run.air->misfit_clean : 0.0);
  }
  return table;
}

std::string hand_table() {
  std::string table = "case,stops_short_mm,after_s,fastest_m_s,reads_as_ml\n";
  const document::BenchUnit unit = lesson(0.0);
  for (const document::ReleaseCase& one : unit.release->cases)
    table += fmt::format("{},{:.4g},{:.3g},{:.3g},{:.3g}\n",
                         one.air > 0.0 ? fmt::format("{:g} mL", 1e6 * one.air) : one.name,
                         1e3 * one.rest_travel, one.time, one.top_speed, 1e6 * one.reads_as.value_or(0.0));
  return table;
}

void expect_table(const std::string& name, const std::string& made) {
  if (const char* folder = std::getenv("SW_LESSON_OUT")) {
    std::ofstream(std::string(folder) + "/" + name) << made;
    return;
  }
  std::ifstream file(kFolder + name);
  std::istringstream now(made);
  std::string kept_line, now_line;
  while (std::getline(now, now_line)) {
    ASSERT_TRUE(std::getline(file, kept_line)) << name << " is shorter";
    std::istringstream kept_cells(kept_line), now_cells(now_line);
    for (std::string a, b; std::getline(kept_cells, a, ',') && std::getline(now_cells, b, ',');) {
      char* end = nullptr;
      const double kept = std::strtod(a.c_str(), &end);
      if (end == a.c_str() || *end != '\0') {
        EXPECT_EQ(a, b);
        continue;
      }
      // 1 %: what a finer mesh of the stacks or another step in time may move
      EXPECT_NEAR(std::strtod(b.c_str(), nullptr), kept, 1e-2 * std::abs(kept) + 0.02)
          << name << ": " << kept_line;
    }
  }
  EXPECT_FALSE(std::getline(file, kept_line)) << name << " is longer";
}

TEST(LessonOfAir, LoopsAreThoseOfTheProgram) {
  expect_table("loops.csv", loops_table());
}
TEST(LessonOfAir, ReadingsAreThoseOfTheProgram) {
  expect_table("readings.csv", readings_table());
}
TEST(LessonOfAir, TheTryByHandIsThatOfTheProgram) {
  expect_table("hand.csv", hand_table());
}

}  // namespace
}  // namespace shimwright::job
