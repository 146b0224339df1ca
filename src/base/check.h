#pragma once
#include <sstream>
#include <stdexcept>
#include <string>

namespace shimwright {

/// A bug of ours, never the user's data: an invariant that the code itself must keep was broken.
/// Caught in three places only: CLI main, the per-request handler, the job worker.
struct LogicFault : std::logic_error {
  using std::logic_error::logic_error;
};

namespace internal {
template <typename... Values>
[[noreturn]] void fail_check(const char* condition, const char* file, int line, const Values&... values) {
  std::ostringstream text;
  text << file << ':' << line << ": " << condition << " does not hold";
  if constexpr (sizeof...(values) > 0) {
    text << "; values:";
    ((text << ' ' << values), ...);
  }
  throw LogicFault(text.str());
}
}  // namespace internal
}  // namespace shimwright

/// Always on. SW_CHECK(cond, a, b) throws LogicFault with the condition, the place and the values of a and b.
#define SW_CHECK(cond, ...)                                                                                \
  do {                                                                                                     \
    if (!(cond)) ::shimwright::internal::fail_check(#cond, __FILE__, __LINE__ __VA_OPT__(, ) __VA_ARGS__); \
  } while (false)
