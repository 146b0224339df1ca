#include "laws.h"

#include <exception>
#include <utility>

#include "document/document_json.h"

namespace shimwright::laws {

std::optional<document::ResultDocument> LawCase::run(const Tree& other, job::RunOptions options) const {
  const file::LoadResult loaded = load_text(donors, toml_text(other));
  if (!loaded.ok()) return std::nullopt;
  options.memo = &memo;
  auto result = job::run_job(loaded.job, options);
  if (!result) return std::nullopt;
  return std::move(*result);
}

std::optional<document::ResultDocument> LawCase::run(job::RunOptions options) const {
  options.memo = &memo;
  auto result = job::run_job(job, options);
  if (!result) return std::nullopt;
  return std::move(*result);
}

std::string LawCase::why_refused(const Tree& other, job::RunOptions options) const {
  const file::LoadResult loaded = load_text(donors, toml_text(other));
  Diagnostics faults = loaded.diagnostics;
  if (loaded.ok()) {
    const auto result = job::run_job(loaded.job, options);
    if (!result) faults = result.error().diagnostics;
  }
  return faults.empty() ? "" : faults.front().code + " " + faults.front().path + ", " + faults.front().what;
}

const std::vector<Law>& laws() {
  static const std::vector<Law> list = {
      {"runs: the bench ends with finite numbers", broken_by_bench},
      {"runs: the packet prints", broken_by_print},
      {"cures: what is told to be turned or changed does what it says", broken_by_cures},
      {"advice: a stroke's complaint is answered by what acts in it, felt and without contradiction",
       broken_by_advice},
      {"sheets: the steps can be done in their order, and name each part once", broken_by_sheets},
      {"independence: a number depends on nothing that is asked beside it", broken_by_asking},
  };
  return list;
}

std::vector<Broken> broken_laws(const Donors& donors, const Tree& tree, const std::string& named) {
  std::vector<Broken> broken;
  const file::LoadResult loaded = load_text(donors, toml_text(tree));
  if (!loaded.ok()) return broken;
  job::RunMemo memo;
  std::string doing = "runs";
  try {
    job::RunOptions options;
    options.memo = &memo;
    const auto document = job::run_job(loaded.job, options);
    if (!document) return broken;
    for (const std::string& path : document::non_finite_paths(*document))
      broken.push_back({doing, path + " is no number"});
    const LawCase at{donors, tree, loaded.job, *document, memo};
    for (const Law& law : laws()) {
      if (!std::string(law.name).starts_with(named)) continue;
      doing = law.name;
      for (std::string& how : law.broken(at)) broken.push_back({doing, std::move(how)});
    }
  } catch (const std::exception& fault) {
    broken.push_back({"runs", "fault of the program in \"" + doing + "\": " + fault.what()});
  }
  return broken;
}

}  // namespace shimwright::laws
