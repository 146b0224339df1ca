#include "server/paper.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>
#include <string>

#include "job/run.h"
#include "server/test_bench.h"

namespace shimwright::server {
namespace {

document::ResultDocument computed(const std::string& name) {
  const std::string path = std::string(SW_SOURCE_DIR) + "/" + name;
  file::JobFiles files(path, text_of_file(path));
  return *job::run_job(file::load_job(files, path).job, {});
}

std::string drawn(const document::ResultDocument& document, const FigureRequest& request) {
  const auto figure = server::figure(document, request, kMetric);
  if (!figure) return "";
  EXPECT_EQ(figure->mime, "image/svg+xml");
  EXPECT_EQ(figure->name, request.which + ".svg");
  EXPECT_THAT(figure->bytes, testing::HasSubstr("<svg"));
  return figure->bytes;
}

TEST(Paper, DrawsEachFigureOfACartridgeAndNoneTwice) {
  const document::ResultDocument document = computed("test/zoo/coil-cartridge.job.toml");
  std::set<std::string> figures;
  int n_drawn = 0;
  const auto take = [&](const FigureRequest& request) {
    const std::string svg = drawn(document, request);
    EXPECT_FALSE(svg.empty()) << request.which << request.foot_valve << request.compression;
    figures.insert(svg);
    ++n_drawn;
  };
  take({"force"});
  take({"springs"});
  take({"pressures", 0, false, false});
  take({"pressures", 0, false, true});
  for (const bool foot : {false, true}) take({"post", 0, foot, false});
  for (const char* which : {"lift", "stack"}) {
    take({which, 0, false, true});
    take({which, 0, false, false});
    take({which, 0, true, true});
  }
  EXPECT_EQ(figures.size(), static_cast<std::size_t>(n_drawn));
  EXPECT_EQ(drawn(document, {"wheel"}), "");
  EXPECT_EQ(drawn(document, {"force", 7}), "") << "there is no eighth unit";
}

/// The page has room for so much.
TEST(Paper, AStackAndAPostFillTheirPlaceAndNoMore) {
  const document::ResultDocument document = computed("test/zoo/coil-cartridge.job.toml");
  for (const char* which : {"stack", "post"})
    for (const bool foot : {false, true}) {
      const std::string svg = drawn(document, {which, 0, foot, true});
      const auto size = [&](const std::string& key) {
        return std::stod(svg.substr(svg.find(key + "=\"") + key.size() + 2));
      };
      EXPECT_EQ(size("width"), 460) << which;
      EXPECT_LE(size("height"), which == std::string("stack") ? 260 : 1000);
    }
}

TEST(Paper, DrawsNothingThatAJobDoesNotHave) {
  const document::ResultDocument springs = computed("test/zoo/springs-only.job.toml");
  EXPECT_NE(drawn(springs, {"springs"}), "");
  for (const char* which : {"force", "pressures", "lift", "post"})
    EXPECT_EQ(drawn(springs, {which}), "") << which;
  const document::ResultDocument bare = computed("test/zoo/two-legs.job.toml");
  for (std::size_t unit = 0; unit < bare.units.size(); ++unit)
    for (const bool foot : {false, true}) {
      const auto place = foot ? ValvePlace::Foot : ValvePlace::Piston;
      bool has_post = false;
      for (const document::ValveResult& valve : bare.units[unit].valves)
        has_post = has_post || (valve.place == place && valve.post);
      EXPECT_EQ(!drawn(bare, {"post", unit, foot, false}).empty(), has_post) << unit << foot;
    }
}

TEST(Paper, ThePacketHasItsFilesForEachPaper) {
  const document::ResultDocument document = computed("test/zoo/kit.job.toml");
  for (const char* file : {"build-sheet.pdf", "settings-guide.pdf", "packet.html"}) {
    const auto a4 = packet_file(document, file, false, kMetric),
               letter = packet_file(document, file, true, kMetric);
    ASSERT_TRUE(a4 && letter) << file;
    EXPECT_EQ(a4->name, file);
    EXPECT_EQ(a4->bytes == letter->bytes, std::string(file) == "packet.html") << file;
    EXPECT_EQ(a4->mime, std::string(file).ends_with(".pdf") ? "application/pdf" : "text/html; charset=utf-8");
  }
  EXPECT_FALSE(packet_file(document, "leg-force.svg", false, kMetric)) << "only what is printed";
}

}  // namespace
}  // namespace shimwright::server
