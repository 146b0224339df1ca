#include "server/computed.h"

#include <gtest/gtest.h>

#include <chrono>
#include <string>
#include <vector>

#include "server/test_bench.h"

namespace shimwright::server {
namespace {

std::string titled(int n) {
  return std::string(kStackJob).replace(std::string(kStackJob).find("\"Stack\""), 7,
                                        "\"" + std::to_string(n) + "\"");
}

/// How many of the results computed last are still known, the newest first.
int n_remembered(Computer& computer, const std::vector<std::string>& tags) {
  int n = 0;
  for (auto tag = tags.rbegin(); tag != tags.rend() && computer.tagged(*tag); ++tag) ++n;
  return n;
}

TEST(Computer, RemembersTheResultsThatWereUsedLast) {
  Computer computer;
  std::vector<std::string> tags;
  for (int i = 0; i < 40; ++i) tags.push_back(computer.compute("a.job.toml", titled(i), {}).computed->tag);
  const int kept = n_remembered(computer, tags);
  EXPECT_EQ(kept, static_cast<int>(Computer::kMostRemembered));

  // looked up by its tag, and computed again: each keeps a result for longer
  for (const bool by_tag : {true, false}) {
    Computer other;
    const std::string first = other.compute("a.job.toml", titled(0), {}).computed->tag;
    for (int i = 1; i < 3 * kept; ++i) {
      other.compute("a.job.toml", titled(i), {});
      if (by_tag)
        EXPECT_TRUE(other.tagged(first)) << i;
      else
        EXPECT_EQ(other.compute("a.job.toml", titled(0), {}).computed->tag, first);
    }
    EXPECT_TRUE(other.tagged(first)) << by_tag;
  }
}

TEST(Computer, ARememberedResultIsTheSameAndCountsItsTime) {
  Computer computer;
  const auto ms = [begin = std::chrono::steady_clock::now()] {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
  };
  const JobOutcome first = computer.compute("a.job.toml", kStackJob, {}),
                   again = computer.compute("a.job.toml", kStackJob, {});
  EXPECT_EQ(again.computed, first.computed);
  EXPECT_GT(first.compute_ms, 0);
  EXPECT_GT(again.compute_ms, 0);
  EXPECT_LE(first.compute_ms + again.compute_ms, ms());
}

TEST(Computer, ATagIsOfOneDocumentInOneSystemOfUnits) {
  Computer computer;
  const auto metric = computer.compute("a.job.toml", kStackJob, {units::System::Metric, false}).computed;
  const auto imperial = computer.compute("a.job.toml", kStackJob, {units::System::Imperial, false}).computed;
  const auto whole = computer.compute("a.job.toml", kStackJob, {units::System::Metric, true}).computed;
  EXPECT_EQ(computer.compute("a.job.toml", kStackJob, {units::System::Metric, false}).computed, metric);
  EXPECT_NE(metric->tag, imperial->tag);
  EXPECT_NE(metric->tag, whole->tag);
  EXPECT_FALSE(metric->patch_of(*metric).value_or("[]").size() > 2) << "nothing to change";
}

}  // namespace
}  // namespace shimwright::server
