#include "job/build_plan.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "file/job_hash.h"
#include "job/test_jobs.h"
#include "job/version.h"

namespace shimwright::job {
namespace {

using testing_jobs::changed;
using testing_jobs::job_text;
using testing_jobs::run;

const document::PickLine* find_line(const document::PickList& list, const std::string& part,
                                    const std::string& where) {
  for (const document::PickLine& line : list.lines) {
    if (line.part == part && line.where.find(where) != std::string::npos) return &line;
  }
  return nullptr;
}

TEST(PickList, PartsAreCountedOverBothLegs) {
  const document::ResultDocument document = run(job_text("fork"));
  const document::PickLine* line =
      find_line(document.pick_list, "shim 21 x 0.10 mm", "piston valve, compression");
  ASSERT_NE(line, nullptr);
  EXPECT_EQ(line->count, 6.0);
  EXPECT_EQ(line->in_hand, 18.0);
  EXPECT_EQ(line->price, 1.1);
  EXPECT_NEAR(*line->cost, 6.6, 1e-12);
  const document::PickLine* oil = find_line(document.pick_list, "light fork fluid", "cartridge");
  ASSERT_NE(oil, nullptr);
  EXPECT_NEAR(*oil->volume, 420e-6, 1e-12);
  EXPECT_NEAR(*oil->cost, 0.42 * 14.0, 1e-9);
}

TEST(PickList, TheTotalIsThatOfThePricedLines) {
  const document::ResultDocument document = run(job_text("fork"));
  double total = 0.0;
  int without = 0;
  for (const document::PickLine& line : document.pick_list.lines) {
    total += line.cost.value_or(0.0);
    without += line.cost ? 0 : 1;
  }
  EXPECT_NEAR(*document.pick_list.total, total, 1e-9);
  EXPECT_EQ(document.pick_list.n_without_price, without);
}

TEST(PickList, OnePartInTwoStacksIsShortTogether) {
  // 19 x 0.15 stands in the foot valve alone (5 a leg); put into the mid-valve too it is 10 + 2
  std::string text = changed(job_text("fork"), "\"1 x 18 x 0.15 mm\",\n", "\"1 x 19 x 0.15 mm\",\n");
  text = changed(text, "in_hand        = 30", "in_hand        = 11");
  const document::ResultDocument document = run(text);
  const document::PickLine* line = find_line(document.pick_list, "shim 19 x 0.15 mm", "foot valve");
  ASSERT_NE(line, nullptr);
  EXPECT_EQ(line->short_by, 1.0);
}

TEST(PickList, AShimOfAnotherBoreIsAnotherPart) {
  // the drawer's 20 x 0.15 runs on the mid-valve's collar of 9 mm; the rebound stack stands on a post of 6 mm
  const document::ResultDocument document =
      run(changed(job_text("fork"), "\"8 x 20 x 0.10 mm\"", "\"8 x 20 x 0.15 mm\""));
  const document::PickLine* mid = find_line(document.pick_list, "shim 20 x 0.15 mm", "compression");
  const document::PickLine* rebound = find_line(document.pick_list, "shim 20 x 0.15 mm", "rebound");
  ASSERT_NE(mid, nullptr);
  ASSERT_NE(rebound, nullptr);
  EXPECT_TRUE(mid->in_hand.has_value());
  EXPECT_FALSE(rebound->in_hand.has_value());
}

TEST(PickList, ADiscSpringAmongThePiecesIsTheSpringOfItsPlate) {
  const document::ResultDocument document = run(job_text("fork"));
  const auto at_foot = [&](const std::string& part) {
    return find_line(document.pick_list, part, "foot valve");
  };
  EXPECT_NE(at_foot("check spring"), nullptr);
  EXPECT_EQ(at_foot("spring of the check plate"), nullptr);
  // without such a piece the spring is a part of its own
  const std::string text = changed(
      job_text("fork"), "  { role = \"disc spring\", name = \"check spring\", height = \"0.5 mm\" },", "");
  EXPECT_NE(find_line(run(text).pick_list, "spring of the check plate", "foot valve"), nullptr);
}

// two posts, each with spacers of its own of the same thickness and without a name: no drawer is shared
TEST(PickList, SpacersOfOnePostAreNotTakenFromThoseOfAnother) {
  const std::string of_its_own =
      "spacers = [{ thickness = \"0.3 mm\", in_hand = 12 }, { thickness = \"1 mm\", in_hand = 8 }]\n";
  std::string text = job_text("fork");
  for (const char* table : {"[unit.piston_valve]\n", "[unit.foot_valve]\n"})
    text = changed(text, table, table + of_its_own);
  // posts that are too long by some spacers
  text = changed(text, "length = \"25.5 mm\"", "length = \"27.2 mm\"");
  text = changed(text, "length = \"22.5 mm\"", "length = \"24.2 mm\"");
  const document::ResultDocument document = run(text);
  int n_lines = 0;
  for (const document::PickLine& line : document.pick_list.lines) {
    if (!line.part.starts_with("spacer ")) continue;
    ++n_lines;
    EXPECT_EQ(line.short_by, std::max(0.0, line.count - *line.in_hand)) << line.part << ", " << line.where;
  }
  EXPECT_GE(n_lines, 2);
}

TEST(JobHash, IsTheOneOfFowlerNollAndVo) {
  // published: the offset basis for the empty text, and "a" (from memory)
  EXPECT_EQ(file::hash_text(file::hash_of("")), "cbf29ce484222325");
  EXPECT_EQ(file::hash_text(file::hash_of("a")), "af63dc4c8601ec8c");
}

TEST(JobHash, AChangedByteChangesIt) {
  const document::ResultDocument one = run(job_text("fork"));
  const document::ResultDocument other = run(changed(job_text("fork"), "Rider 7", "Rider 8"));
  EXPECT_NE(one.header.job_hash, other.header.job_hash);
  EXPECT_EQ(one.header.job_hash.size(), 16u);
}

TEST(Version, IsThatOfTheBuildFile) {
  std::ifstream file(SW_SOURCE_DIR "/CMakeLists.txt");
  const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  EXPECT_THAT(text, testing::HasSubstr(std::string("project(shimwright VERSION ") + kProgramVersion));
}

TEST(PickList, ShimsAreCalledInTheUnitsAskedFor) {
  RunOptions options;
  options.system = units::System::Imperial;
  const document::ResultDocument document = run(job_text("fork"), options);
  EXPECT_NE(find_line(document.pick_list, "shim 0.827 x 0.0039 in", "piston valve, compression"), nullptr);
  EXPECT_EQ(document.units[0].valves[0].directions[0].stack->geometry.discs[0].label, "0.827 x 0.0039 in");
}

}  // namespace
}  // namespace shimwright::job
