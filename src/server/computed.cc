#include "server/computed.h"

#include <chrono>
#include <future>
#include <utility>

#include "document/document_brief.h"
#include "document/document_json.h"
#include "document/document_patch.h"
#include "file/job_hash.h"
#include "job/run.h"

namespace shimwright::server {
namespace {

constexpr int kNoBlanks = -1;  // the indentation that stands for none

using Clock = std::chrono::steady_clock;

/// A job's own text and the files on the disk, with a note of which were read.
class NotedFiles : public file::FileSource {
 public:
  NotedFiles(const std::string& path, const std::string& text) : path_(path), files_(path, text) {}
  Result<std::string, std::string> read(const std::string& name) override {
    if (name != path_) seen.emplace_back(name, stamp_of(name));  // before: a change meanwhile is then seen
    return files_.read(name);
  }
  std::vector<std::pair<std::string, Stamp>> seen;

 private:
  std::string path_;
  file::JobFiles files_;
};

double ms_since(Clock::time_point begin) {
  return std::chrono::duration<double, std::milli>(Clock::now() - begin).count();
}

}  // namespace

void two_at_once(std::size_t n, const std::function<void(std::size_t)>& one) {
  auto others = std::async(std::launch::async, [&] {
    for (std::size_t i = 1; i < n; ++i) one(i);
  });
  if (n > 0) one(0);
  others.get();
}

const std::string& Computed::json() const {
  std::call_once(written_, [&] {
    json_ = all_ ? document::to_json(document, kNoBlanks) : document::to_brief_json(document);
  });
  return json_;
}

std::optional<std::string> Computed::patch_of(const Computed& base) const {
  if (all_ || base.all_) return std::nullopt;
  {
    const std::lock_guard lock(mutex_);
    if (auto kept = patches_.find(base.tag)) return *kept;
  }
  std::optional<std::string> patch = document::brief_patch(base.document, document);
  const std::lock_guard lock(mutex_);
  patches_.add(base.tag, patch);
  return patch;
}

JobOutcome Computer::compute(const std::string& path, const std::string& text, const Wanted& wanted,
                             const std::function<bool()>& go_on) {
  const auto begin = Clock::now();
  NotedFiles files(path, text);
  file::LoadResult loaded = file::load_job(files, path);
  JobOutcome outcome;
  outcome.read = std::move(files.seen);
  outcome.diagnostics = std::move(loaded.diagnostics);
  if (has_stop(outcome.diagnostics)) return outcome;

  const std::string tag = tag_of(loaded.job, wanted);
  outcome.computed = tagged(tag);
  outcome.compute_ms = ms_since(begin);
  if (outcome.computed) return outcome;

  job::RunOptions options;
  options.system = wanted.system;
  if (!wanted.all) options.sections = job::Sections::live();
  options.memo = &memo_;
  options.run_all = two_at_once;
  if (go_on) options.progress = [&](double, std::string_view) { return go_on(); };
  auto document = job::run_job(loaded.job, options);
  if (!document) {
    outcome.given_up = document.error().cancelled;
    for (Diagnostic& diagnostic : document.error().diagnostics)
      outcome.diagnostics.push_back(std::move(diagnostic));
    sort_by_place(outcome.diagnostics);
    return outcome;
  }
  outcome.computed = std::make_shared<Computed>(std::move(loaded.job), std::move(*document), tag, wanted.all);
  outcome.compute_ms = ms_since(begin);
  const std::lock_guard lock(mutex_);
  remembered_.add(tag, outcome.computed);
  return outcome;
}

/// Of what was wanted and of the bytes of all files: each name and each text ends with a zero, which no text
/// of a job holds.
std::string Computer::tag_of(const file::JobSpec& spec, const Wanted& wanted) const {
  std::string made_from = wanted.all ? "all" : "live";
  made_from.push_back(static_cast<char>(wanted.system));
  for (const file::SourceFile& file : spec.files)
    for (const std::string* part : {&file.name, &file.text}) made_from.append(*part).push_back('\0');
  return file::hash_text(file::hash_of(made_from, salt_));
}

std::shared_ptr<const Computed> Computer::tagged(const std::string& tag) {
  const std::lock_guard lock(mutex_);
  return remembered_.find(tag).value_or(nullptr);
}

}  // namespace shimwright::server
