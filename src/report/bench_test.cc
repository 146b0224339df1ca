// Figures and sheet of a bench, from a document made by hand: nothing here is computed by a damper.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "document/document_plots_bench.h"
#include "document/sample_bench_test.h"
#include "report/packet.h"
#include "report/plot.h"
#include "report/sample_document_test.h"
#include "report/scene_boxes_test.h"
#include "report/sheets.h"

namespace shimwright::report {
namespace {

using testing::HasSubstr;
using units::System;

/// With the plots that a run gives it.
document::BenchDocument drawn(document::BenchDocument document) {
  for (document::BenchUnit& unit : document.units) unit.plots = document::bench_plots(unit, System::Metric);
  return document;
}

TEST(BenchSheet, EveryPlotIsDrawnInItsFrameAndNoWordsCoverOthers) {
  document::BenchDocument bench = document::sample::bench();
  bench.units.push_back(document::sample::bench_with_springs_and_step());
  const document::BenchDocument all = drawn(bench);
  EXPECT_EQ(all.units[1].plots.size(), 10u);
  for (const document::BenchUnit& unit : all.units)
    for (const document::PlotSpec& plot : unit.plots)
      for (const System system : {System::Metric, System::Imperial}) {
        const Scene scene = plot_scene(plot, system);
        EXPECT_EQ(overlapping_labels(scene), "") << plot.title;
        EXPECT_EQ(ink_outside(scene, {0, 0}, {scene.width, scene.height}), "") << plot.title;
      }
}

TEST(BenchSheet, SaysWhatIsInTheForceAndListsTheEvents) {
  document::BenchDocument bench = document::sample::bench();
  bench.units[0] = document::sample::bench_with_springs_and_step();
  const std::string html = article_html(bench_sheet(drawn(bench), System::Metric, 500));
  for (const char* words :
       {"The springs are in (coil).", "Damper alone", "What happens", "event number 12",
        "2 more events are not shown.", "the piston valve opens in rebound", "Let go, it comes out."})
    EXPECT_THAT(html, HasSubstr(words));
  EXPECT_THAT(html, testing::Not(HasSubstr("event number 13")));
  EXPECT_THAT(article_html(bench_sheet(drawn(document::sample::bench()), System::Metric, 500)),
              testing::Not(HasSubstr("Damper alone")));
}

TEST(BenchSheet, GoesIntoThePacketAsPagesAndAsHtml) {
  const document::BenchDocument bench = drawn(document::sample::bench());
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
