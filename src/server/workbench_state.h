#pragma once
#include <atomic>
#include <cstdint>
#include <functional>
#include <future>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "server/folder.h"
#include "server/workbench.h"

namespace shimwright::server {

/// A job as it stands in the workbench: what the journal says, in memory.
struct Workbench::Open {
  JobFile file;

  // guarded by State::mutex
  store::Track track;  // position 0: the journal may only be read and has nothing of it
  std::string text;
  std::vector<FaultyDraft> drafts;
  bool disk_changed = false;
  bool disk_missing = false;
  Stamp stamp;                                               // of the file when it was last looked at
  std::vector<std::pair<std::string, Stamp>> parts_files;    // that its last computation has read
  std::optional<std::pair<std::int64_t, std::string>> good;  // the last revision with a result, and its text

  std::atomic<std::int64_t> n_changes = 0;     // an older computation of this job is given up when it grows
  std::atomic<std::int64_t> trial_serial = 0;  // grows with each trial and change: an older trial is given up
  std::mutex computing;                        // one at a time for each job

  bool unsaved() const;
  /// Before its text changes: what is being computed is given up.
  void change();
  /// True until the next change: an answer for a computation that asks whether to go on.
  std::function<bool()> until_changed() const;
};

struct Workbench::State {
  WorkbenchSettings settings;
  store::Journal journal;
  Computer computer;
  std::function<void(const JobEvent&)> on_job_event;
  std::function<void(const std::string&)> on_run_progress;
  Runs runs{[this](const std::string& run) {
    if (on_run_progress) on_run_progress(run);
  }};
  std::mutex bending;  // of `viewer`
  job::StackViewer viewer;

  std::mutex mutex;  // of everything below, of the journal, and of the content of each Open
  std::map<std::string, std::shared_ptr<Open>> open;
  struct Listed {
    Stamp stamp;
    std::int64_t serial = 0;
    JobEntry entry;
  };
  std::map<std::string, Listed> listed;  // by path: entries of the list that need not be read again

  State(WorkbenchSettings given, store::Journal opened)
      : settings(std::move(given)), journal(std::move(opened)) {}

  /// The job of this id, opened when it is not yet.
  Answer<std::shared_ptr<Open>> find(const std::string& id);
  /// With `mutex` held: brings journal and disk together for a job that is seen for the first time.
  Answer<std::shared_ptr<Open>> begin(const JobFile& file);
  /// With `mutex` held, and after the job's change(): writes a new state down and takes it over.
  Answer<void> commit(Open& job, const Drafted& next, const std::string& note, const std::string& client,
                      std::optional<std::string> disk_hash = std::nullopt);
  /// With `mutex` held: takes over what the journal has at `track`.
  Answer<void> take_over(Open& job, const store::Track& track);
  /// With `mutex` held: the other workbench may have ended, or somebody may have taken the journal away. True
  /// when clients must look at the session again.
  bool look_at_journal();
  /// With `mutex` held: true when a parts file has changed since the job was computed.
  static bool look_at_parts(Open& job);
  /// With `mutex` held: the list's line of a job.
  JobEntry entry_of(const JobFile& file);

  JobEvent event_of(const Open& job, const std::string& client) const;
  void announce(const JobEvent& event) const;

  /// A text that is being computed while the journal still writes it down.
  struct Ahead {
    std::string text;
    std::future<JobOutcome> outcome;
  };
  /// With `mutex` held, after the job's change(): given up when another one follows.
  Ahead compute_ahead(const std::shared_ptr<Open>& job, const std::string& text,
                      const ClientContext& context);

  /// The job with what it gives; of a computation that a newer change overtakes, the newer one.
  JobView view(Open& job, const ClientContext& context, Ahead ahead = {});
  /// The stack that the client shows bent; nothing when it shows none, or when this result has no such stack.
  /// Computed on another thread, while what changed is written down.
  std::future<std::optional<job::StackView>> bent(std::shared_ptr<const Computed> result,
                                                  const ClientContext& context);
  std::shared_ptr<const Computed> last_good(Open& job, const Wanted& wanted, std::int64_t& revision);
};

/// Writes a result for one who holds `held`: as a patch of that where it can be, else as a whole. Takes so
/// many milliseconds.
double written(const std::shared_ptr<const Computed>& held, const std::shared_ptr<const Computed>& result,
               std::optional<std::string>& patch);

ApiFault fault_of(const store::Fault& fault);
std::string hash_of_text(const std::string& text);

}  // namespace shimwright::server
