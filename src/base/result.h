#pragma once
#include <tl/expected.hpp>

namespace shimwright {

/// A value, or the reason why there is no value. For the environment (disk, port, font) and for text that did
/// not parse. One alias, so that std::expected can take its place when the compilers have all of it.
template <typename T, typename E>
using Result = tl::expected<T, E>;

template <typename E>
auto failure(E&& error) {
  return tl::make_unexpected(std::forward<E>(error));
}

}  // namespace shimwright
