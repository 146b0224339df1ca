#include "report/plot.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

namespace shimwright::report {
namespace {

using ::testing::Contains;
using ::testing::IsSupersetOf;
using ::testing::Not;

TEST(Ticks, OfZeroHaveNoSign) {
  EXPECT_EQ(tick_text(-0.0, 0.5), "0.0");
}

using units::System;

document::PlotLine line_of(std::string name, std::vector<double> y) {
  document::PlotLine line;
  line.key = line.name = std::move(name);
  for (std::size_t i = 0; i < y.size(); ++i) line.x.push_back(double(i));
  line.y = std::move(y);
  return line;
}

document::PlotSpec two_lines() {
  document::PlotSpec plot;
  plot.title = "Force";
  plot.x = {.title = "speed", .kind = units::Kind::Speed};
  plot.y = {.title = "force", .kind = units::Kind::Force, .zero = true};
  plot.lines = {line_of("comp.", {0, 10, 20, 20.1}), line_of("other", {0, 11, 19, 20.2})};
  plot.lines[0].dotted = {false, false, false, true};
  plot.lines[1].dash = document::PlotDash::Long;
  return plot;
}

template <typename Found>
std::vector<Found> items(const Scene& scene) {
  std::vector<Found> found;
  for (const Item& item : scene.items)
    if (const auto* one = std::get_if<Found>(&item)) found.push_back(*one);
  return found;
}

std::vector<std::string> label_texts(const Scene& scene) {
  std::vector<std::string> found;
  for (const Label& label : items<Label>(scene)) found.push_back(label.text);
  return found;
}

Label label_of(const Scene& scene, const std::string& text) {
  for (const Label& label : items<Label>(scene))
    if (label.text == text) return label;
  ADD_FAILURE() << text;
  return {};
}

TEST(Plot, NamesAtLineEndsDoNotCoverEachOther) {
  const Scene scene = plot_scene(two_lines(), System::Metric);
  EXPECT_GE(std::abs(label_of(scene, "comp.").at.y - label_of(scene, "other").at.y), kSmall);
}

TEST(Plot, SaysTheUnitOfEachAxisInTheReadersSystem) {
  EXPECT_THAT(label_texts(plot_scene(two_lines(), System::Metric)),
              IsSupersetOf({"speed [m/s]", "force [N]"}));
  EXPECT_THAT(label_texts(plot_scene(two_lines(), System::Imperial)),
              IsSupersetOf({"speed [in/s]", "force [lbf]", "100"}));  // 3 m/s are 118 in/s
  document::PlotSpec plot = two_lines();
  plot.x = {.title = "cycles done"};
  plot.y = {.title = "pressure", .kind = units::Kind::Pressure, .reference = units::Reference::Absolute};
  EXPECT_THAT(label_texts(plot_scene(plot, System::Metric)),
              IsSupersetOf({"cycles done", "pressure [bar(a)]"}));
}

TEST(Plot, APieceOutsideTheModelIsDotted) {
  const auto lines = items<Polyline>(plot_scene(two_lines(), System::Metric));
  EXPECT_EQ(std::ranges::count_if(lines,
                                  [](const Polyline& p) { return p.stroke && p.stroke->dash == Dash::Dots; }),
            1);
}

TEST(Plot, ASpareLineAndItsNameAreLeftOut) {
  document::PlotSpec plot = two_lines();
  plot.lines[1].spare = true;
  const Scene scene = plot_scene(plot, System::Metric);
  EXPECT_THAT(label_texts(scene), Not(Contains("other")));
  EXPECT_LT(items<Polyline>(scene).size(), items<Polyline>(plot_scene(two_lines(), System::Metric)).size());
}

TEST(Plot, ALoopIsNamedOnItself) {
  document::PlotSpec plot = two_lines();
  document::PlotLine& loop = plot.lines[1];
  loop.loop = true;
  loop.x = {0, 1.5, 3, 1.5, 0};
  loop.y = {0, -15, 0, 15, 0};
  const Scene scene = plot_scene(plot, System::Metric);
  EXPECT_LT(label_of(scene, "other").at.x, label_of(scene, "comp.").at.x);
}

TEST(Plot, ARuleStandsAcrossWithItsWordsInsideTheFrame) {
  document::PlotSpec plot = two_lines();
  plot.rules = {{2.99, "a stop", document::PlotInk::Stop}, {9.0, "far away", document::PlotInk::Stop}};
  const Scene scene = plot_scene(plot, System::Metric);
  EXPECT_LT(label_of(scene, "a stop").at.x, label_of(scene, "comp.").at.x);
  EXPECT_THAT(label_texts(scene), Not(Contains("far away")));
}

TEST(Plot, SurvivesNothingToDraw) {
  document::PlotSpec empty;
  EXPECT_FALSE(plot_scene(empty, System::Metric).items.empty());
  empty.lines = {line_of("gap", {NAN, NAN})};
  EXPECT_FALSE(plot_scene(empty, System::Metric).items.empty());
}

}  // namespace
}  // namespace shimwright::report
