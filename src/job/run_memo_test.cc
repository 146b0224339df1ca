#include "job/run_memo.h"

#include <gtest/gtest.h>

#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "document/document_json.h"
#include "file/edit.h"
#include "job/test_jobs.h"
#include "job/value_key.h"

namespace shimwright::job {
namespace {

std::string json_of(const std::string& folder, const std::string& name, const std::string& text,
                    const RunOptions& options) {
  const std::string path = std::string(SW_SOURCE_DIR "/examples/") + folder + "/" + name + ".job.toml";
  file::JobFiles files(path, text);
  const auto document = run_job(file::load_job(files, path).job, options);
  EXPECT_TRUE(document.has_value());
  return document ? document::to_json(*document) : "";
}

/// What the page shows at every moment of an example's text.
std::string live(const std::string& folder, const std::string& name, const std::string& text, RunMemo* memo) {
  RunOptions options;
  options.sections = Sections::live();
  options.memo = memo;
  return json_of(folder, name, text, options);
}

/// The whole document of the fork: its unit is computed anew each time, its stacks are not.
std::string whole_fork(const std::string& text, RunMemo* memo, units::System system = units::System::Metric) {
  RunOptions options;
  options.memo = memo;
  options.system = system;
  return json_of("enduro-fork", "enduro-fork", text, options);
}

std::string text_of(const std::string& folder, const std::string& name) {
  file::DiskFiles disk;
  return *disk.read(std::string(SW_SOURCE_DIR "/examples/") + folder + "/" + name + ".job.toml");
}

TEST(RunMemo, AFollowingRunSaysTheSameToTheLastDigit) {
  struct Case {
    const char* folder;
    const char* name;
    std::vector<std::pair<const char*, const char*>> edits;
  };
  const std::vector<Case> cases = {
      {"enduro-fork",
       "enduro-fork",
       {{"unit[0].piston_valve.rebound.stack[0]", "8 x 20 x 0.11 mm"},
        {"title", "Another title"},
        {"unit[0].piston_valve.rebound.stack[0]", "9 x 20 x 0.10 mm"},
        {"unit[0].foot_valve.compression.stack[0]", "3 x 20 x 0.12 mm"},
        {"unit[0].seal_friction", "21 N"},
        {"conditions.oil_temperature", "47 degC"}}},
      {"enduro-shock",
       "enduro-shock",
       {{"unit[0].piston_valve.compression.stack[0]", "4 x 40 x 0.22 mm"}, {"title", "Another"}}},
  };
  for (const Case& one : cases) {
    RunMemo memo;
    std::string text = text_of(one.folder, one.name);
    EXPECT_EQ(live(one.folder, one.name, text, &memo), live(one.folder, one.name, text, nullptr));
    for (const auto& [path, typed] : one.edits) {
      auto next = file::set_key(text, path, typed);
      ASSERT_TRUE(next.has_value()) << path;
      text = std::move(*next);
      EXPECT_EQ(live(one.folder, one.name, text, &memo), live(one.folder, one.name, text, nullptr)) << path;
    }
  }
}

TEST(RunMemo, ATitleComputesNothingAnewAndOneShimOneValve) {
  RunMemo memo;
  const std::string text = text_of("enduro-fork", "enduro-fork");
  live("enduro-fork", "enduro-fork", text, &memo);
  EXPECT_EQ(memo.units.n_found(), 0u);
  live("enduro-fork", "enduro-fork", *file::set_key(text, "title", "Another title, longer than it was"),
       &memo);
  EXPECT_GT(memo.units.n_found(), 0u);
  EXPECT_EQ(memo.valves.n_found(), 0u);
  live("enduro-fork", "enduro-fork",
       *file::set_key(text, "unit[0].piston_valve.rebound.stack[0]", "8 x 20 x 0.11 mm"), &memo);
  EXPECT_EQ(memo.valves.n_found(), 1u) << "the foot valve stays as it was";
  EXPECT_EQ(memo.families.n_found(), 1u) << "and so do the clicks that act in compression";
  EXPECT_EQ(memo.springs.n_found(), 1u);
  EXPECT_EQ(memo.turned.n_found(), 0u);
  live("enduro-fork", "enduro-fork",
       *file::set_key(text, "unit[0].piston_valve.compression.stack[0]", "3 x 21 x 0.10 mm"), &memo);
  EXPECT_EQ(memo.turned.n_found(), 1u) << "the foot valve at its clicks, whose force goes through the piston";
}

TEST(RunMemo, AFollowingRunComputesTheChangedStackAloneAndSaysTheSame) {
  RunMemo memo;
  const std::string before = text_of("enduro-fork", "enduro-fork");
  const std::string after = testing_jobs::changed(before, "6 x 20 x 0.15 mm", "7 x 20 x 0.15 mm");
  EXPECT_EQ(whole_fork(before, &memo), whole_fork(before, nullptr));
  EXPECT_EQ(memo.stacks.n_found(), 0u);
  EXPECT_EQ(whole_fork(after, &memo), whole_fork(after, nullptr)) << "to the last digit";
  EXPECT_EQ(memo.stacks.n_found(), 3u) << "of four stacks";
  EXPECT_EQ(whole_fork(before, &memo), whole_fork(before, nullptr));
  EXPECT_EQ(memo.stacks.n_found(), 7u) << "all four are still known";
}

TEST(RunMemo, SentencesInOtherUnitsAreAnotherResult) {
  RunMemo memo;
  const std::string text = text_of("enduro-fork", "enduro-fork");
  whole_fork(text, &memo);
  EXPECT_EQ(whole_fork(text, &memo, units::System::Imperial),
            whole_fork(text, nullptr, units::System::Imperial));
  EXPECT_EQ(memo.stacks.n_found(), 0u);
}

TEST(RunMemo, KeepsNoMoreThanItMay) {
  RunMemo memo{.stacks = ValueMemo<document::StackResult>(2)};
  const std::string text = text_of("enduro-fork", "enduro-fork");
  whole_fork(text, &memo);
  whole_fork(text, &memo);
  EXPECT_EQ(memo.stacks.n_found(), 0u) << "four stacks push each other out of two places";
}

TEST(ValueKey, TellsValuesApartAndLeavesOutWhereTheyStand) {
  const auto key_of = [](const auto& value) {
    internal::ValueKey key;
    key.add(value);
    return key.bytes;
  };
  file::Quantity a;
  a.si = 1.0;
  a.text = "1 m";
  file::Quantity b = a;
  b.origin.line = 7;
  EXPECT_EQ(key_of(a), key_of(b));
  b.si = std::nextafter(1.0, 2.0);
  EXPECT_NE(key_of(a), key_of(b));
  EXPECT_NE(key_of(0.0), key_of(-0.0));
  EXPECT_NE(key_of(std::optional<int>{}), key_of(std::optional<int>{0}));
  EXPECT_NE(key_of(std::vector<std::string>{"ab", "c"}), key_of(std::vector<std::string>{"a", "bc"}));
}

}  // namespace
}  // namespace shimwright::job
