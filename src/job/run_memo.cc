#include "job/run_memo.h"

namespace shimwright::job {
namespace {

/// Lift curves kept with each workspace: a fork asks for a dozen, so this holds some swaps back and forth.
constexpr int kMostCurves = 64;

}  // namespace

std::unique_ptr<plate::Workspace> WorkspacePool::lend() {
  {
    const std::lock_guard lock(mutex_);
    if (!idle_.empty()) {
      std::unique_ptr<plate::Workspace> workspace = std::move(idle_.back());
      idle_.pop_back();
      return workspace;
    }
  }
  auto workspace = std::make_unique<plate::Workspace>();
  workspace->remember_curves(kMostCurves);
  return workspace;
}

void WorkspacePool::give_back(std::unique_ptr<plate::Workspace> workspace) {
  const std::lock_guard lock(mutex_);
  idle_.push_back(std::move(workspace));
}

}  // namespace shimwright::job
