#pragma once
#include <algorithm>
#include <cstddef>
#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <utility>

namespace shimwright::job {

/// Remembers results by the bytes of all they were computed from. At most `most` are kept, those asked for
/// last.
///
/// Threads: any; two that ask for the same at once both compute it.
/// Tested: run_memo_test.cc
template <typename Value>
class ValueMemo {
 public:
  explicit ValueMemo(std::size_t most) : most_(most) {}

  /// What is kept under the key, else what `compute` gives.
  template <typename Compute>
  std::shared_ptr<const Value> get(std::string key, Compute&& compute) {
    {
      const std::lock_guard lock(mutex_);
      const auto found = std::ranges::find(kept_, key, &Kept::key);
      if (found != kept_.end()) {
        ++n_found_;
        kept_.splice(kept_.begin(), kept_, found);
        return found->value;
      }
    }
    auto value = std::make_shared<const Value>(compute());
    const std::lock_guard lock(mutex_);
    kept_.push_front({std::move(key), value});
    if (kept_.size() > most_) kept_.pop_back();
    return value;
  }

  /// How often a result was at hand.
  std::size_t n_found() const {
    const std::lock_guard lock(mutex_);
    return n_found_;
  }

 private:
  struct Kept {
    std::string key;
    std::shared_ptr<const Value> value;
  };
  const std::size_t most_;
  mutable std::mutex mutex_;  // of what follows
  std::list<Kept> kept_;      // the newest first
  std::size_t n_found_ = 0;
};

}  // namespace shimwright::job
