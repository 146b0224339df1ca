#include "draw_job.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "schema_use.h"

namespace shimwright::laws {
namespace {

TEST(DrawJob, TheSameSeedGivesTheSameJob) {
  const Donors donors = zoo_donors();
  for (const std::uint64_t seed : {1u, 7u, 19u})
    EXPECT_EQ(toml_text(draw_job(donors, seed).tree), toml_text(draw_job(donors, seed).tree));
}

TEST(DrawJob, MostDrawnJobsAreValidAndTheyUseTheWholeSchema) {
  const Donors donors = zoo_donors();
  constexpr int kJobs = 400;
  int n_valid = 0;
  SchemaUse use;
  for (int seed = 1; seed <= kJobs; ++seed) {
    const DrawnJob drawn = draw_job(donors, static_cast<std::uint64_t>(seed));
    if (!drawn.valid) continue;
    ++n_valid;
    add_use(*toml::parse(toml_text(drawn.tree)).root, file::job_schema(), use);
  }
  EXPECT_GT(n_valid, kJobs * 19 / 20);  // more refused ones mean that the drawing is wrong
  SchemaUse whole = whole_schema();
  std::erase_if(whole.keys, [&](const std::string& key) {
    return use.keys.contains(key) || key.starts_with("the parts file.") || key.ends_with(".parts");
  });
  EXPECT_EQ(whole.keys, std::set<std::string>{});
  std::erase_if(whole.words, [&](const std::string& word) { return use.words.contains(word); });
  EXPECT_EQ(whole.words, std::set<std::string>{});
}

TEST(DrawJob, ADrawnJobReadsBackAsItself) {
  const Donors donors = zoo_donors();
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const std::string text = toml_text(draw_job(donors, seed).tree);
    const toml::Document document = toml::parse(text);
    ASSERT_TRUE(document.ok()) << text;
    EXPECT_EQ(toml_text(tree_of(document, *document.root)), text);
  }
}

TEST(Shrink, FindsTheOneKeyThatMatters) {
  const Donors donors = zoo_donors();
  const Tree job = draw_job(donors, 3).tree;
  const auto has_rod = [](const Tree& tree) {
    Tree copy = tree;
    return at_path(copy, "unit[0].rod") != nullptr;
  };
  ASSERT_TRUE(has_rod(job));
  const Tree small = shrunk(job, has_rod, 2000);
  EXPECT_EQ(small.entries.size(), 1u);
  EXPECT_EQ(small.entries[0].second.items.at(0).entries.size(), 1u);
}

}  // namespace
}  // namespace shimwright::laws
