#pragma once
#include <gtest/gtest.h>

#include <iostream>
#include <string>

#include "file/test_jobs.h"
#include "job/run.h"

namespace shimwright::job::testing_jobs {

using file::testing_jobs::changed;
using file::testing_jobs::job_text;
using file::testing_jobs::read;

inline document::ResultDocument run(const std::string& text, const RunOptions& options = {}) {
  const file::JobSpec job = read(text);
  Result<document::ResultDocument, RunFault> result = run_job(job, options);
  if (!result) {
    for (const Diagnostic& diagnostic : result.error().diagnostics) std::cerr << render(diagnostic, text);
    ADD_FAILURE() << "the job does not run";
    return {};
  }
  return std::move(*result);
}

/// What a run of this text is refused for.
inline Diagnostics refused(const std::string& text, const RunOptions& options = {}) {
  const file::JobSpec job = read(text);
  const Result<document::ResultDocument, RunFault> result = run_job(job, options);
  EXPECT_FALSE(result.has_value());
  return result ? Diagnostics{} : result.error().diagnostics;
}

inline int n_of(const document::ResultDocument& document, const std::string& code) {
  int count = 0;
  for (const document::Finding& finding : document.findings) count += finding.code == code ? 1 : 0;
  return count;
}

inline const document::Finding* find(const document::ResultDocument& document, const std::string& code) {
  for (const document::Finding& finding : document.findings) {
    if (finding.code == code) return &finding;
  }
  return nullptr;
}

inline const document::DirectionResult& direction(const document::ResultDocument& document, ValvePlace place,
                                                  Stroke stroke) {
  for (const document::ValveResult& valve : document.units.at(0).valves) {
    if (valve.place != place) continue;
    for (const document::DirectionResult& side : valve.directions) {
      if (side.stroke == stroke) return side;
    }
  }
  throw std::out_of_range("no such direction");
}

inline const document::ValveResult& valve(const document::ResultDocument& document, ValvePlace place) {
  for (const document::ValveResult& result : document.units.at(0).valves) {
    if (result.place == place) return result;
  }
  throw std::out_of_range("no such valve");
}

}  // namespace shimwright::job::testing_jobs
