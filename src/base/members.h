#pragma once
#include <array>
#include <cstddef>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

// What a type is made of, for code that goes through the members of a value.

namespace shimwright {

template <typename T>
inline constexpr bool kIsVector = false;
template <typename T>
inline constexpr bool kIsVector<std::vector<T>> = true;

template <typename T>
inline constexpr bool kIsArray = false;
template <typename T, std::size_t n>
inline constexpr bool kIsArray<std::array<T, n>> = true;

template <typename T>
inline constexpr bool kIsOptional = false;
template <typename T>
inline constexpr bool kIsOptional<std::optional<T>> = true;

template <typename T>
inline constexpr bool kIsVariant = false;
template <typename... T>
inline constexpr bool kIsVariant<std::variant<T...>> = true;

/// Converts to any member, for counting only.
struct AnyMember {
  template <typename Member>
  operator Member() const;
};

template <typename Struct, std::size_t... index>
constexpr bool takes_members(std::index_sequence<index...>) {
  return requires { Struct{(static_cast<void>(index), AnyMember{})...}; };
}

/// True when an aggregate has exactly this many members: its braces take so many and not one more.
template <typename Struct, std::size_t n>
constexpr bool has_members() {
  return takes_members<Struct>(std::make_index_sequence<n>{}) &&
         !takes_members<Struct>(std::make_index_sequence<n + 1>{});
}

/// How many members an aggregate has.
template <typename Struct, std::size_t n = 1>
constexpr std::size_t n_members() {
  if constexpr (!takes_members<Struct>(std::make_index_sequence<n + 1>{})) {
    return n;
  } else {
    return n_members<Struct, n + 1>();
  }
}

}  // namespace shimwright
