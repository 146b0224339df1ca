#include "job/stack_view.h"

#include <gtest/gtest.h>

#include "file/load.h"
#include "job/run.h"

namespace shimwright::job {
namespace {

struct Fork {
  file::LoadResult loaded;
  document::ResultDocument document;

  Fork() {
    file::DiskFiles disk;
    loaded = file::load_job(disk, SW_SOURCE_DIR "/examples/enduro-fork/enduro-fork.job.toml");
    RunOptions options;
    options.sections = {.stacks = true, .valves = true};
    document = *run_job(loaded.job, options);
  }
};

const Fork& fork_job() {
  static const Fork fork;
  return fork;
}

const document::StackResult& stack_in_document() {
  return *fork_job().document.units[0].valves[0].directions[1].stack;  // piston valve, rebound
}

TEST(StackView, AtAPressureOfTheDocumentItIsTheDocumentsPoint) {
  StackViewer viewer;
  const document::StackPoint& point = stack_in_document().points.back();
  const auto view = viewer.view(fork_job().loaded.job, fork_job().document,
                                {"unit[0].piston_valve.rebound", point.pressure, {}});
  ASSERT_TRUE(view.has_value()) << view.error().what;
  EXPECT_EQ(view->pressure, point.pressure);
  // the same solver at the same pressure: Newton's own tolerance on the lift is 1e-6
  EXPECT_NEAR(view->lift_at_seat, point.lift_at_seat, 2e-6 * point.lift_at_seat);
  ASSERT_EQ(view->discs.size(), point.discs.size());
  for (std::size_t i = 0; i < view->discs.size(); ++i) {
    EXPECT_EQ(view->discs[i].radius.size(), view->discs[i].height.size());
    EXPECT_EQ(view->discs[i].radius.size(), view->discs[i].stress.size());
    EXPECT_NEAR(view->discs[i].highest_stress, point.discs[i].stress, 1e-5 * point.highest_stress);
  }
  EXPECT_FALSE(view->contacts.empty());
}

TEST(StackView, ASpeedOfTheLawGivesThatRowsPressureAndFlows) {
  StackViewer viewer;
  const document::DirectionResult& direction = fork_job().document.units[0].valves[0].directions[1];
  const document::LawPoint& row = direction.law[40];
  const auto view = viewer.view(fork_job().loaded.job, fork_job().document,
                                {"unit[0].piston_valve.rebound", {}, row.speed});
  ASSERT_TRUE(view.has_value());
  EXPECT_DOUBLE_EQ(view->pressure, row.drop - row.port_drop);
  EXPECT_DOUBLE_EQ(*view->flow, row.flow);
  EXPECT_DOUBLE_EQ(*view->bleed_flow, row.bleed_flow);
  const auto back = viewer.view(fork_job().loaded.job, fork_job().document,
                                {"unit[0].piston_valve.rebound", view->pressure, {}});
  EXPECT_NEAR(*back->speed, row.speed, 1e-9 * row.speed) << "and the pressure leads back to the speed";
}

TEST(StackView, ALoneStackTakesAPressureAndKnowsNoSpeed) {
  file::DiskFiles disk;
  const file::LoadResult loaded = file::load_job(disk, SW_SOURCE_DIR "/examples/stack-only/tapered.job.toml");
  StackViewer viewer;
  const auto view = viewer.view(loaded.job, {}, {"stack", 0.5e6, {}});
  ASSERT_TRUE(view.has_value());
  EXPECT_GT(view->lift_at_seat, 0.0);
  EXPECT_FALSE(view->speed.has_value());
  EXPECT_FALSE(viewer.view(loaded.job, {}, {"stack", {}, 0.5}).has_value());
  const auto rest = viewer.view(loaded.job, {}, {"stack", 0.0, {}});
  ASSERT_TRUE(rest.has_value());
  // nothing presses: every disc lies where it was piled, to the last bit of the sum of thicknesses
  for (const DiscView& disc : rest->discs)
    for (const double height : disc.height) EXPECT_NEAR(height, disc.rest_height, 1e-12);
}

TEST(StackView, APathThatLeadsToNoStackIsSaidSo) {
  StackViewer viewer;
  for (const char* path :
       {"", "stack", "unit", "unit[0]", "unit[0].piston_valve", "unit[9].piston_valve.rebound",
        "unit[0].piston_valve.sideways", "unit[x].piston_valve.rebound", "unit[0"})
    EXPECT_FALSE(viewer.view(fork_job().loaded.job, fork_job().document, {path, 1e5, {}}).has_value())
        << path;
}

}  // namespace
}  // namespace shimwright::job
