// What the plots of a unit show, from a document made by hand.
#include "document/document_plots.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

namespace shimwright::document {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using units::System;

ForcePoint point(double speed, double force, bool cavitated = false) {
  ForcePoint p;
  p.speed = speed;
  p.force = force;
  p.compression_pressure = 2e6 + 1e6 * speed;
  p.rod_pressure = cavitated ? 2e4 : 1e6;
  p.reservoir_pressure = 1e6;
  p.cavitated = cavitated;
  return p;
}

ClickFamily needle(Stroke stroke, int n, int present) {
  ClickFamily family;
  family.adjuster = word(stroke) + " needle";
  family.stroke = stroke;
  family.speed = {0.1, 1.0, 2.0};
  for (int i = 0; i < n; ++i)
    family.members.push_back(
        {2 * i, i == present, {160.0 - i, 1400.0 - i, 2600.0 - i}, {false, false, false}});
  return family;
}

/// Compression draws air at 2 m/s; one adjuster of 23 clicks in rebound, as set at the eleventh.
ForceResult sample_force() {
  ForceResult force;
  force.curves = {{Stroke::Compression, {point(0.1, 100), point(1, 900), point(2, 1200, true)}, {}},
                  {Stroke::Rebound, {point(0.1, 150), point(1, 1300), point(2, 2500)}, {}}};
  force.families = {needle(Stroke::Rebound, 23, 10)};
  CavitationResult compression;
  compression.stroke = Stroke::Compression;
  compression.chamber = "rod chamber";
  compression.release_pressure = 2e4;
  compression.speed_lost = 1.4;
  CavitationResult rebound = compression;
  rebound.stroke = Stroke::Rebound;
  rebound.chamber = "compression chamber";
  rebound.speed_lost.reset();
  force.cavitation = {compression, rebound};
  return force;
}

const PlotLine& line_of(const PlotSpec& plot, std::string_view key) {
  const auto found = std::ranges::find(plot.lines, key, &PlotLine::key);
  EXPECT_NE(found, plot.lines.end()) << key;
  return *found;
}

std::vector<std::string> fan_names(const PlotSpec& plot) {
  std::vector<std::string> names;
  for (const PlotLine& line : plot.lines)
    if (line.behind && !line.name.empty()) names.push_back(line.name);
  return names;
}

TEST(ForcePlot, ShowsCompressionUpAndReboundDownInLongDashesAndBothReadPositive) {
  const PlotSpec plot = force_plot(sample_force(), System::Metric);
  const PlotLine& rebound = line_of(plot, "rebound");
  EXPECT_THAT(rebound.y, ElementsAre(-150, -1300, -2500));
  EXPECT_TRUE(rebound.down);
  EXPECT_EQ(rebound.dash, PlotDash::Long);
  EXPECT_EQ(rebound.weight, PlotWeight::Heavy);
  EXPECT_EQ(rebound.name, "rebound, 20 clicks");
  const PlotLine& compression = line_of(plot, "compression");
  EXPECT_THAT(compression.y, ElementsAre(100, 900, 1200));
  EXPECT_EQ(compression.dash, PlotDash::Solid);
  EXPECT_EQ(compression.name, "compression");  // nothing to set in this stroke
  EXPECT_TRUE(plot.y.magnitudes);
}

TEST(ForcePlot, AFanHasSevenOfTheClicksWithBothEndsLessThePresentOneAndATintBetweenTheEnds) {
  ForceResult force = sample_force();
  PlotSpec plot = force_plot(force, System::Metric);
  EXPECT_EQ(std::ranges::count(plot.lines, true, &PlotLine::behind), 7);
  EXPECT_THAT(fan_names(plot), ElementsAre("0 clicks", "44 clicks"));
  ASSERT_EQ(plot.bands.size(), 1u);
  EXPECT_THAT(plot.bands[0].low, ElementsAre(-160, -1400, -2600));
  EXPECT_THAT(plot.bands[0].high, ElementsAre(-138, -1378, -2578));

  force.families = {needle(Stroke::Rebound, 3, 1)};
  plot = force_plot(force, System::Metric);
  EXPECT_EQ(std::ranges::count(plot.lines, true, &PlotLine::behind), 2);
  force.families = {needle(Stroke::Rebound, 1, 0)};
  EXPECT_THAT(force_plot(force, System::Metric).bands, IsEmpty());
}

TEST(ForcePlot, TwoAdjustersInOneStrokeAreNamedInTheirFans) {
  ForceResult force = sample_force();
  force.families.push_back(needle(Stroke::Rebound, 2, 0));
  force.families[1].adjuster = "high speed";
  const PlotSpec plot = force_plot(force, System::Metric);
  EXPECT_THAT(fan_names(plot),
              ElementsAre("rebound needle, 0 clicks", "rebound needle, 44 clicks", "high speed, 2 clicks"));
  EXPECT_EQ(line_of(plot, "rebound").name, "rebound, as set");
}

TEST(ForcePlot, BreaksIntoDotsWhereAChamberDrawsAirAndSaysWhichAndFromWhere) {
  const PlotSpec metric = force_plot(sample_force(), System::Metric);
  EXPECT_THAT(line_of(metric, "compression").dotted, ElementsAre(false, false, true));
  EXPECT_THAT(line_of(metric, "rebound").dotted, IsEmpty());
  ASSERT_EQ(metric.marks.size(), 1u);
  EXPECT_EQ(metric.marks[0].text, "air in the rod chamber from 2.00\u2009m/s");
  EXPECT_DOUBLE_EQ(metric.marks[0].y, 1200);
  EXPECT_THAT(metric.caption, HasSubstr("Dots: air comes out of the oil"));
  EXPECT_EQ(force_plot(sample_force(), System::Imperial).marks[0].text,
            "air in the rod chamber from 78.7\u2009in/s");
}

TEST(ForcePlot, WithoutAClickerSaysSo) {
  ForceResult force = sample_force();
  force.families.clear();
  EXPECT_THAT(force_plot(force, System::Metric).caption, testing::StartsWith("No clicker acts"));
}

TEST(PressurePlot, ShowsTheChamberAtRiskHeavyInTheInkOfItsStrokeOverTheLineWhereAirComesOut) {
  const PlotSpec compression = pressure_plot(sample_force(), Stroke::Compression, System::Metric);
  EXPECT_EQ(line_of(compression, "rod").weight, PlotWeight::Heavy);
  EXPECT_EQ(line_of(compression, "rod").ink, PlotInk::Compression);
  EXPECT_THAT(line_of(compression, "rod").dotted, ElementsAre(false, false, true));
  EXPECT_NE(line_of(compression, "rod").dash, line_of(compression, "compression").dash);
  EXPECT_THAT(line_of(compression, "reservoir").y, ElementsAre(1e6, 1e6, 1e6));
  EXPECT_THAT(line_of(compression, "air").y, ElementsAre(2e4, 2e4));
  EXPECT_THAT(compression.caption, HasSubstr("The rod chamber meets \"air comes out\" at 1.40\u2009m/s"));

  const PlotSpec rebound = pressure_plot(sample_force(), Stroke::Rebound, System::Metric);
  EXPECT_EQ(line_of(rebound, "compression").weight, PlotWeight::Heavy);
  EXPECT_THAT(rebound.caption, HasSubstr("The compression chamber stays above"));
  EXPECT_EQ(rebound.dots, "");
}

SpringResult sample_springs() {
  SpringResult springs;
  springs.names = {"coil", "air"};
  springs.travel = 0.3;
  springs.points = {{0.0, 100, 0, {60, 40}}, {0.1, 600, 0, {460, 140}}, {0.3, 2000, 0, {1260, 740}}};
  SagResult sag;
  sag.under = SagLoad::Rider;
  sag.travel = 0.05;
  springs.sag = {sag};
  springs.air_end_travel = 0.28;
  return springs;
}

TEST(SpringPlot, ShowsTheSumHeavyItsSharesAndTheSagOnTheLine) {
  const PlotSpec plot = spring_plot(sample_springs(), System::Metric);
  ASSERT_EQ(plot.lines.size(), 3u);
  EXPECT_EQ(plot.lines.back().name, "all springs");
  EXPECT_EQ(plot.lines.back().weight, PlotWeight::Heavy);
  EXPECT_THAT(plot.lines[1].y, ElementsAre(40, 140, 740));
  ASSERT_EQ(plot.marks.size(), 1u);
  EXPECT_EQ(plot.marks[0].text, "rider sag 50.0\u2009mm");
  EXPECT_DOUBLE_EQ(plot.marks[0].y, 350);  // halfway between 100 N and 600 N
}

TEST(SpringPlot, RulesWhereTheAirIsUsedUpOrACoilIsSolidAndSaysAtWhatTravel) {
  SpringResult springs = sample_springs();
  springs.coil_bind_travel = 0.29;
  const PlotSpec plot = spring_plot(springs, System::Metric);
  ASSERT_EQ(plot.rules.size(), 2u);
  EXPECT_EQ(plot.rules[0].text, "air used up");
  EXPECT_THAT(plot.caption, HasSubstr("At 280\u2009mm the air is used up"));
  EXPECT_THAT(plot.caption, HasSubstr("At 290\u2009mm a coil is solid."));
}

TEST(SpringPlot, OneSpringIsOneLineUnderItsOwnNameAndNoSagWhereItTopsOut) {
  SpringResult springs = sample_springs();
  springs.names = {"coil"};
  springs.sag[0].topped_out = true;
  const PlotSpec plot = spring_plot(springs, System::Metric);
  ASSERT_EQ(plot.lines.size(), 1u);
  EXPECT_EQ(plot.lines[0].name, "coil");
  EXPECT_THAT(plot.marks, IsEmpty());
  EXPECT_THAT(plot.caption, Not(HasSubstr("Heavy")));
}

TEST(LiftPlot, ShowsLiftAtSeatAndRimAndNamesTheTheory) {
  StackResult stack;
  stack.line = {{0, 1e6}, {0, 2e-4}, {0, 3e-4}};
  const PlotSpec plot = lift_plot(stack);
  EXPECT_THAT(line_of(plot, "seat").y, ElementsAre(0, 2e-4));
  EXPECT_THAT(line_of(plot, "rim").y, ElementsAre(0, 3e-4));
  EXPECT_THAT(plot.caption, HasSubstr("Theory: large deflection."));
  EXPECT_TRUE(plot.y.thickness);
}

TEST(UnitPlots, TroubleOfTheSolverIsSaidInTheCaption) {
  UnitResult unit;
  unit.force = sample_force();
  unit.force->outcome = {Status::Stalled, 40, 1e-3, "no balance at 3.2 m/s"};
  unit.springs = sample_springs();
  unit.springs->outcome = {Status::OutOfRange, 3, 0, "the air is colder than the law holds"};
  const auto plots = unit_plots(unit, System::Metric);
  EXPECT_THAT(find_plot(plots, PlotId::ForceOverSpeed)->caption,
              HasSubstr("Not converged: no balance at 3.2 m/s"));
  EXPECT_THAT(find_plot(plots, PlotId::SpringsOverTravel)->caption,
              HasSubstr("Outside the range of the model: the air"));
}

TEST(UnitPlots, AreOfWhatThereIs) {
  UnitResult unit;
  EXPECT_THAT(unit_plots(unit, System::Metric), IsEmpty());
  unit.force = sample_force();
  EXPECT_EQ(unit_plots(unit, System::Metric).size(), 3u);
  unit.springs = sample_springs();
  const auto plots = unit_plots(unit, System::Metric);
  EXPECT_EQ(plots.size(), 4u);
  for (const PlotSpec& plot : plots)
    for (const PlotLine& line : plot.lines) {
      EXPECT_EQ(line.x.size(), line.y.size()) << plot.title << ", " << line.key;
      EXPECT_TRUE(line.dotted.empty() || line.dotted.size() == line.x.size()) << plot.title;
    }
  EXPECT_EQ(find_plot(plots, PlotId::LiftOverPressure), nullptr);
}

}  // namespace
}  // namespace shimwright::document
