// Figures and sheet of a bench, from a document made by hand: nothing here is computed by a damper.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "report/bench_figures.h"
#include "report/bench_sheet.h"
#include "report/packet.h"
#include "report/sample_document_test.h"
#include "report/scene_boxes_test.h"

namespace shimwright::report {
namespace {

using testing::HasSubstr;
using units::System;

job::BenchRun swing(double speed) {
  job::BenchRun run;
  run.kind = "sine";
  run.name = "sine 50 mm";
  run.stroke = 0.05;
  run.frequency = speed / (std::numbers::pi * run.stroke);
  run.top_speed = speed;
  run.n_cycles = 2;
  run.finished = true;
  constexpr int kPoints = 80;
  for (int i = 0; i <= kPoints; ++i) {
    const double phase = 2.0 * std::numbers::pi * i / kPoints;
    run.loop.time.push_back(phase / (2.0 * std::numbers::pi * run.frequency));
    run.loop.travel.push_back(0.15 - 0.025 * std::cos(phase));
    run.loop.speed.push_back(speed * std::sin(phase));
    run.loop.force.push_back(60.0 + 300.0 * speed * std::sin(phase));
    run.loop.friction.push_back(0.0);
    run.loop.lock.push_back(0.0);
    run.loop.compression_pressure.push_back(4e5 + 5e5 * speed * std::max(0.0, std::sin(phase)));
    run.loop.rod_pressure.push_back(4e5 - 5e5 * speed * std::min(0.0, std::sin(phase)));
    run.loop.reservoir_pressure.push_back(4e5);
    run.loop.released_air.push_back(0.0);
    run.loop.piston_travel.push_back(0.03 - 0.005 * std::cos(phase));
    run.loop.temperature.push_back(320.0);
  }
  for (int n = 1; n <= 2; ++n) {
    job::BenchCycle cycle;
    cycle.number = n;
    cycle.energy_in = 12.0;
    cycle.compression_force = 60.0 + 300.0 * speed;
    cycle.rebound_force = 60.0 - 300.0 * speed;
    cycle.lowest_pressure = 3e5;
    cycle.lowest_chamber = "rod chamber";
    cycle.temperature_end = 313.0 + 4.0 * n;
    run.cycles.push_back(cycle);
  }
  return run;
}

job::BenchDocument sample_bench() {
  job::BenchDocument document;
  document.header.title = "A bench of the tests";
  document.header.program_version = "0";
  document.header.job_hash = "0";
  document.tolerance = 1e-6;
  job::BenchUnit& unit = document.units.emplace_back();
  unit.name = "fork leg";
  unit.oil_temperature = 313.0;
  unit.release_pressure = 20e3;
  unit.heat_capacity = 500.0;
  unit.piston_travel_in = 5e-3;
  unit.piston_travel_out = 80e-3;
  unit.air_rod = 2e-6;
  for (const double speed : {0.1, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0}) unit.runs.push_back(swing(speed));
  unit.release = job::ReleaseTest{0.2, 0.5, 1e-4, {}, "Let go, it comes out.", {}};
  job::Finding finding;
  finding.code = "F701";
  finding.severity = Severity::Stop;
  finding.title = "A chamber runs dry.";
  finding.remedy = "Raise the pressure.";
  document.findings.push_back(finding);
  return document;
}

TEST(BenchFigures, EveryPlotHasSeriesOfFinitePointsAndACaption) {
  const job::BenchDocument document = sample_bench();
  const std::vector<Plot> plots = bench_plots(document.units[0], System::Metric);
  EXPECT_EQ(plots.size(), 6u);  // travel, speed, peaks, pressures, free piston, temperature
  for (const Plot& plot : plots) {
    EXPECT_FALSE(plot.caption.empty()) << plot.title;
    EXPECT_FALSE(plot.series.empty()) << plot.title;
    const Scene scene = plot_scene(plot);
    EXPECT_EQ(overlapping_labels(scene), "") << plot.title;
    EXPECT_EQ(ink_outside(scene, {0, 0}, {scene.width, scene.height}), "") << plot.title;
    for (const Series& s : plot.series) {
      ASSERT_EQ(s.x.size(), s.y.size()) << plot.title;
      for (std::size_t i = 0; i < s.x.size(); ++i)
        EXPECT_TRUE(std::isfinite(s.x[i]) && std::isfinite(s.y[i])) << plot.title;
    }
  }
}

TEST(BenchFigures, ManyRunsAreThinnedToSixLoopsWithTheFastestAndTheSlowest) {
  const job::BenchDocument document = sample_bench();
  const Plot plot = loop_over_travel(document.units[0], System::Metric);
  std::vector<std::string> names;
  for (const Series& s : plot.series)
    if (!s.name.empty()) names.push_back(s.name);
  EXPECT_EQ(names.size(), 6u);
  EXPECT_THAT(names.front(), HasSubstr("0.1"));
  EXPECT_THAT(names.back(), HasSubstr("3"));
}

TEST(BenchFigures, ALoopIsDrawnWholeAndBothStrokesKeepTheirDash) {
  const job::BenchDocument document = sample_bench();
  job::BenchUnit unit = document.units[0];
  unit.runs.resize(1);
  const Plot plot = loop_over_speed(unit, System::Metric);
  std::size_t n_pieces = 0;  // of the line, between neighbouring points
  for (const Series& s : plot.series) {
    n_pieces += s.x.size() - 1;
    EXPECT_EQ(s.stroke.dash == Dash::Solid, s.stroke.token == Token::Compression);
  }
  EXPECT_EQ(n_pieces, unit.runs[0].loop.time.size() - 1);
}

TEST(BenchFigures, AUnitWithNothingFinishedHasNoFigures) {
  EXPECT_TRUE(bench_plots(job::BenchUnit{}, System::Metric).empty());
  EXPECT_EQ(run_to_show(job::BenchUnit{}), nullptr);
}

TEST(BenchSheet, GoesIntoThePacketAsPagesAndAsHtml) {
  const job::BenchDocument bench = sample_bench();
  const auto without = packet_files(sample::document(), {});
  const auto with = packet_files(sample::document(), {}, &bench);
  const auto find = [](const std::vector<PacketFile>& files, const std::string& name) {
    for (const PacketFile& file : files)
      if (file.name == name) return file.bytes;
    return std::string();
  };
  EXPECT_TRUE(find(without, "bench-sheet.pdf").empty());
  EXPECT_THAT(find(with, "bench-sheet.pdf"), testing::StartsWith("%PDF"));
  EXPECT_THAT(find(with, "packet.html"), HasSubstr("A chamber runs dry."));
  EXPECT_THAT(find(with, "packet.html"), HasSubstr("of air left by the bleed"));
  EXPECT_FALSE(find(with, "fork-leg-bench-1.svg").empty());
}

}  // namespace
}  // namespace shimwright::report
