// The laws over the zoo, and over a few drawn jobs; `tools/laws 2000` draws more.
#include "laws.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "zoo.h"

namespace shimwright::laws {
namespace {

std::string words_of(const std::vector<Broken>& broken) {
  std::string words;
  for (const Broken& one : broken) words += one.law + "\n  " + one.how + "\n";
  return words;
}

std::string name_of_job(const testing::TestParamInfo<std::string>& job) {
  std::string name = std::filesystem::path(job.param).filename().string();
  name = name.substr(0, name.find('.'));
  std::ranges::replace(name, '-', '_');
  return name;
}

class Laws : public testing::TestWithParam<std::string> {};

TEST_P(Laws, HoldForTheJobsOfTheZoo) {
  static const Donors donors = zoo_donors();
  const std::vector<std::string> jobs = zoo_jobs();
  const auto index = std::ranges::find(jobs, GetParam()) - jobs.begin();
  EXPECT_EQ(words_of(broken_laws(donors, donors.jobs.at(static_cast<std::size_t>(index)))), "");
}

INSTANTIATE_TEST_SUITE_P(Jobs, Laws, testing::ValuesIn(zoo_jobs()), name_of_job);

/// Jobs that once broke a law, made small: test/laws/found.
TEST(LawsFound, HoldForTheJobsThatBrokeThem) {
  const Donors donors = zoo_donors();
  int n = 0;
  for (const auto& entry : std::filesystem::directory_iterator(SW_SOURCE_DIR "/test/laws/found")) {
    const toml::Document document = toml::parse(text_of_file(entry.path().string()));
    ASSERT_TRUE(document.ok()) << entry.path();
    EXPECT_EQ(words_of(broken_laws(donors, tree_of(document, *document.root))), "") << entry.path();
    ++n;
  }
  EXPECT_GT(n, 0);
}

TEST(LawsDrawn, HoldForSomeDrawnJobs) {
  const Donors donors = zoo_donors();
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const DrawnJob drawn = draw_job(donors, seed);
    if (!drawn.valid) continue;
    EXPECT_EQ(words_of(broken_laws(donors, drawn.tree)), "") << "seed " << seed;
  }
}

}  // namespace
}  // namespace shimwright::laws
