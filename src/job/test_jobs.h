#pragma once
#include <gtest/gtest.h>

#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <string>

#include "job/load.h"
#include "job/run.h"

namespace shimwright::job::testing_jobs {

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

inline ResultDocument run(const std::string& text, const RunOptions& options = {}) {
  const JobSpec job = read(text);
  Result<ResultDocument, RunFault> result = run_job(job, options);
  if (!result) {
    for (const Diagnostic& diagnostic : result.error().diagnostics) std::cerr << render(diagnostic, text);
    ADD_FAILURE() << "the job does not run";
    return {};
  }
  return std::move(*result);
}

/// What a run of this text is refused for.
inline Diagnostics refused(const std::string& text, const RunOptions& options = {}) {
  const JobSpec job = read(text);
  const Result<ResultDocument, RunFault> result = run_job(job, options);
  EXPECT_FALSE(result.has_value());
  return result ? Diagnostics{} : result.error().diagnostics;
}

inline int n_of(const ResultDocument& document, const std::string& code) {
  int count = 0;
  for (const Finding& finding : document.findings) count += finding.code == code ? 1 : 0;
  return count;
}

inline const Finding* find(const ResultDocument& document, const std::string& code) {
  for (const Finding& finding : document.findings) {
    if (finding.code == code) return &finding;
  }
  return nullptr;
}

inline const DirectionResult& direction(const ResultDocument& document, ValvePlace place, Stroke stroke) {
  for (const ValveResult& valve : document.units.at(0).valves) {
    if (valve.place != place) continue;
    for (const DirectionResult& side : valve.directions) {
      if (side.stroke == stroke) return side;
    }
  }
  throw std::out_of_range("no such direction");
}

inline const ValveResult& valve(const ResultDocument& document, ValvePlace place) {
  for (const ValveResult& result : document.units.at(0).valves) {
    if (result.place == place) return result;
  }
  throw std::out_of_range("no such valve");
}

}  // namespace shimwright::job::testing_jobs
