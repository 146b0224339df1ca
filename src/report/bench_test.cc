// Figures and sheet of a bench, from a document made by hand: nothing here is computed by a damper.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
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

document::BenchRun swing(double speed) {
  document::BenchRun run;
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
    run.loop.springs.push_back(0.0);
    run.loop.compression_pressure.push_back(4e5 + 5e5 * speed * std::max(0.0, std::sin(phase)));
    run.loop.rod_pressure.push_back(4e5 - 5e5 * speed * std::min(0.0, std::sin(phase)));
    run.loop.reservoir_pressure.push_back(4e5);
    run.loop.released_air.push_back(0.0);
    run.loop.piston_travel.push_back(0.03 - 0.005 * std::cos(phase));
    run.loop.temperature.push_back(320.0);
  }
  for (int n = 1; n <= 2; ++n) {
    document::BenchCycle cycle;
    cycle.number = n;
    cycle.energy_in = 12.0;
    cycle.compression_force = 60.0 + 300.0 * speed;
    cycle.rebound_force = 60.0 - 300.0 * speed;
    cycle.damper_compression_force = cycle.compression_force;
    cycle.damper_rebound_force = cycle.rebound_force;
    cycle.lowest_pressure = 3e5;
    cycle.lowest_chamber = "rod chamber";
    cycle.temperature_end = 313.0 + 4.0 * n;
    run.cycles.push_back(cycle);
  }
  return run;
}

document::BenchDocument sample_bench() {
  document::BenchDocument document;
  document.header.title = "A bench of the tests";
  document.header.program_version = "0";
  document.header.job_hash = "0";
  document.tolerance = 1e-6;
  document::BenchUnit& unit = document.units.emplace_back();
  unit.name = "fork leg";
  unit.oil_temperature = 313.0;
  unit.release_pressure = 20e3;
  unit.heat_capacity = 500.0;
  unit.piston_travel_in = 5e-3;
  unit.piston_travel_out = 80e-3;
  unit.air_rod = 2e-6;
  for (const double speed : {0.1, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0}) unit.runs.push_back(swing(speed));
  unit.release.emplace();
  unit.release->words = "Let go, it comes out.";
  document::Finding finding;
  finding.code = "F701";
  finding.severity = Severity::Stop;
  finding.title = "A chamber runs dry.";
  finding.remedy = "Raise the pressure.";
  document.findings.push_back(finding);
  return document;
}

TEST(BenchFigures, EveryPlotHasSeriesOfFinitePointsAndACaption) {
  const document::BenchDocument document = sample_bench();
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
  const document::BenchDocument document = sample_bench();
  const Plot plot = loop_over_travel(document.units[0], ForceOf::All, System::Metric);
  std::vector<std::string> names;
  for (const Series& s : plot.series)
    if (!s.name.empty()) names.push_back(s.name);
  EXPECT_EQ(names.size(), 6u);
  EXPECT_THAT(names.front(), HasSubstr("0.1"));
  EXPECT_THAT(names.back(), HasSubstr("3"));
}

TEST(BenchFigures, ALoopIsDrawnWholeAndBothStrokesKeepTheirDash) {
  const document::BenchDocument document = sample_bench();
  document::BenchUnit unit = document.units[0];
  unit.runs.resize(1);
  const Plot plot = loop_over_speed(unit, System::Metric);
  std::size_t n_pieces = 0;  // of the line, between neighbouring points
  for (const Series& s : plot.series) {
    n_pieces += s.x.size() - 1;
    EXPECT_EQ(s.stroke.dash == Dash::Solid, s.stroke.token == Token::Compression);
  }
  EXPECT_EQ(n_pieces, unit.runs[0].loop.time.size() - 1);
}

/// The sample with a spring of 5 N/mm in, a step and the rod let go.
document::BenchUnit with_springs_and_step() {
  document::BenchUnit unit = sample_bench().units[0];
  unit.springs = {true, {"coil"}, 50.0, 1500.0, "The springs are in (coil)."};
  for (document::BenchRun& run : unit.runs) {
    for (std::size_t i = 0; i < run.loop.time.size(); ++i) {
      run.loop.springs[i] = 5000.0 * run.loop.travel[i];
      run.loop.force[i] += run.loop.springs[i];
    }
    run.cycles.back().compression_force += 750.0;
  }
  document::BenchRun step;
  step.name = "step 100 mm to 200 mm in 0.1 s";
  step.kind = "step";
  step.top_speed = 1.9;
  step.finished = true;
  document::ReleaseTrace trace;
  for (int i = 0; i <= 60; ++i) {
    const double t = 0.2 * i / 60.0;
    const double s = std::min(1.0, t / 0.1);
    const double travel = 0.1 + 0.1 * s * s * (3.0 - 2.0 * s);
    step.loop.time.push_back(t);
    step.loop.travel.push_back(travel);
    step.loop.speed.push_back(0.0);
    step.loop.springs.push_back(5000.0 * travel);
    step.loop.force.push_back(60.0 + 5000.0 * travel + 1500.0 * s * (1.0 - s));
    step.loop.lock.push_back(s > 0.9 && s < 1.0 ? 400.0 : 0.0);
    trace.time.push_back(t * t);
    trace.travel.push_back(0.2 * (1.0 - t / 0.2));
    trace.force.push_back(80.0 * (1.0 - t / 0.2));
    trace.springs.push_back(0.0);
  }
  for (int i = 0; i < 14; ++i)
    step.events.push_back({0.005 * i, 0.1, 600.0 + 20.0 * i, "event number " + std::to_string(i + 1)});
  step.cycles.push_back(unit.runs[0].cycles[0]);
  unit.runs.push_back(step);
  for (const char* name : {"well bled", "1 mL of air", "dragging seal"}) {
    trace.name = name;
    unit.release_traces.push_back(trace);
  }
  unit.release_traces[0].events = {{0.001, 0.19, 78.0, "the piston valve opens in rebound"}};
  return unit;
}

