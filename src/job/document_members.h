#pragma once
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace shimwright::job::internal {

template <typename T>
inline constexpr bool kIsVector = false;
template <typename T>
inline constexpr bool kIsVector<std::vector<T>> = true;
template <typename T>
inline constexpr bool kIsOptional = false;
template <typename T>
inline constexpr bool kIsOptional<std::optional<T>> = true;

/// Converts to any member, for counting only.
struct AnyMember {
  template <typename Member>
  operator Member() const;
};

template <typename Struct, std::size_t... index>
constexpr bool takes_members(std::index_sequence<index...>) {
  return requires { Struct{(static_cast<void>(index), AnyMember{})...}; };
}

/// How many members an aggregate has: the most that its braces take.
template <typename Struct, std::size_t n = 1>
constexpr std::size_t n_members() {
  if constexpr (!takes_members<Struct>(std::make_index_sequence<n + 1>{})) {
    return n;
  } else {
    return n_members<Struct, n + 1>();
  }
}

}  // namespace shimwright::job::internal
