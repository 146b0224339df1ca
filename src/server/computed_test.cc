#include "server/computed.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

#include "document/document_brief.h"
#include "job/run.h"

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

TEST(Computer, OnTwoThreadsItComputesWhatOneDoes) {
  for (const char* name :
       {"test/zoo/kit.job.toml", "test/zoo/linkage-shock.job.toml", "test/zoo/springs-only.job.toml"}) {
    const std::string path = std::string(SW_SOURCE_DIR) + "/" + name;
    file::JobFiles files(path, text_of_file(path));
    job::RunOptions options;
    options.sections = job::Sections::live();
    const auto alone = job::run_job(file::load_job(files, path).job, options);
    Computer computer;
    const auto both = computer.compute(path, text_of_file(path), {}).computed;
    ASSERT_TRUE(alone && both) << name;
    EXPECT_EQ(both->json(), document::to_brief_json(*alone)) << name;
  }
}

TEST(TwoAtOnce, DoesEachTaskOnceTheFirstHere) {
  for (const std::size_t n : {0u, 1u, 2u, 5u}) {
    std::vector<int> done(n);
    std::thread::id first{};
    two_at_once(n, [&](std::size_t i) {
      ++done.at(i);
      if (i == 0) first = std::this_thread::get_id();
    });
    EXPECT_EQ(done, std::vector<int>(n, 1));
    EXPECT_EQ(first == std::this_thread::get_id(), n > 0);
  }
  for (const std::size_t broken : {0u, 1u, 2u})
    EXPECT_THROW(two_at_once(3,
                             [&](std::size_t i) {
                               if (i == broken) throw std::runtime_error("broken");
                             }),
                 std::runtime_error);
}

/// What reading says and what computing says come as one list, by their place in the file.
TEST(Computer, TellsWhatReadingAndComputingFindByPlace) {
  for (const auto& entry : std::filesystem::directory_iterator(SW_SOURCE_DIR "/examples/broken")) {
    const std::string path = entry.path().string();
    if (!path.ends_with(".job.toml")) continue;
    file::JobFiles files(path, text_of_file(path));
    const file::LoadResult loaded = file::load_job(files, path);
    Computer computer;
    const JobOutcome outcome = computer.compute(path, text_of_file(path), {});
    std::vector<std::string> expected, told;
    for (const Diagnostic& diagnostic : loaded.diagnostics) expected.push_back(diagnostic.what);
    if (!has_stop(loaded.diagnostics)) {
      const auto document = job::run_job(loaded.job, {});
      ASSERT_FALSE(document.has_value()) << path;
      for (const Diagnostic& diagnostic : document.error().diagnostics) expected.push_back(diagnostic.what);
    }
    int line = 0;
    for (const Diagnostic& diagnostic : outcome.diagnostics) {
      told.push_back(diagnostic.what);
      if (diagnostic.file == outcome.diagnostics.front().file) {
        EXPECT_GE(diagnostic.line, line) << path;
        line = diagnostic.line;
      }
    }
    EXPECT_THAT(told, testing::UnorderedElementsAreArray(expected)) << path;
    EXPECT_FALSE(outcome.computed) << path;
    EXPECT_FALSE(outcome.given_up) << path;
  }
}

TEST(Computer, ATagIsOfOneDocumentInOneSystemOfUnits) {
  Computer computer;
  const auto metric = computer.compute("a.job.toml", kStackJob, {units::System::Metric, false}).computed;
  const auto imperial = computer.compute("a.job.toml", kStackJob, {units::System::Imperial, false}).computed;
  const auto whole = computer.compute("a.job.toml", kStackJob, {units::System::Metric, true}).computed;
  EXPECT_EQ(computer.compute("a.job.toml", kStackJob, {units::System::Metric, false}).computed, metric);
  EXPECT_NE(metric->tag, imperial->tag);
  EXPECT_NE(metric->tag, whole->tag);
  EXPECT_EQ(metric->patch_of(*metric), "[]") << "nothing to change";
  EXPECT_FALSE(metric->patch_of(*whole)) << "they have not the same digits";
  EXPECT_FALSE(whole->patch_of(*metric));
  EXPECT_FALSE(whole->patch_of(*whole));
}

}  // namespace
}  // namespace shimwright::server
