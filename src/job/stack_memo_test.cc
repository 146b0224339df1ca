#include "job/stack_memo.h"

#include <gtest/gtest.h>

#include "job/document_json.h"
#include "job/load.h"
#include "job/run.h"
#include "job/run_memo.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

std::string example() {
  std::ifstream file(SW_SOURCE_DIR "/examples/enduro-fork/enduro-fork.job.toml");
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

std::string json_of(const std::string& text, RunMemo* memo, units::System system = units::System::Metric) {
  DiskFiles disk;
  const auto parts = disk.read(SW_SOURCE_DIR "/examples/enduro-fork/shop.parts.toml");
  MemoryFiles files({{"fork.job.toml", text}, {"shop.parts.toml", *parts}});
  RunOptions options;
  options.memo = memo;
  options.system = system;
  return to_json(*run_job(load_job(files, "fork.job.toml").job, options));
}

TEST(StackMemo, AFollowingRunComputesTheChangedStackAloneAndSaysTheSame) {
  RunMemo memo;
  const std::string before = example();
  const std::string after = testing_jobs::changed(before, "8 x 20 x 0.10 mm", "9 x 20 x 0.10 mm");
  EXPECT_EQ(json_of(before, &memo), json_of(before, nullptr));
  EXPECT_EQ(memo.stacks.n_found(), 0u);
  EXPECT_EQ(json_of(after, &memo), json_of(after, nullptr)) << "to the last digit";
  EXPECT_EQ(memo.stacks.n_found(), 3u) << "of four stacks";
  EXPECT_EQ(json_of(before, &memo), json_of(before, nullptr));
  EXPECT_EQ(memo.stacks.n_found(), 7u) << "all four are still known";
}

TEST(StackMemo, SentencesInOtherUnitsAreAnotherResult) {
  RunMemo memo;
  json_of(example(), &memo);
  EXPECT_EQ(json_of(example(), &memo, units::System::Imperial),
            json_of(example(), nullptr, units::System::Imperial));
  EXPECT_EQ(memo.stacks.n_found(), 0u);
}

TEST(StackMemo, KeepsNoMoreThanItMay) {
  RunMemo memo{.stacks = StackMemo(2)};
  json_of(example(), &memo);
  json_of(example(), &memo);
  EXPECT_EQ(memo.stacks.n_found(), 0u) << "four stacks push each other out of two places";
}

}  // namespace
}  // namespace shimwright::job
