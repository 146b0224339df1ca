#pragma once
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "document/document.h"
#include "draw_job.h"
#include "job/run.h"
#include "job/run_memo.h"

namespace shimwright::laws {

/// A job that was read and computed, and the means to compute it again a little changed.
struct LawCase {
  const Donors& donors;
  const Tree& tree;
  const file::JobSpec& job;
  const document::ResultDocument& document;
  job::RunMemo& memo;

  /// The document of another job, or of this one with other options; nothing when it is refused.
  std::optional<document::ResultDocument> run(const Tree& other, job::RunOptions options = {}) const;
  std::optional<document::ResultDocument> run(job::RunOptions options) const;

  /// Why another job is refused, in one line; empty when it is not.
  std::string why_refused(const Tree& other, job::RunOptions options) const;
};

/// What must hold for every job. `broken` gives one sentence for each time that it does not.
struct Law {
  const char* name;
  std::function<std::vector<std::string>(const LawCase&)> broken;
};

/// All laws. Each file law_*.cc adds the laws of one idea: a line here, the law there.
const std::vector<Law>& laws();

std::vector<std::string> broken_by_bench(const LawCase& at);   // law_runs.cc
std::vector<std::string> broken_by_print(const LawCase& at);   // law_runs.cc
std::vector<std::string> broken_by_cures(const LawCase& at);   // law_cures.cc
std::vector<std::string> broken_by_advice(const LawCase& at);  // law_advice.cc
std::vector<std::string> broken_by_sheets(const LawCase& at);  // law_sheets.cc
std::vector<std::string> broken_by_asking(const LawCase& at);  // law_independence.cc

struct Broken {
  std::string law;
  std::string how;
};

/// The laws that a job breaks, only those whose name begins with `named`; a fault of the program is one of
/// the law "runs". Nothing for a job that is refused.
std::vector<Broken> broken_laws(const Donors& donors, const Tree& tree, const std::string& named = "");

}  // namespace shimwright::laws
