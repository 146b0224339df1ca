#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "document/document.h"
#include "job/run_bench.h"
#include "job/stack_view.h"
#include "server/api_fault.h"
#include "server/runs.h"
#include "server/views.h"
#include "store/journal.h"

namespace shimwright::server {

/// What the workbench works on, and with.
struct WorkbenchSettings {
  std::string folder;           // whose jobs it shows
  std::string open_job;         // the one to show first; empty: the list
  std::string program_version;  // as shown in the session
  std::string token;            // that writes must bring along
  bool lan = false;

  std::function<std::int64_t()> now_ms;  // since 1970

  job::Executor run_all;  // of the bench; empty: one run after the other

  /// The tables of a verb as CSV; an empty text when there is no such table.
  std::function<std::string(const document::ResultDocument&, const std::string& which, units::System)> csv;
};

struct EditRequest {
  std::int64_t base = 0;  // the revision that the client saw
  std::string client;
  std::string note;
  std::vector<Edit> edits;
  bool again = false;  // done only if this client has not changed the job yet
};

struct SaveRequest {
  std::string client;
  std::string expect_disk;
  bool over = false;
};

struct NewJobRequest {
  std::string client;
  std::string name;
  std::string from;
};

/// What is left out is as the job says.
struct BenchRequest {
  std::string client;
  std::optional<double> air_in_rod_chamber;  // [m3]
  std::optional<double> oil_temperature;     // [K]
  std::vector<job::ClickSetting> clicks;
};

struct FigureRequest {
  std::string which;
  std::size_t unit = 0;
  bool foot_valve = false;
  bool compression = false;
};

/// All that the page can do, without HTTP. Every change is in the journal before it is answered.
///
/// Threads: any function from any thread. Changes of one job are one after the other; of two computations of
///          one job the older is given up, and its answer is the newer state.
/// Tested: workbench_test.cc, workbench_disk_test.cc
class Workbench {
 public:
  Workbench(WorkbenchSettings settings, store::Journal journal);
  ~Workbench();

  const WorkbenchSettings& settings() const;
  Session session();

  using MaybeConflict = std::variant<JobView, DiskConflict>;
  struct EditConflict {
    JobView present;
  };

  Answer<JobView> job(const std::string& id, const ClientContext& context);
  Answer<std::variant<JobView, EditConflict>> edit(const std::string& id, const EditRequest& request,
                                                   const ClientContext& context);
  Answer<Trial> attempt(const std::string& id, const std::vector<Edit>& edits, const ClientContext& context);
  Answer<JobView> undo(const std::string& id, const std::string& client, const ClientContext& context);
  Answer<JobView> redo(const std::string& id, const std::string& client, const ClientContext& context);
  Answer<MaybeConflict> save(const std::string& id, const SaveRequest& request, const ClientContext& context);
  Answer<JobView> reload(const std::string& id, const std::string& client, const ClientContext& context);
  Answer<JobView> new_job(const NewJobRequest& request, const ClientContext& context);

  /// The result of a revision, 0 for the last good one.
  Answer<std::shared_ptr<const Computed>> result(const std::string& id, std::int64_t revision,
                                                 const Wanted& wanted);
  /// What the job's file holds now, beside what the workbench has.
  Answer<DiskText> disk(const std::string& id);
  /// Parts of this job's own text and of its parts files, whatever else is wrong in it.
  Answer<file::PartsSpec> parts(const std::string& id);

  /// One stack of the last good result, bent.
  Answer<job::StackView> stack(const std::string& id, const job::StackViewRequest& request);

  /// Puts the last good result's job on the bench; the run's id.
  Answer<std::string> bench(const std::string& id, const BenchRequest& request, units::System system);
  /// The runs on the bench.
  Runs& runs();

  /// Called after each change, from the thread that made it. Set once, before the first request.
  void on_job_event(std::function<void(const JobEvent&)> listener);
  /// The same for each event of a run.
  void on_run_progress(std::function<void(const std::string& run)> listener);
  /// Where the workbench that wrote the journal before was to be found; empty when nobody knows.
  std::string earlier_address() const;
  /// Looks whether the journal, a job's file or one of its parts files has changed underneath; to be called
  /// now and then.
  void look_at_disk();
  /// Tells other processes where this one is to be found.
  void announce_address(const std::string& address);

 private:
  struct Open;
  struct State;
  Answer<JobView> step(const std::string& id, const std::string& client, const ClientContext& context,
                       store::Answer<store::Track> (store::Journal::*move)(const std::string&));
  std::unique_ptr<State> state_;
};

}  // namespace shimwright::server
