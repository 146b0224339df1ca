// What the plots of a unit on the bench show, from a document made by hand.
#include "document/document_plots_bench.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "document/document_plots.h"
#include "document/sample_bench_test.h"

namespace shimwright::document {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using units::System;

/// The plot of that id, of which there must be one.
document::PlotSpec plot_of(const document::BenchUnit& unit, document::PlotId id) {
  const auto plots = document::bench_plots(unit, System::Metric);
  const document::PlotSpec* found = document::find_plot(plots, id);
  EXPECT_NE(found, nullptr);
  return found ? *found : document::PlotSpec{};
}

std::vector<std::string> names(const document::PlotSpec& plot, bool spare) {
  std::vector<std::string> found;
  for (const document::PlotLine& line : plot.lines)
    if (line.spare == spare) found.push_back(line.name);
  return found;
}

TEST(BenchPlots, HaveLinesOfFinitePointsUnderKeysOfTheirOwnAndACaption) {
  const auto plots = document::bench_plots(sample::bench().units[0], System::Metric);
  EXPECT_EQ(plots.size(), 6u);  // travel, speed, peaks, pressures, free piston, temperature
  for (const document::PlotSpec& plot : plots) {
    EXPECT_FALSE(plot.caption.empty()) << plot.title;
    EXPECT_FALSE(plot.lines.empty()) << plot.title;
    std::set<std::string> keys;
    for (const document::PlotLine& line : plot.lines) {
      EXPECT_TRUE(keys.insert(line.key).second) << plot.title << ": " << line.key;
      ASSERT_EQ(line.x.size(), line.y.size()) << plot.title;
      for (std::size_t i = 0; i < line.x.size(); ++i)
        EXPECT_TRUE(std::isfinite(line.x[i]) && std::isfinite(line.y[i])) << plot.title;
    }
  }
}

TEST(BenchPlots, OfManyRunsSixLoopsAreDrawnFirstWithTheSlowestAndTheFastest) {
  const document::PlotSpec plot = plot_of(sample::bench().units[0], document::PlotId::LoopsOverTravel);
  EXPECT_EQ(plot.lines.size(), 8u);
  EXPECT_THAT(names(plot, false), ElementsAre("0.1\u2009m/s", "0.25\u2009m/s", "0.5\u2009m/s", "1\u2009m/s",
                                              "1.5\u2009m/s", "3\u2009m/s"));
  EXPECT_THAT(names(plot, true), ElementsAre("0.75\u2009m/s", "2\u2009m/s"));
  EXPECT_EQ(plot.lines.back().weight, document::PlotWeight::Heavy);
  EXPECT_EQ(plot.lines.back().dash, document::PlotDash::Solid);
  EXPECT_TRUE(std::ranges::all_of(plot.lines, &document::PlotLine::loop));
}

TEST(BenchPlots, TwoRunsOfOneSpeedGoByTheirWholeNames) {
  document::BenchUnit unit = sample::bench().units[0];
  unit.runs.resize(2);
  unit.runs[0].top_speed = unit.runs[1].top_speed;
  unit.runs[0].name = "sine 18 mm";
  EXPECT_THAT(names(plot_of(unit, document::PlotId::LoopsOverSpeed), false),
              ElementsAre("sine 18 mm", "sine 50 mm"));
}

TEST(BenchPlots, WithSpringsInTheWholeAndTheDamperAloneEachHaveTheirLoops) {
  const document::BenchUnit unit = sample::bench_with_springs_and_step();
  const document::PlotSpec whole = plot_of(unit, document::PlotId::LoopsOverTravel);
  const document::PlotSpec alone = plot_of(unit, document::PlotId::DamperLoopsOverTravel);
  EXPECT_EQ(whole.title, "Force of damper and springs over travel");
  EXPECT_EQ(alone.title, "Force of the damper alone over travel");
  EXPECT_EQ(whole.lines.back().name, "springs");
  EXPECT_TRUE(std::ranges::is_sorted(whole.lines.back().x));
  EXPECT_TRUE(std::ranges::none_of(alone.lines, [](const auto& line) { return line.name == "springs"; }));
  // at the left end of the stroke the rod stands: the damper alone holds its static 60 N
  EXPECT_NEAR(alone.lines[0].y.front(), 60.0, 1e-9);
  EXPECT_NEAR(whole.lines[0].y.front(), 60.0 + 5000.0 * 0.125, 1e-6);
  // the same damper without springs has the same forces and the plain title
  const document::BenchUnit without = sample::bench().units[0];
  EXPECT_EQ(plot_of(without, document::PlotId::LoopsOverTravel).title, "Force over travel");
  EXPECT_EQ(plot_of(without, document::PlotId::PeakForceOverSpeed).lines[0].y,
            plot_of(unit, document::PlotId::PeakForceOverSpeed).lines[0].y);
}

TEST(BenchPlots, AStepIsDrawnOverTimeWithItsEventsByNumber) {
  const document::BenchUnit unit = sample::bench_with_springs_and_step();
  const document::PlotSpec step = plot_of(unit, document::PlotId::StepForceOverTime);
  EXPECT_THAT(names(step, false), ElementsAre("all", "damper alone", "springs", "oil lock"));
  EXPECT_EQ(step.lines[0].x.front(), 0.0);
  EXPECT_EQ(step.marks.size(), document::kMostMarks);
  EXPECT_EQ(step.marks[2].text, "3");
  EXPECT_DOUBLE_EQ(step.marks[2].y, 640.0);
  EXPECT_EQ(step.events_of, unit.runs.back().name);
}

TEST(BenchPlots, TheRodLetGoHasALineForEachStateAndTheDraggingOneAnInkOfItsOwn) {
  const document::BenchUnit unit = sample::bench_with_springs_and_step();
  const document::PlotSpec travel = plot_of(unit, document::PlotId::LetGoTravelOverTime);
  ASSERT_EQ(travel.lines.size(), 3u);
  EXPECT_EQ(travel.lines[0].weight, document::PlotWeight::Heavy);
  EXPECT_EQ(travel.lines[2].ink, document::PlotInk::Look);
  EXPECT_THAT(travel.marks, IsEmpty());
  EXPECT_EQ(plot_of(unit, document::PlotId::LetGoForceOverTime).events_of, "well bled");
}

TEST(BenchPlots, TheForceOfTheRodLetGoIsShownUntilItHasDiedAwayItsTravelToTheEnd) {
  document::BenchUnit unit;
  document::ReleaseTrace& trace = unit.release_traces.emplace_back();
  trace.name = "well bled";
  for (int i = 0; i <= 100; ++i) {
    trace.time.push_back(0.1 * i);
    trace.travel.push_back(10.0 - 0.1 * i);
    trace.force.push_back(100.0 * std::exp(-i));
  }
  trace.events = {{0.2, 0, 100, "opens"}, {5.0, 0, 0, "stands"}};
  // 100 exp(-10 t) is 2 N at 0.39 s: the next sample stands at 0.4 s, and a quarter more is shown
  const document::PlotSpec force = plot_of(unit, document::PlotId::LetGoForceOverTime);
  EXPECT_NEAR(force.lines[0].x.back(), 0.5, 1e-12);
  ASSERT_EQ(force.marks.size(), 1u);
  EXPECT_EQ(force.marks[0].text, "1");
  EXPECT_NEAR(plot_of(unit, document::PlotId::LetGoTravelOverTime).lines[0].x.back(), 10.0, 1e-12);
}

TEST(BenchPlots, ARecordStandsBesideWhatWasComputed) {
  document::BenchUnit unit = sample::bench().units[0];
  unit.runs.resize(1);
  document::BenchRun& run = unit.runs[0];
  run.kind = RunKind::Recorded;
  run.frequency = 0.0;
  run.measured = document::MeasuredLoop{{0, 1, 2}, {0.1, 0.2, 0.1}, {5, 9, -4}, {6, 8, -5}};
  const document::PlotSpec plot = plot_of(unit, document::PlotId::MeasuredOverTravel);
  EXPECT_THAT(names(plot, false), ElementsAre("measured", "computed"));
  EXPECT_THAT(plot.lines[0].y, ElementsAre(5, 9, -4));
  EXPECT_THAT(plot.lines[1].y, ElementsAre(6, 8, -5));
  EXPECT_THAT(names(plot_of(unit, document::PlotId::LoopsOverTravel), false), ElementsAre("recorded"));
}

TEST(BenchPlots, AUnitWithNothingFinishedHasNone) {
  EXPECT_THAT(document::bench_plots(document::BenchUnit{}, System::Metric), IsEmpty());
}

}  // namespace
}  // namespace shimwright::document
