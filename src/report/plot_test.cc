#include "report/plot.h"

#include <gmock/gmock.h>

#include <cmath>

namespace shimwright::report {
namespace {

using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::Pointwise;

TEST(Ticks, StandAtOneTwoFive) {
  EXPECT_THAT(ticks_125(0, 10, 5), Pointwise(DoubleNear(1e-12), {0.0, 2.0, 4.0, 6.0, 8.0, 10.0}));
  EXPECT_THAT(ticks_125(-0.3, 0.3, 6), Pointwise(DoubleNear(1e-12), {-0.3, -0.2, -0.1, 0.0, 0.1, 0.2, 0.3}));
  EXPECT_THAT(ticks_125(0, 1240, 4), Pointwise(DoubleNear(1e-9), {0.0, 500.0, 1000.0}));
  EXPECT_THAT(log_ticks(0.05, 2), Pointwise(DoubleNear(1e-12), {0.05, 0.1, 0.2, 0.5, 1.0, 2.0}));
}

TEST(Ticks, CarryOnlyTheDigitsTheirStepNeeds) {
  EXPECT_EQ(tick_text(0.30000000000000004, 0.1), "0.3");
  EXPECT_EQ(tick_text(-200, 100),
            "\xE2\x88\x92"
            "200");
  EXPECT_EQ(tick_text(-0.0, 0.5), "0.0");
}

Plot two_lines() {
  Plot plot;
  plot.title = "Force";
  plot.x.title = "speed [m/s]";
  plot.y.title = "force [N]";
  Series a{"comp.", {0, 1, 2, 3}, {0, 10, 20, 20.1}, {false, false, false, true}, {Token::Compression}};
  Series b{"other", {0, 1, 2, 3}, {0, 11, 19, 20.2}, {}, {Token::Rebound, kThin, Dash::Long, 1}};
  plot.series = {a, b};
  return plot;
}

std::vector<Label> labels(const Scene& scene) {
  std::vector<Label> found;
  for (const Item& item : scene.items)
    if (const auto* label = std::get_if<Label>(&item)) found.push_back(*label);
  return found;
}

TEST(Plot, NamesAtLineEndsDoNotCoverEachOther) {
  double a = NAN, b = NAN;
  for (const Label& l : labels(plot_scene(two_lines()))) {
    if (l.text == "comp.") a = l.at.y;
    if (l.text == "other") b = l.at.y;
  }
  EXPECT_GE(std::abs(a - b), kSmall);
}

TEST(Plot, APieceOutsideTheModelIsDotted) {
  int n_dotted = 0;
  for (const Item& item : plot_scene(two_lines()).items)
    if (const auto* p = std::get_if<Polyline>(&item); p && p->stroke && p->stroke->dash == Dash::Dots)
      ++n_dotted;
  EXPECT_EQ(n_dotted, 1);
}

TEST(Plot, SurvivesNothingToDraw) {
  Plot empty;
  EXPECT_FALSE(plot_scene(empty).items.empty());
  empty.series.push_back({"gap", {0, 1}, {NAN, NAN}, {}, {}});
  EXPECT_FALSE(plot_scene(empty).items.empty());
}

}  // namespace
}  // namespace shimwright::report
