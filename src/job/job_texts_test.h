#pragma once
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "file/load.h"
#include "job/run.h"

namespace shimwright::job::testing_jobs {

/// Every whole job that is not meant to be refused: the examples, the jobs of the tests, the zoo. Tests of
/// laws run over all of them.
inline std::vector<std::string> whole_jobs() {
  std::vector<std::string> paths;
  for (const char* folder : {"examples", "test/jobs", "test/zoo"}) {
    const std::filesystem::path root = std::filesystem::path(SW_SOURCE_DIR) / folder;
    if (!std::filesystem::exists(root)) continue;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root)) {
      const std::string path = entry.path().string();
      if (path.ends_with(".job.toml") && path.find("/broken/") == std::string::npos) paths.push_back(path);
    }
  }
  std::ranges::sort(paths);
  return paths;
}

/// The job of this path, computed as far as the packet needs.
struct RunJob {
  file::JobSpec job;
  document::ResultDocument document;
};
inline RunJob run_path(const std::string& path, const RunOptions& options = {}) {
  file::DiskFiles disk;
  file::LoadResult loaded = file::load_job(disk, path);
  EXPECT_TRUE(loaded.ok()) << path;
  for (const Diagnostic& diagnostic : loaded.diagnostics) ADD_FAILURE() << path << ": " << diagnostic.what;
  RunJob run{std::move(loaded.job), {}};
  if (!::testing::Test::HasFailure()) {
    auto result = run_job(run.job, options);
    EXPECT_TRUE(result.has_value()) << path;
    if (result) run.document = std::move(*result);
  }
  return run;
}

}  // namespace shimwright::job::testing_jobs
