#include "server/workbench.h"

#include <fmt/core.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "base/disk.h"
#include "base/utf8.h"
#include "document/document_brief.h"
#include "server/encode.h"
#include "server/start_jobs.h"
#include "server/workbench_state.h"

namespace shimwright::server {
namespace {

ApiFault read_only(const store::Journal& journal) {
  return {403, "read_only", journal.notice(), "Until then, what you type is not kept in the journal."};
}

constexpr std::size_t kLongestName = 120;  // [B]; with what a save puts behind it well below what disks take

/// Why a name is not valid for a new job; empty when it is.
std::string fault_of_name(const std::string& name) {
  if (name.empty()) return "the file has no name";
  if (name.size() > kLongestName) return fmt::format("the name is longer than {} bytes", kLongestName);
  if (name.starts_with('.')) return "the name begins with a dot, which hides the file";
  if (name.find_first_of("/\\:*?\"<>|") != std::string::npos)
    return "the name contains a character that separates folders or that some disks do not allow";
  if (printable(name, kLongestName) != name) return "the name contains a character that cannot be printed";
  if (!name.ends_with(".job.toml")) return "the name does not end in .job.toml";
  return "";
}

}  // namespace

Workbench::Workbench(WorkbenchSettings settings, store::Journal journal) {
  settings.folder = absolute_path(settings.folder);
  if (!settings.open_job.empty()) settings.open_job = absolute_path(settings.open_job);
  state_ = std::make_unique<State>(std::move(settings), std::move(journal));
}

Workbench::~Workbench() = default;

const WorkbenchSettings& Workbench::settings() const {
  return state_->settings;
}

void Workbench::on_job_event(std::function<void(const JobEvent&)> listener) {
  state_->on_job_event = std::move(listener);
}

void Workbench::on_run_progress(std::function<void(const std::string&)> listener) {
  state_->on_run_progress = std::move(listener);
}

Runs& Workbench::runs() {
  return state_->runs;
}

// ---- looking

Session Workbench::session() {
  const WorkbenchSettings& settings = state_->settings;
  Session session;
  session.program_version = settings.program_version;
  session.token = settings.token;
  session.folder = settings.folder;
  session.lan = settings.lan;
  const std::vector<JobFile> files = job_files(settings.folder);
  const std::lock_guard lock(state_->mutex);
  session.read_only = state_->journal.read_only();
  session.notice = state_->journal.notice();
  session.journal = state_->journal.standing();
  session.other_address = state_->journal.other_address();
  for (const JobFile& file : files) {
    session.jobs.push_back(state_->entry_of(file));
    if (file.path == settings.open_job) session.open = file.id;
  }
  return session;
}

Answer<JobView> Workbench::job(const std::string& id, const ClientContext& context) {
  auto job = state_->find(id);
  if (!job) return failure(std::move(job.error()));
  return state_->view(**job, context);
}

Answer<std::shared_ptr<const Computed>> Workbench::result(const std::string& id, std::int64_t revision,
                                                          const Wanted& wanted) {
  auto found = state_->find(id);
  if (!found) return failure(std::move(found.error()));
  Open& job = **found;
  std::string text;
  {
    const std::lock_guard lock(state_->mutex);
    if (revision == 0 || revision == job.track.position) {
      text = job.text;
    } else {
      auto kept = state_->journal.revision(job.file.path, revision);
      if (!kept) return failure(fault_of(kept.error()));
      text = std::move(kept->text);
    }
  }
  JobOutcome outcome;
  {
    const std::lock_guard computing(job.computing);
    outcome = state_->computer.compute(job.file.path, text, wanted);
  }
  if (outcome.computed) return outcome.computed;
  if (revision == 0) {
    std::int64_t number{};
    if (auto good = state_->last_good(job, wanted, number)) return good;
  }
  return failure(faulty("This job has a fault, so nothing was calculated.", std::move(outcome.diagnostics)));
}

Answer<DiskText> Workbench::disk(const std::string& id) {
  auto job = state_->find(id);
  if (!job) return failure(std::move(job.error()));
  const auto disk = file_text((*job)->file.path);
  if (!disk) return DiskText{"", "", true};
  return DiskText{*disk, hash_of_text(*disk), false};
}

Answer<file::PartsSpec> Workbench::parts(const std::string& id) {
  auto job = state_->find(id);
  if (!job) return failure(std::move(job.error()));
  std::string text;
  {
    const std::lock_guard lock(state_->mutex);
    text = (*job)->text;
  }
  file::JobFiles files((*job)->file.path, std::move(text));
  return file::load_job(files, (*job)->file.path).job.parts;
}

Answer<job::StackView> Workbench::stack(const std::string& id, const job::StackViewRequest& request) {
  const auto good = result(id, 0, {request.system, false});
  if (!good) return failure(good.error());
  const std::lock_guard bending(state_->bending);
  auto view = state_->viewer.view((*good)->spec, (*good)->document, request);
  if (!view) {
    return failure(ApiFault{422, "no_such_stack", view.error().what,
                            "Name a direction that has a stack, such as unit[0].piston_valve.rebound."});
  }
  return std::move(*view);
}

Answer<std::string> Workbench::bench(const std::string& id, const BenchRequest& request,
                                     units::System system) {
  const auto good = result(id, 0, {system, false});
  if (!good) return failure(good.error());
  job::BenchOptions options;
  options.system = system;
  options.clicks = request.clicks;
  options.air_in_rod_chamber = request.air_in_rod_chamber;
  options.oil_temperature = request.oil_temperature;
  options.run_all = state_->settings.run_all;
  return state_->runs.start(id, [good = *good, options](const Runs::Progress& progress) -> Runs::Event {
    job::BenchOptions asked = options;
    asked.progress = progress;
    auto document = job::run_bench_job(good->spec, asked);
    if (!document) {
      return {"failed",
              to_json(faulty("The bench cannot run this job.", std::move(document.error().diagnostics)))};
    }
    return {document->stopped ? "stopped" : "result", document::to_brief_json(*document)};
  });
}

// ---- changing

Answer<std::variant<JobView, Workbench::EditConflict>> Workbench::edit(const std::string& id,
                                                                       const EditRequest& request,
                                                                       const ClientContext& context) {
  auto found = state_->find(id);
  if (!found) return failure(std::move(found.error()));
  Open& job = **found;
  bool conflict = false;
  std::optional<JobEvent> event;
  State::Ahead ahead;
  {
    const std::lock_guard lock(state_->mutex);
    if (state_->journal.read_only()) return failure(read_only(state_->journal));
    bool is_done = false;
    if (request.again) {
      const auto made = state_->journal.has_made(request.client, job.file.path);
      if (!made) return failure(fault_of(made.error()));
      is_done = *made;
    }
    if (!is_done && request.base != job.track.position) {
      const auto base = state_->journal.revision(job.file.path, request.base);
      const bool whole =
          std::ranges::any_of(request.edits, [](const Edit& edit) { return edit.kind == Edit::Kind::Text; });
      conflict = whole || !base || !means_the_same(request.edits, base->text, job.text);
    }
    if (!is_done && !conflict) {
      auto next = edited(job.text, plain(job.drafts), request.edits);
      if (!next) return failure(std::move(next.error()));
      if (next->text != job.text || plain(next->drafts) != plain(job.drafts)) {
        const std::string note = request.note.empty() ? note_of(request.edits) : printable(request.note, 200);
        // writing to the disk takes time: the result is calculated at the same time
        job.change();
        ahead = state_->compute_ahead(*found, next->text, context);
        if (const auto done = state_->commit(job, *next, note, request.client); !done)
          return failure(done.error());
        event = state_->event_of(job, request.client);
      }
    }
  }
  if (event) state_->announce(*event);
  JobView view = state_->view(job, context, std::move(ahead));
  if (conflict) return EditConflict{std::move(view)};
  return view;
}

Answer<Trial> Workbench::attempt(const std::string& id, const std::vector<Edit>& edits,
                                 const ClientContext& context) {
  auto found = state_->find(id);
  if (!found) return failure(std::move(found.error()));
  Open& job = **found;
  const std::int64_t serial = ++job.trial_serial;
  std::string text;
  std::vector<store::Draft> drafts;
  {
    const std::lock_guard lock(state_->mutex);
    text = job.text;
    drafts = plain(job.drafts);
  }
  auto next = edited(text, drafts, edits);
  if (!next) return failure(std::move(next.error()));
  const auto held = state_->computer.tagged(context.holds);
  JobOutcome outcome;
  {
    const std::lock_guard computing(job.computing);
    outcome = state_->computer.compute(job.file.path, next->text, {context.system, false},
                                       [&] { return job.trial_serial == serial; });
  }
  if (outcome.given_up) {
    return failure(ApiFault{409, "superseded",
                            "A newer change of this job came before this one was finished.",
                            "Do nothing: the newer change gets the answer."});
  }
  Trial trial{std::move(next->drafts), std::move(outcome.diagnostics), std::move(outcome.computed), {}, {}};
  auto bent = state_->bent(trial.result, context);
  trial.timing = {outcome.compute_ms, written(held, trial.result, trial.result_patch)};
  trial.bent = bent.get();
  return trial;
}

Answer<JobView> Workbench::undo(const std::string& id, const std::string& client,
                                const ClientContext& context) {
  return step(id, client, context, &store::Journal::undo);
}

Answer<JobView> Workbench::redo(const std::string& id, const std::string& client,
                                const ClientContext& context) {
  return step(id, client, context, &store::Journal::redo);
}

Answer<JobView> Workbench::step(const std::string& id, const std::string& client,
                                const ClientContext& context,
                                store::Answer<store::Track> (store::Journal::*move)(const std::string&)) {
  auto found = state_->find(id);
  if (!found) return failure(std::move(found.error()));
  Open& job = **found;
  std::optional<JobEvent> event;
  {
    const std::lock_guard lock(state_->mutex);
    if (state_->journal.read_only()) return failure(read_only(state_->journal));
    const auto track = (state_->journal.*move)(job.file.path);
    if (!track) return failure(fault_of(track.error()));
    if (track->position != job.track.position) {
      if (const auto done = state_->take_over(job, *track); !done) return failure(done.error());
      event = state_->event_of(job, client);
    }
  }
  if (event) state_->announce(*event);
  return state_->view(job, context);
}

// ---- the disk

Answer<Workbench::MaybeConflict> Workbench::save(const std::string& id, const SaveRequest& request,
                                                 const ClientContext& context) {
  auto found = state_->find(id);
  if (!found) return failure(std::move(found.error()));
  Open& job = **found;
  JobEvent event;
  {
    const std::lock_guard lock(state_->mutex);
    if (state_->journal.read_only()) return failure(read_only(state_->journal));
    const auto disk = file_text(job.file.path);
    const std::string disk_hash = disk ? hash_of_text(*disk) : "";
    if (!request.over && disk_hash != request.expect_disk) {
      job.disk_changed = true;
      job.disk_missing = !disk;
      return DiskConflict{disk ? *disk : "", disk_hash};
    }
    // what another program wrote is one undo away, and its place in the file is taken only after that
    if (disk && disk_hash != job.track.disk_hash && *disk != job.text) {
      const Drafted mine{job.text, job.drafts};
      job.change();
      for (const auto& [next, note] : {std::pair(Drafted{*disk, {}}, "the file as another program wrote it"),
                                       std::pair(mine, "write over the file")})
        if (const auto done = state_->commit(job, next, note, request.client); !done)
          return failure(done.error());
    }
    if (const auto written = replace_file(job.file.path, job.text); !written) {
      return failure(ApiFault{507, "disk", written.error(),
                              "Check that the disk has room and that you may write to the folder. What you "
                              "typed is kept in the journal."});
    }
    const auto track = state_->journal.set_disk_hash(job.file.path, hash_of_text(job.text));
    if (!track) return failure(fault_of(track.error()));
    job.track = *track;
    job.disk_changed = job.disk_missing = false;
    job.stamp = stamp_of(job.file.path);
    event = state_->event_of(job, request.client);
  }
  state_->announce(event);
  return state_->view(job, context);
}

Answer<JobView> Workbench::reload(const std::string& id, const std::string& client,
                                  const ClientContext& context) {
  auto found = state_->find(id);
  if (!found) return failure(std::move(found.error()));
  Open& job = **found;
  JobEvent event;
  {
    const std::lock_guard lock(state_->mutex);
    if (state_->journal.read_only()) return failure(read_only(state_->journal));
    const auto disk = file_text(job.file.path);
    if (!disk) return failure(ApiFault{404, "disk", disk.error(), "Save the job to write the file again."});
    const auto next = edited(*disk, plain(job.drafts), {});
    job.change();
    if (const auto done =
            state_->commit(job, *next, "load the text of the file", client, hash_of_text(*disk));
        !done)
      return failure(done.error());
    job.disk_changed = job.disk_missing = false;
    job.stamp = stamp_of(job.file.path);
    event = state_->event_of(job, client);
  }
  state_->announce(event);
  return state_->view(job, context);
}

Answer<JobView> Workbench::new_job(const NewJobRequest& request, const ClientContext& context) {
  if (const std::string why = fault_of_name(request.name); !why.empty()) {
    return failure(ApiFault{422, "bad_name",
                            fmt::format("{}: {}", printable(request.name, kLongestName), why),
                            "Use a name like front-fork.job.toml."});
  }
  std::string text = start_job(request.from);
  std::string folder = state_->settings.folder;
  if (text.empty()) {
    auto from = state_->find(request.from);
    if (!from) return failure(std::move(from.error()));
    const std::lock_guard lock(state_->mutex);
    text = (*from)->text;
    // beside the one it was copied from: its parts files are named from there
    folder = std::filesystem::path((*from)->file.path).parent_path().string();
  }
  const std::string path = (std::filesystem::path(folder) / request.name).string();
  if (const auto made = create_file(path, text); !made) {
    return failure(
        ApiFault{409, "disk", made.error(), "Use another name, or check that you may write to the folder."});
  }
  return job(id_of(absolute_path(path)), context);
}

void Workbench::announce_address(const std::string& address) {
  const std::lock_guard lock(state_->mutex);
  state_->journal.announce_address(address);
}

std::string Workbench::earlier_address() const {
  const std::lock_guard lock(state_->mutex);
  return state_->journal.earlier_address();
}

void Workbench::look_at_disk() {
  std::vector<JobEvent> events;
  {
    const std::lock_guard lock(state_->mutex);
    if (state_->look_at_journal()) events.emplace_back();
    for (auto& [id, job] : state_->open) {
      if (state_->journal.read_only()) {
        // the workbench that writes may have gone on
        const auto track = state_->journal.track(job->file.path);
        if (track && *track && (*track)->serial != job->track.serial && state_->take_over(*job, **track))
          events.push_back(state_->event_of(*job, ""));
      }
      if (State::look_at_parts(*job)) {
        events.push_back(state_->event_of(*job, ""));
        events.back().parts_changed = true;
      }
      const Stamp stamp = stamp_of(job->file.path);
      if (stamp == job->stamp) continue;
      job->stamp = stamp;
      const auto disk = file_text(job->file.path);
      const std::string hash = disk ? hash_of_text(*disk) : "";
      const bool changed = hash != job->track.disk_hash;
      if (changed && disk && !job->unsaved() && !state_->journal.read_only()) {
        const auto next = edited(*disk, plain(job->drafts), {});
        job->change();
        if (state_->commit(*job, *next, "changed on the disk", "", hash))
          events.push_back(state_->event_of(*job, ""));
      } else if (changed != job->disk_changed || !disk != job->disk_missing) {
        job->disk_changed = changed;
        job->disk_missing = !disk;
        events.push_back(state_->event_of(*job, ""));
      }
    }
  }
  for (const JobEvent& event : events) state_->announce(event);
}

}  // namespace shimwright::server
