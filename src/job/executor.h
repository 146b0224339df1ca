#pragma once
#include <cstddef>
#include <functional>

namespace shimwright::job {

/// Calls `one(i)` once for each i in [0, n), in any order and on any thread, and returns when all are done.
using Executor = std::function<void(std::size_t n, const std::function<void(std::size_t)>& one)>;

}  // namespace shimwright::job
