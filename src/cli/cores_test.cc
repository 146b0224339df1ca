#include "cli/cores.h"

#include <gtest/gtest.h>

#include <atomic>
#include <mutex>
#include <set>
#include <stdexcept>
#include <thread>

namespace shimwright::cli {
namespace {

/// The threads that worked on so many tasks, each of which waits until `n_at_once` are at it.
std::set<std::thread::id> threads_of(unsigned n_threads, std::size_t n_tasks, int n_at_once) {
  std::set<std::thread::id> threads;
  std::mutex mutex;
  std::atomic<int> n_begun = 0;
  on_cores(n_threads)(n_tasks, [&](std::size_t) {
    ++n_begun;
    while (n_begun < n_at_once) std::this_thread::yield();
    const std::lock_guard lock(mutex);
    threads.insert(std::this_thread::get_id());
  });
  return threads;
}

TEST(Cores, AsManyThreadsAsAskedForAndNoMoreThanTasks) {
  EXPECT_EQ(threads_of(1, 50, 1).size(), 1u);
  EXPECT_EQ(threads_of(3, 3, 3).size(), 3u);
  EXPECT_EQ(threads_of(8, 2, 2).size(), 2u);
  EXPECT_TRUE(threads_of(4, 0, 0).empty());
  EXPECT_GE(threads_of(0, 5, 1).size(), 1u);
}

TEST(Cores, TheCallerWorksToo) {
  EXPECT_EQ(threads_of(1, 3, 1), std::set<std::thread::id>{std::this_thread::get_id()});
  EXPECT_TRUE(threads_of(2, 2, 2).contains(std::this_thread::get_id()));
}

TEST(Cores, EveryTaskIsDoneOnce) {
  std::vector<std::atomic<int>> done(1000);
  on_cores(4)(done.size(), [&](std::size_t i) { ++done[i]; });
  for (const auto& one : done) EXPECT_EQ(one, 1);
  std::vector<std::size_t> order;
  on_cores(1)(3, [&](std::size_t i) { order.push_back(i); });
  EXPECT_EQ(order, (std::vector<std::size_t>{0, 1, 2}));
}

TEST(Cores, AFaultInATaskComesOut) {
  EXPECT_THROW(on_cores(3)(10,
                           [](std::size_t i) {
                             if (i == 4) throw std::runtime_error("broken");
                           }),
               std::runtime_error);
}

}  // namespace
}  // namespace shimwright::cli