TEST(BenchFigures, WithSpringsInTheWholeAndTheDamperAloneEachHaveTheirLoops) {
  const document::BenchUnit unit = with_springs_and_step();
  const Plot whole = loop_over_travel(unit, ForceOf::All, System::Metric);
  const Plot alone = loop_over_travel(unit, ForceOf::Damper, System::Metric);
  EXPECT_EQ(whole.title, "Force of damper and springs over travel");
  EXPECT_EQ(alone.title, "Force of the damper alone over travel");
  const auto springs = std::ranges::find(whole.series, "springs", &Series::name);
  ASSERT_NE(springs, whole.series.end());
  EXPECT_TRUE(std::ranges::none_of(alone.series, [](const Series& s) { return s.name == "springs"; }));
  // at both ends of the stroke the rod stands: the damper alone holds its static 60 N
  const auto at_left = [](const Plot& plot) {
    double x = 1e300, y = 0.0;
    for (const Series& s : plot.series)
      for (std::size_t i = 0; i < s.x.size(); ++i)
        if (s.name != "springs" && s.x[i] < x) {
          x = s.x[i];
          y = s.y[i];
        }
    return y;
  };
  EXPECT_NEAR(at_left(alone), 60.0, 1e-9);
  EXPECT_NEAR(at_left(whole), 60.0 + 5000.0 * 0.125, 1e-6);
  // the same damper without springs has the same loop and the plain title
  EXPECT_EQ(loop_over_travel(sample_bench().units[0], ForceOf::All, System::Metric).title,
            "Force over travel");
  EXPECT_EQ(peak_speed_plot(unit, System::Metric).series[0].y,
            peak_speed_plot(sample_bench().units[0], System::Metric).series[0].y);
}

TEST(BenchFigures, AStepAndTheRodLetGoAreDrawnOverTimeWithTheirEventsByNumber) {
  const document::BenchUnit unit = with_springs_and_step();
  const Plot step = step_plot(unit, unit.runs.back(), System::Metric);
  ASSERT_EQ(step.series.size(), 4u);  // all, damper alone, springs, oil lock
  EXPECT_EQ(step.marks.size(), kMostMarks);
  EXPECT_EQ(step.marks[2].text, "3");
  EXPECT_DOUBLE_EQ(step.marks[2].y, 640.0);
  const Plot travel = release_travel_plot(unit, System::Metric);
  const Plot force = release_force_plot(unit, System::Metric);
  EXPECT_EQ(travel.series.size(), 3u);
  EXPECT_EQ(force.marks.size(), 1u);
  const std::vector<Plot> all = bench_plots(unit, System::Metric);
  EXPECT_EQ(all.size(), 10u);  // six as before, the damper alone, the step, two of the rod let go
  for (const Plot& plot : all) {
    const Scene scene = plot_scene(plot);
    EXPECT_EQ(overlapping_labels(scene), "") << plot.title;
    EXPECT_EQ(ink_outside(scene, {0, 0}, {scene.width, scene.height}), "") << plot.title;
  }
}

TEST(BenchSheet, SaysWhatIsInTheForceAndListsTheEvents) {
  document::BenchDocument document = sample_bench();
  document.units[0] = with_springs_and_step();
  const std::string html = article_html(bench_sheet(document, System::Metric, 500));
  for (const char* words :
       {"The springs are in (coil).", "Damper alone", "What happens", "event number 12",
        "2 more events are not shown.", "the piston valve opens in rebound", "Let go, it comes out."})
    EXPECT_THAT(html, HasSubstr(words));
  EXPECT_THAT(html, testing::Not(HasSubstr("event number 13")));
  EXPECT_THAT(article_html(bench_sheet(sample_bench(), System::Metric, 500)),
              testing::Not(HasSubstr("Damper alone")));
}

TEST(BenchFigures, AUnitWithNothingFinishedHasNoFigures) {
  EXPECT_TRUE(bench_plots(document::BenchUnit{}, System::Metric).empty());
  EXPECT_EQ(run_to_show(document::BenchUnit{}), nullptr);
}

TEST(BenchSheet, GoesIntoThePacketAsPagesAndAsHtml) {
  const document::BenchDocument bench = sample_bench();
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
  EXPECT_THAT(find(with, "packet.html"), HasSubstr("of air left after bleeding"));
  EXPECT_FALSE(find(with, "fork-leg-bench-1.svg").empty());
}

}  // namespace
}  // namespace shimwright::report
