#include "server/computed.h"

#include <fmt/core.h>

#include <algorithm>
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

/// Results kept: a job in both systems of units, some steps of undo, and a ghost or two. A megabyte each.
constexpr std::size_t kMostComputed = 24;

/// Patches kept with each of them, a tenth of that each.
constexpr std::size_t kMostPatches = 3;

using Clock = std::chrono::steady_clock;

double ms_since(Clock::time_point begin) {
  return std::chrono::duration<double, std::milli>(Clock::now() - begin).count();
}

/// The first part here, the others on other threads meanwhile.
void two_at_once(std::size_t n, const std::function<void(std::size_t)>& one) {
  auto others = std::async(std::launch::async, [&] {
    for (std::size_t i = 1; i < n; ++i) one(i);
  });
  one(0);
  others.get();
}

std::string key_of(const file::JobSpec& spec, const Wanted& wanted) {
  std::uint64_t hash = file::hash_of(wanted.all ? "all" : "live");
  std::size_t size = 0;
  for (const file::SourceFile& file : spec.files) {
    hash = file::hash_of(file.name, hash);
    hash = file::hash_of(std::string_view("\0", 1), hash);
    hash = file::hash_of(file.text, hash);
    hash = file::hash_of(std::string_view("\0", 1), hash);
    size += file.text.size();
  }
  return fmt::format("{:016x}-{}-{}", hash, size, wanted.system == units::System::Metric ? 'm' : 'i');
}

}  // namespace

const std::string& Computed::json() const {
  std::call_once(written_,
                 [&] { json_ = all_ ? document::to_json(document, -1) : document::to_brief_json(document); });
  return json_;
}

std::optional<std::string> Computed::patch_of(const Computed& base) const {
  if (all_ || base.all_) return std::nullopt;
  {
    const std::lock_guard lock(mutex_);
    const auto found = std::ranges::find(patches_, base.tag, &Patch::base);
    if (found != patches_.end()) return found->text;
  }
  std::optional<std::string> patch = document::brief_patch(base.document, document);
  const std::lock_guard lock(mutex_);
  patches_.push_front({base.tag, patch});
  if (patches_.size() > kMostPatches) patches_.pop_back();
  return patch;
}

JobOutcome Computer::compute(const std::string& path, const std::string& text, const Wanted& wanted,
                             const std::function<bool()>& go_on) {
  const auto begin = Clock::now();
  file::JobFiles files(path, text);
  file::LoadResult loaded = file::load_job(files, path);
  JobOutcome outcome;
  outcome.diagnostics = std::move(loaded.diagnostics);
  if (has_stop(outcome.diagnostics)) return outcome;

  const std::string key = key_of(loaded.job, wanted);
  outcome.computed = recall(key);
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
  outcome.computed =
      std::make_shared<Computed>(std::move(loaded.job), std::move(*document), tag_of(key), wanted.all);
  outcome.compute_ms = ms_since(begin);
  remember(key, outcome.computed);
  return outcome;
}

std::string Computer::tag_of(const std::string& key) const {
  return file::hash_text(file::hash_of(key, salt_));
}

std::shared_ptr<const Computed> Computer::tagged(const std::string& tag) {
  const std::lock_guard lock(mutex_);
  const auto found =
      std::ranges::find_if(remembered_, [&](const Remembered& one) { return one.computed->tag == tag; });
  if (found == remembered_.end()) return nullptr;
  remembered_.splice(remembered_.begin(), remembered_, found);
  return found->computed;
}

std::shared_ptr<const Computed> Computer::recall(const std::string& key) {
  const std::lock_guard lock(mutex_);
  const auto found = std::ranges::find(remembered_, key, &Remembered::key);
  if (found == remembered_.end()) return nullptr;
  remembered_.splice(remembered_.begin(), remembered_, found);
  return found->computed;
}

void Computer::remember(const std::string& key, std::shared_ptr<const Computed> computed) {
  const std::lock_guard lock(mutex_);
  remembered_.push_front({key, std::move(computed)});
  if (remembered_.size() > kMostComputed) remembered_.pop_back();
}

}  // namespace shimwright::server
