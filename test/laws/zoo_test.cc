// The jobs of test/zoo: every one goes through the whole chain, and together they use the whole schema.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <iterator>

#include "document/document_json.h"
#include "file/load.h"
#include "job/run.h"
#include "job/run_bench.h"
#include "quick_bench.h"
#include "report/packet.h"
#include "schema_use.h"
#include "zoo.h"

namespace shimwright::laws {
namespace {

std::string faults_of(const Diagnostics& diagnostics) {
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics) text += render(diagnostic, "");
  return text;
}

file::JobSpec loaded(const std::string& path) {
  file::DiskFiles files;
  file::LoadResult result = file::load_job(files, path);
  EXPECT_EQ(faults_of(result.diagnostics), "") << path;
  return std::move(result.job);
}

std::string name_of_job(const testing::TestParamInfo<std::string>& job) {
  std::string name = std::filesystem::path(job.param).filename().string();
  name = name.substr(0, name.find('.'));
  std::ranges::replace(name, '-', '_');
  return name;
}

class Zoo : public testing::TestWithParam<std::string> {};

TEST_P(Zoo, LoadsWithoutAFaultAndSaysThatItIsInvented) {
  EXPECT_NE(loaded(GetParam()).scenario.value.find("nvented"), std::string::npos);
}

TEST_P(Zoo, GoesThroughTheWholeChainWithFiniteNumbers) {
  const file::JobSpec job = with_quick_bench(loaded(GetParam()));
  const auto document = job::run_job(job, {});
  ASSERT_TRUE(document) << faults_of(document.error().diagnostics);
  EXPECT_EQ(document::non_finite_paths(*document), std::vector<std::string>{});

  if (!job.bench) {
    EXPECT_FALSE(report::packet_files(*document, {}).empty());
    return;
  }
  const auto bench = job::run_bench_job(job, {});
  ASSERT_TRUE(bench) << faults_of(bench.error().diagnostics);
  EXPECT_EQ(document::non_finite_paths(*bench), std::vector<std::string>{});
  EXPECT_FALSE(
      report::packet_files(*document, {report::Paper::Letter, units::System::Imperial}, &*bench).empty());
}

INSTANTIATE_TEST_SUITE_P(Jobs, Zoo, testing::ValuesIn(zoo_jobs()), name_of_job);

/// What is in `all` and not in `used`.
std::vector<std::string> unused(const std::set<std::string>& all, const std::set<std::string>& used) {
  std::vector<std::string> rest;
  std::ranges::set_difference(all, used, std::back_inserter(rest));
  return rest;
}

TEST(ZooCover, TogetherTheJobsUseEveryKeyAndEveryWordOfTheSchema) {
  SchemaUse use;
  for (const auto& entry : std::filesystem::directory_iterator(SW_SOURCE_DIR "/test/zoo")) {
    const std::string path = entry.path().string();
    const bool is_job = path.ends_with(".job.toml");
    if (!is_job && !path.ends_with(".parts.toml")) continue;
    const toml::Document document = toml::parse(text_of_file(path));
    add_use(*document.root, is_job ? file::job_schema() : file::parts_schema(), use);
  }
  const SchemaUse whole = whole_schema();
  const std::vector<std::string> nothing;
  EXPECT_EQ(unused(whole.words, use.words), nothing) << "give one of the jobs in test/zoo these words";
  EXPECT_EQ(unused(whole.keys, use.keys), nothing) << "give one of the jobs in test/zoo these keys";
}

}  // namespace
}  // namespace shimwright::laws
