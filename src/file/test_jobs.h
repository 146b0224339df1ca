#pragma once
#include <gtest/gtest.h>

#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <string>

#include "file/load.h"

namespace shimwright::file::testing_jobs {

/// The text of test/jobs/NAME.job.toml.
inline std::string job_text(const std::string& name) {
  std::ifstream file(SW_SOURCE_DIR "/test/jobs/" + name + ".job.toml");
  EXPECT_TRUE(file.good()) << name;
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// The text with one passage changed; the passage must be there.
inline std::string changed(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << "no \"" << from << "\" in the text";
  if (at != std::string::npos) text.replace(at, from.size(), to);
  return text;
}

/// A text read as a job; all that is wrong is printed and fails the test.
inline JobSpec read(const std::string& text) {
  MemoryFiles files({{"test.job.toml", text}});
  LoadResult loaded = load_job(files, "test.job.toml");
  for (const Diagnostic& diagnostic : loaded.diagnostics) std::cerr << render(diagnostic, text);
  EXPECT_TRUE(loaded.ok());
  return std::move(loaded.job);
}

}  // namespace shimwright::file::testing_jobs
