#pragma once
#include <concepts>
#include <initializer_list>
#include <stdexcept>
#include <string>
#include <string_view>

namespace shimwright {

/// A bug of ours, never the user's data: an invariant that the code itself must keep was broken.
/// Caught in three places only: CLI main, the per-request handler, the job worker.
struct LogicFault : std::logic_error {
  using std::logic_error::logic_error;
};

namespace internal {

/// A value in the message of a failed check. It owns nothing, so that a check costs little code where it
/// stands.
struct CheckValue {
  CheckValue(double value) : kind(Kind::Real), real(value) {}
  template <std::integral Whole>
  CheckValue(Whole value) : kind(Kind::Whole), whole(static_cast<long long>(value)) {}
  CheckValue(const char* value) : kind(Kind::Text), text(value) {}
  CheckValue(std::string_view value) : kind(Kind::Text), text(value) {}
  CheckValue(const std::string& value) : kind(Kind::Text), text(value) {}

  enum class Kind { Real, Whole, Text } kind;
  double real = 0.0;
  long long whole = 0;
  std::string_view text;
};

[[noreturn]] void fail_check(const char* condition, const char* file, int line,
                             std::initializer_list<CheckValue> values);

}  // namespace internal
}  // namespace shimwright

/// Always on. SW_CHECK(cond, a, b) throws LogicFault with the condition, the place and the values of a and b.
#define SW_CHECK(cond, ...)                                                                    \
  do {                                                                                         \
    if (!(cond)) ::shimwright::internal::fail_check(#cond, __FILE__, __LINE__, {__VA_ARGS__}); \
  } while (false)
