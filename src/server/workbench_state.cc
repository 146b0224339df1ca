#include "server/workbench_state.h"

#include <fmt/core.h>

#include <algorithm>
#include <chrono>

#include "base/disk.h"
#include "file/job_hash.h"
#include "file/load.h"

namespace shimwright::server {
namespace {

/// Revisions that are looked at for one that gives a result, when the present one does not.
constexpr int kMostLookedBack = 100;

/// Read of a job's text for the list of jobs: title, kind and how many faults.
JobEntry read_entry(const JobFile& file, const std::string& text) {
  file::JobFiles files(file.path, text);
  const file::LoadResult loaded = file::load_job(files, file.path);
  JobEntry entry{file.id, file.name, loaded.job.title.value};
  bool fork = false, shock = false;
  for (const file::UnitSpec& unit : loaded.job.units) {
    const bool is_shock = unit.kind.value_or(file::UnitKind::ForkLeg) == file::UnitKind::Shock;
    (is_shock ? shock : fork) = true;
  }
  if (fork && shock)
    entry.kind = "both";
  else if (fork || shock)
    entry.kind = fork ? "fork" : "shock";
  else if (loaded.job.stack)
    entry.kind = "stack";
  entry.faults =
      static_cast<int>(std::ranges::count(loaded.diagnostics, Severity::Stop, &Diagnostic::severity));
  return entry;
}

}  // namespace

ApiFault fault_of(const store::Fault& fault) {
  using Kind = store::Fault::Kind;
  const int status = fault.kind == Kind::ReadOnly   ? 403
                     : fault.kind == Kind::NotThere ? 404
                     : fault.kind == Kind::Full     ? 507
                                                    : 500;
  const char* code = fault.kind == Kind::ReadOnly   ? "read_only"
                     : fault.kind == Kind::NotThere ? "no_such_revision"
                     : fault.kind == Kind::Full     ? "journal_full"
                                                    : "journal";
  return {status, code, fault.what, fault.remedy};
}

std::string hash_of_text(const std::string& text) {
  return file::hash_text(file::hash_of(text));
}

bool Workbench::Open::unsaved() const {
  return hash_of_text(text) != track.disk_hash;
}

void Workbench::Open::change() {
  ++n_changes;
  ++trial_serial;
}

std::function<bool()> Workbench::Open::until_changed() const {
  return [this, before = n_changes.load()] { return n_changes == before; };
}

double written(const std::shared_ptr<const Computed>& held, const std::shared_ptr<const Computed>& result,
               std::optional<std::string>& patch) {
  const auto begin = std::chrono::steady_clock::now();
  if (result && held) patch = result->patch_of(*held);
  if (result && !patch) result->json();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
}

// ---- finding and opening

Answer<std::shared_ptr<Workbench::Open>> Workbench::State::find(const std::string& id) {
  const std::lock_guard lock(mutex);
  if (const auto found = open.find(id); found != open.end()) return found->second;
  for (const JobFile& file : job_files(settings.folder))
    if (file.id == id) return begin(file);
  return failure(ApiFault{404, "no_such_job", "There is no job with this id in the folder.",
                          "Read the list of jobs again. Perhaps the file was moved."});
}

Answer<std::shared_ptr<Workbench::Open>> Workbench::State::begin(const JobFile& file) {
  auto job = std::make_shared<Open>();
  job->file = file;
  job->stamp = stamp_of(file.path);
  const auto disk = file_text(file.path);
  const std::string disk_hash = disk ? hash_of_text(*disk) : "";
  auto track = journal.track(file.path);
  if (!track) return failure(fault_of(track.error()));

  // never seen: the disk's text is the first revision
  if (!*track) {
    if (!disk) {
      return failure(
          ApiFault{404, "disk", disk.error(), "Check that the file exists and that you may read it."});
    }
    job->text = *disk;
    job->track.disk_hash = disk_hash;
    if (!journal.read_only()) {
      if (const auto done = commit(*job, {*disk, {}}, "opened", "", disk_hash); !done)
        return failure(done.error());
    }
    return open[file.id] = job;
  }

  // seen before: what was typed then stands, unless it was saved and somebody wrote the file since
  if (const auto done = take_over(*job, **track); !done) return failure(done.error());
  if (disk_hash != job->track.disk_hash) {
    if (!job->unsaved() && disk && !journal.read_only()) {
      const auto next = edited(*disk, plain(job->drafts), {});
      if (const auto done = commit(*job, *next, "changed on the disk", "", disk_hash); !done)
        return failure(done.error());
    } else {
      job->disk_changed = true;
      job->disk_missing = !disk;
    }
  }
  return open[file.id] = job;
}

Answer<void> Workbench::State::commit(Open& job, const Drafted& next, const std::string& note,
                                      const std::string& client, std::optional<std::string> disk_hash) {
  auto track = journal.append(
      job.file.path, {next.text, plain(next.drafts), note, client, settings.now_ms(), std::move(disk_hash)});
  if (!track) return failure(fault_of(track.error()));
  job.track = std::move(*track);
  job.text = next.text;
  job.drafts = next.drafts;
  return {};
}

Answer<void> Workbench::State::take_over(Open& job, const store::Track& track) {
  auto revision = journal.revision(job.file.path, track.position);
  if (!revision) return failure(fault_of(revision.error()));
  auto looked_at = edited(revision->text, revision->drafts, {});
  job.change();
  job.track = track;
  job.text = std::move(revision->text);
  job.drafts = std::move(looked_at->drafts);
  return {};
}

bool Workbench::State::look_at_journal() {
  if (journal.try_to_write()) {
    open.clear();  // begun again with what the other one left, and now written down
    return true;
  }
  if (!journal.renew_if_displaced()) return false;
  for (auto& [id, job] : open) {
    const auto track = journal.track(job->file.path);
    const bool is_there =
        track && *track &&
        journal.revision(job->file.path, (*track)->position).value_or(store::Revision{}).text == job->text;
    if (is_there) {
      job->track = **track;
      continue;
    }
    // a fault is told by the next edit
    (void)commit(*job, {job->text, job->drafts}, "kept when the journal was taken away", "",
                 job->track.disk_hash);
  }
  return true;
}

bool Workbench::State::look_at_parts(Open& job) {
  bool changed = false;
  for (auto& [name, stamp] : job.parts_files) {
    const Stamp now = stamp_of(name);
    changed = changed || !(now == stamp);
    stamp = now;
  }
  return changed;
}

JobEntry Workbench::State::entry_of(const JobFile& file) {
  const auto found = open.find(file.id);
  store::Track track;
  if (found != open.end()) {
    track = found->second->track;
  } else if (auto known = journal.track(file.path); known && *known) {
    track = **known;
  }
  Listed& line = listed[file.path];
  const Stamp stamp = stamp_of(file.path);
  if (line.stamp == stamp && line.serial == track.serial && !line.entry.id.empty()) return line.entry;

  std::string text;
  bool unsaved = false;
  if (found != open.end()) {
    text = found->second->text;
    unsaved = found->second->unsaved();
  } else {
    const auto disk = file_text(file.path);
    if (disk) text = *disk;
    const auto kept = journal.revision(file.path, track.position);
    if (kept && hash_of_text(kept->text) != track.disk_hash) {
      text = kept->text;
      unsaved = true;
    }
  }
  line = {stamp, track.serial, read_entry(file, text)};
  line.entry.unsaved = unsaved;
  return line.entry;
}

// ---- events

JobEvent Workbench::State::event_of(const Open& job, const std::string& client) const {
  return {job.file.id, job.track.serial, job.track.position, client, job.disk_changed, false};
}

void Workbench::State::announce(const JobEvent& event) const {
  if (on_job_event) on_job_event(event);
}

// ---- computing

std::future<std::optional<job::StackView>> Workbench::State::bent(std::shared_ptr<const Computed> result,
                                                                  const ClientContext& context) {
  using View = std::optional<job::StackView>;
  const bool wanted = result && context.bend;
  return std::async(wanted ? std::launch::async : std::launch::deferred,
                    [this, wanted, result = std::move(result), load = context.bend]() -> View {
                      if (!wanted) return std::nullopt;
                      const std::lock_guard one_at_a_time(bending);
                      auto view = viewer.view(result->spec, result->document, *load);
                      return view ? View(std::move(*view)) : std::nullopt;
                    });
}

Workbench::State::Ahead Workbench::State::compute_ahead(const std::shared_ptr<Open>& job,
                                                        const std::string& text,
                                                        const ClientContext& context) {
  const auto compute = [this, job, text, system = context.system, go_on = job->until_changed()] {
    const std::lock_guard computing(job->computing);
    return computer.compute(job->file.path, text, {system, false}, go_on);
  };
  return {text, std::async(std::launch::async, compute)};
}

JobView Workbench::State::view(Open& job, const ClientContext& context, Ahead ahead) {
  const auto held = computer.tagged(context.holds);
  while (true) {
    JobView view;
    std::function<bool()> unchanged;
    {
      const std::lock_guard lock(mutex);
      unchanged = job.until_changed();
      view.id = job.file.id;
      view.name = job.file.name;
      view.path = job.file.path;
      view.track = job.track;
      view.unsaved = job.unsaved();
      view.disk_changed = job.disk_changed;
      view.disk_missing = job.disk_missing;
      view.text = job.text;
      view.drafts = job.drafts;
    }
    view.values = file::typed_values(view.text);  // while its result is still on its way
    JobOutcome outcome;
    if (ahead.outcome.valid() && ahead.text == view.text) {
      outcome = ahead.outcome.get();
    } else {
      const std::lock_guard computing(job.computing);
      outcome = computer.compute(job.file.path, view.text, {context.system, false}, unchanged);
    }
    if (outcome.given_up) continue;
    {
      const std::lock_guard lock(mutex);
      job.parts_files = std::move(outcome.read);
    }
    view.diagnostics = std::move(outcome.diagnostics);
    if (outcome.computed) {
      view.result = std::move(outcome.computed);
      view.result_revision = view.track.position;
      const std::lock_guard lock(mutex);
      if (unchanged()) job.good = std::pair{view.track.position, view.text};
    } else {
      view.result = last_good(job, {context.system, false}, view.result_revision);
    }
    auto shown = bent(view.result, context);
    view.timing = {outcome.compute_ms, written(held, view.result, view.result_patch)};
    view.bent = shown.get();
    return view;
  }
}

std::shared_ptr<const Computed> Workbench::State::last_good(Open& job, const Wanted& wanted,
                                                            std::int64_t& revision) {
  std::optional<std::pair<std::int64_t, std::string>> good;
  std::int64_t number{};
  {
    const std::lock_guard lock(mutex);
    good = job.good;
    number = job.track.undo_to;
  }
  const std::lock_guard computing(job.computing);
  for (int n = 0; !good && number > 0 && n < kMostLookedBack; ++n) {
    std::optional<store::Revision> kept;
    {
      const std::lock_guard lock(mutex);
      if (auto found = journal.revision(job.file.path, number)) kept = std::move(*found);
    }
    if (!kept) break;
    const JobOutcome outcome = computer.compute(job.file.path, kept->text, wanted);
    if (outcome.computed) {
      const std::lock_guard lock(mutex);
      good = job.good = std::pair{number, kept->text};
    }
    number = kept->parent;
  }
  if (!good) return nullptr;
  revision = good->first;
  auto computed = computer.compute(job.file.path, good->second, wanted).computed;
  if (!computed) revision = 0;  // its parts files have changed since
  return computed;
}

}  // namespace shimwright::server
