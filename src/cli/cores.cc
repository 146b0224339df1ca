#include "cli/cores.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace shimwright::cli {

job::Executor on_cores(unsigned n_threads) {
  const unsigned wanted = n_threads > 0 ? n_threads : std::max(1u, std::thread::hardware_concurrency());
  return [wanted](std::size_t n, const std::function<void(std::size_t)>& one) {
    std::atomic<std::size_t> next{0};
    std::exception_ptr fault;
    std::mutex mutex;
    const auto work = [&] {
      for (std::size_t i = next++; i < n; i = next++) {
        try {
          one(i);
        } catch (...) {
          const std::lock_guard<std::mutex> lock(mutex);
          if (!fault) fault = std::current_exception();
          next = n;
        }
      }
    };
    std::vector<std::thread> threads;
    for (unsigned k = 1; k < std::min<std::size_t>(wanted, n); ++k) threads.emplace_back(work);
    work();
    for (std::thread& thread : threads) thread.join();
    if (fault) std::rethrow_exception(fault);
  };
}

}  // namespace shimwright::cli
