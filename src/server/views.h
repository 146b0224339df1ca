#pragma once
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/diagnostic.h"
#include "file/edit.h"
#include "job/stack_view.h"
#include "server/computed.h"
#include "server/edits.h"
#include "store/journal.h"

namespace shimwright::server {

// What the workbench answers, before it becomes JSON: encode.h writes it, describe_answers.cc says what each
// member means there.

/// What the client shows and already has, as far as the answer depends on it.
struct ClientContext {
  units::System system = units::System::Metric;
  std::string holds = {};                          // tag of the result that it has; empty: it has none
  std::optional<job::StackViewRequest> bend = {};  // the stack that it shows bent

  ClientContext(units::System the_system, std::string held = {},
                std::optional<job::StackViewRequest> shown = {})
      : system(the_system), holds(std::move(held)), bend(std::move(shown)) {}
};

struct Timing {
  double compute_ms = 0;
  double encode_ms = 0;
};

struct JobView {
  std::string id;
  std::string name;
  std::string path;
  store::Track track;
  bool unsaved = false;
  bool disk_changed = false;
  bool disk_missing = false;
  std::string text;
  std::vector<file::TypedValue> values;  // of the text
  std::vector<FaultyDraft> drafts;
  Diagnostics diagnostics;
  std::int64_t result_revision = 0;
  std::shared_ptr<const Computed> result;   // of result_revision; null when nothing was ever good
  std::optional<std::string> result_patch;  // of the result that the client holds; nothing: send it whole
  Timing timing;
  std::optional<job::StackView> bent = {};  // the stack of `result` that the client shows bent
};

struct Trial {
  std::vector<FaultyDraft> drafts;
  Diagnostics diagnostics;
  std::shared_ptr<const Computed> result;   // null with a stop among the diagnostics
  std::optional<std::string> result_patch;  // as in JobView
  Timing timing;
  std::optional<job::StackView> bent = {};  // the stack of `result` that the client shows bent
};

struct JobEntry {
  std::string id;
  std::string name;
  std::string title;
  std::string kind;
  bool unsaved = false;
  int faults = 0;
};

struct Session {
  std::string program_version;
  std::string token;
  std::string folder;
  bool lan = false;
  bool read_only = false;
  std::string notice;
  store::Journal::Standing journal = store::Journal::Standing::Kept;
  std::string other_address;
  std::string open;
  std::vector<JobEntry> jobs;
};

/// What a job's file holds.
struct DiskText {
  std::string text;
  std::string hash;
  bool missing = false;
};

/// The file is not what the client thinks.
struct DiskConflict {
  std::string text;
  std::string hash;
};

struct JobEvent {
  std::string job;
  std::int64_t serial = 0;
  std::int64_t revision = 0;
  std::string client;  // empty: the disk
  bool disk_changed = false;
  bool parts_changed = false;
};

/// A file as bytes with what a browser must know of it.
struct Attachment {
  std::string mime;
  std::string name;
  std::string bytes;
};

}  // namespace shimwright::server
