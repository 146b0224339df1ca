#pragma once
#include <cstddef>
#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "job/run_stack.h"

namespace shimwright::job {

/// Remembers the results of stacks by all they were computed from: who turns one shim of a fork computes one
/// stack of four. What it returns is to the last bit what stack_result() would.
///
/// Threads: any; two that ask for the same at once both compute it.
/// Tested: stack_memo_test.cc
class StackMemo {
 public:
  /// At most `most` stacks are kept, those asked for last.
  explicit StackMemo(std::size_t most = 64) : most_(most) {}

  StackResult stack_result(const StackModel& model, const StackRun& run, plate::Workspace& workspace);

  /// Scratch for one run, with the lift curves that it drew in earlier runs; give it back for the next.
  std::unique_ptr<plate::Workspace> lend_workspace();
  void give_back(std::unique_ptr<plate::Workspace> workspace);

  /// How often a result was at hand.
  std::size_t n_found() const;

 private:
  struct Kept {
    std::string key;
    StackResult result;
  };
  const std::size_t most_;
  mutable std::mutex mutex_;  // of what follows
  std::list<Kept> kept_;      // the newest first
  std::size_t n_found_ = 0;
  std::vector<std::unique_ptr<plate::Workspace>> idle_;  // the one used last at the end
};

/// The workspace of one run: lent by the memo, or its own where there is none.
class LentWorkspace {
 public:
  explicit LentWorkspace(StackMemo* memo)
      : memo_(memo), workspace_(memo ? memo->lend_workspace() : std::make_unique<plate::Workspace>()) {}
  ~LentWorkspace() {
    if (memo_) memo_->give_back(std::move(workspace_));
  }
  LentWorkspace(const LentWorkspace&) = delete;
  LentWorkspace& operator=(const LentWorkspace&) = delete;

  plate::Workspace& operator*() const { return *workspace_; }

 private:
  StackMemo* memo_;
  std::unique_ptr<plate::Workspace> workspace_;
};

}  // namespace shimwright::job
