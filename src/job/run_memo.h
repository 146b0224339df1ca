#pragma once
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

#include "damper/damper.h"
#include "document/document.h"
#include "job/value_memo.h"
#include "plate/stack.h"
#include "valve/valve.h"

namespace shimwright::job {

/// Scratch of the stack solver, with the lift curves that it drew in earlier runs.
///
/// Threads: any.
class WorkspacePool {
 public:
  /// The workspace used last, or a new one; give it back for the next run.
  std::unique_ptr<plate::Workspace> lend();
  void give_back(std::unique_ptr<plate::Workspace> workspace);

 private:
  std::mutex mutex_;                                     // of what follows
  std::vector<std::unique_ptr<plate::Workspace>> idle_;  // the one used last at the end
};

/// What earlier runs found, by value: who turns one shim of a fork computes one stack, one valve and what
/// follows from them; who changes the title computes nothing. The document is to the last bit what it would
/// be without.
///
/// Threads: any.
/// Tested: run_memo_test.cc
struct RunMemo {
  WorkspacePool workspaces;
  ValueMemo<document::StackResult> stacks{64};
  ValueMemo<valve::SolvedValve> valves{24};  // a tenth of a megabyte each
  ValueMemo<damper::TurnedLaws> turned{8};   // a fifth of a megabyte each
  ValueMemo<document::ClickFamily> families{48};
  ValueMemo<document::SpringResult> springs{16};
  ValueMemo<document::UnitResult> units{16};
};

/// The workspace of one run: lent by the memo, or its own without one.
class LentWorkspace {
 public:
  explicit LentWorkspace(RunMemo* memo)
      : memo_(memo), workspace_(memo ? memo->workspaces.lend() : std::make_unique<plate::Workspace>()) {}
  ~LentWorkspace() {
    if (memo_) memo_->workspaces.give_back(std::move(workspace_));
  }
  LentWorkspace(const LentWorkspace&) = delete;
  LentWorkspace& operator=(const LentWorkspace&) = delete;

  plate::Workspace& operator*() const { return *workspace_; }

 private:
  RunMemo* memo_;
  std::unique_ptr<plate::Workspace> workspace_;
};

}  // namespace shimwright::job
