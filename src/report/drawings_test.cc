#include <gmock/gmock.h>

#include "document/document_plots.h"
#include "report/drawings.h"
#include "report/plot.h"
#include "report/sample_document_test.h"
#include "report/scene_boxes_test.h"

namespace shimwright::report {
namespace {

using ::testing::HasSubstr;
using units::System;

/// No words on words, nothing outside the drawing's own edges.
void check(const Scene& scene) {
  EXPECT_EQ(overlapping_labels(scene), "") << scene.title;
  EXPECT_EQ(ink_outside(scene, {0, 0}, {scene.width, scene.height}), "") << scene.title;
}

TEST(Drawings, StackLabelsKeepApartAtEveryWidthAndState) {
  const document::UnitResult unit = sample::unit();
  for (const double width : {240.0, 320.0, 510.0})
    for (const document::DirectionResult& direction : unit.valves[0].directions) {
      check(stack_scene(*direction.stack, {width, 190, nullptr, nullptr, System::Metric}));
      for (const document::StackShape& shape : direction.stack->shapes)
        check(stack_scene(*direction.stack,
                          {width, 230, &shape, &direction.stack->points[1], System::Imperial}));
    }
}

TEST(Drawings, AStackOfManyThinShimsStillHasRoomForItsLabels) {
  std::vector<sample::Shim> shims;
  for (int i = 0; i < 14; ++i) shims.push_back({1, 24.0 - 0.7 * i, 0.1, "x 0.10 mm"});
  check(stack_scene(sample::stack("many", shims), {320, 190, nullptr, nullptr, System::Metric}));
}

TEST(Drawings, TheStackNamesWhatWorksHardestAndWhatCarriesNothing) {
  document::StackResult stack = *sample::unit().valves[0].directions[0].stack;
  stack.geometry.discs[3].carries = false;
  const Scene scene = stack_scene(stack, {510, 230, nullptr, &stack.points[0], System::Metric});
  std::string words;
  for (const InkBox& box : label_boxes(scene)) words += box.what + "\n";
  EXPECT_THAT(words, HasSubstr("14 x 0.20 mm, highest stress"));
  EXPECT_THAT(words, HasSubstr("20 x 0.15 mm, no load"));
  EXPECT_THAT(words, HasSubstr("thickness and lift \xC3\x97"));
}

TEST(Drawings, PostNamesKeepApartAndTheirLeadersMissThem) {
  const document::PostResult post = sample::post("post");
  for (const double width : {320.0, 480.0, 510.0})
    for (const System system : {System::Metric, System::Imperial}) {
      const Scene scene = post_scene(post, width, system);
      check(scene);
      // the leaders are the thin upright lines that begin among the names
      const auto names = label_boxes(scene);
      for (const Item& item : scene.items) {
        const auto* p = std::get_if<Polyline>(&item);
        if (!p || p->points.size() != 2 || p->points[0].x != p->points[1].x || p->points[0].y > 120) continue;
        const InkBox leader{"leader", p->points[0], p->points[1]};
        for (const InkBox& name : names) EXPECT_FALSE(name.touches(leader, 0.0)) << name.what;
      }
    }
}

TEST(Drawings, ThePostSaysWhatTheNutHasOfItsThreadAndWhatStandsOut) {
  const std::string words = post_scene(sample::post("post"), 500, System::Metric).description;
  EXPECT_THAT(words, HasSubstr("7.0 of the 7.0 turns of the nut are engaged (6.8 with the worst"));
  EXPECT_THAT(words, HasSubstr("sticks out of the nut by 0.50"));
}

TEST(Drawings, APostWithoutThreadOrWithTheNutHangingOverIsDrawnToo) {
  document::PostResult post = sample::post("post");
  post.thread->protrusion = -0.8e-3;
  post.thread->post_length = 20.7e-3;
  check(post_scene(post, 400, System::Metric));
  post.thread.reset();
  check(post_scene(post, 400, System::Metric));
}

TEST(Drawings, PlotWordsKeepApart) {
  const document::UnitResult unit = sample::unit();
  for (const System system : {System::Metric, System::Imperial}) {
    std::vector<document::PlotSpec> plots = document::unit_plots(unit, system);
    plots.push_back(document::lift_plot(*unit.valves[0].directions[0].stack));
    EXPECT_EQ(plots.size(), 5u);
    for (const double width : {320.0, 420.0, 510.0})
      for (const document::PlotSpec& plot : plots) check(plot_scene(plot, system, {width, 200}));
  }
}

}  // namespace
}  // namespace shimwright::report
