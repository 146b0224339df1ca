#pragma once
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "base/diagnostic.h"
#include "document/document.h"
#include "file/load.h"
#include "job/run_memo.h"
#include "server/folder.h"
#include "server/recent.h"
#include "units/format.h"

namespace shimwright::server {

/// What is wanted of a job.
struct Wanted {
  units::System system = units::System::Metric;
  bool all = false;  // plan, settings and pick list too: for paper; else what the page shows at every moment
};

/// A job as read and computed.
class Computed {
 public:
  Computed(file::JobSpec the_spec, document::ResultDocument the_document, std::string the_tag, bool all)
      : spec(std::move(the_spec)), document(std::move(the_document)), tag(std::move(the_tag)), all_(all) {}

  static constexpr std::size_t kMostPatches = 3;  // kept with each, a tenth of a megabyte each

  const file::JobSpec spec;
  const document::ResultDocument document;
  const std::string tag;  // equal for equal documents, and for no other document of this process

  /// The document; to seven digits unless all was wanted. Written when it is first needed, then kept.
  const std::string& json() const;

  /// What makes this document of `base` (RFC 6902); nothing when this document itself is no longer. Kept for
  /// the bases used last: users swap back and forth.
  std::optional<std::string> patch_of(const Computed& base) const;

 private:
  bool all_;
  mutable std::once_flag written_;
  mutable std::string json_;
  mutable std::mutex mutex_;                                          // of what follows
  mutable Recent<std::optional<std::string>> patches_{kMostPatches};  // by the tag of their base
};

/// The first task here, the others one after the other on another thread meanwhile. A fault in one of them
/// comes out of the call.
void two_at_once(std::size_t n, const std::function<void(std::size_t)>& one);

/// The outcome of computing a job: the result or why there is none, and what else the reader of the job
/// said.
struct JobOutcome {
  std::shared_ptr<const Computed> computed;  // null when a diagnostic stops it, or it was given up
  Diagnostics diagnostics;
  std::vector<std::pair<std::string, Stamp>> read;  // the files that were read beside it, as they were then
  bool given_up = false;
  double compute_ms = 0;  // reading and computing; of a remembered result only the reading
};

/// Computes jobs and remembers the last few results by what they were made from: the bytes of the job and of
/// all its parts files, and what was wanted. Safe from several threads.
class Computer {
 public:
  /// Results kept: a job in both systems of units, some steps of undo, and a ghost or two. A megabyte each.
  static constexpr std::size_t kMostRemembered = 24;

  /// `go_on` is called now and then; false gives the computation up. Empty: never called.
  JobOutcome compute(const std::string& path, const std::string& text, const Wanted& wanted,
                     const std::function<bool()>& go_on = {});

  /// The remembered result of this tag; null when there is none, or it is no longer kept.
  std::shared_ptr<const Computed> tagged(const std::string& tag);

 private:
  std::string tag_of(const file::JobSpec& spec, const Wanted& wanted) const;

  const std::uint64_t salt_ = std::random_device()();  // another program's documents may look otherwise
  job::RunMemo memo_;                                  // safe by itself
  std::mutex mutex_;                                   // of what follows
  Recent<std::shared_ptr<const Computed>> remembered_{kMostRemembered};  // by their tags
};

}  // namespace shimwright::server
