#pragma once
#include <cstddef>
#include <string>
#include <type_traits>
#include <variant>
#include <vector>

#include "base/members.h"
#include "file/spec_value.h"
#include "resolve/resolve_places.h"

// The bytes of a value, for memories that look results up by what they were made from. Private to the module.

namespace shimwright::job::internal {

/// All that a value holds, one after the other: two values of one type have the same bytes just when every
/// member of theirs is the same to the last bit. No member can be forgotten: aggregates are taken apart by
/// the compiler. Places in a file (Origin, FieldPlaces) are left out: they serve messages, never a result.
class ValueKey {
 public:
  template <typename... Values>
  void add(const Values&... values) {
    (one(values), ...);
  }

  std::string bytes;

 private:
  template <typename T>
  void raw(const T& value) {
    bytes.append(reinterpret_cast<const char*>(&value), sizeof value);
  }

  void one(const file::Origin&) {}
  void one(const resolve::FieldPlaces&) {}
  void one(const std::string& text) {
    raw(text.size());
    bytes += text;
  }

  template <typename T>
  void one(const T& value) {
    if constexpr (std::is_arithmetic_v<T> || std::is_enum_v<T>) {
      raw(value);
    } else if constexpr (std::is_pointer_v<T>) {
      raw(value != nullptr);
      if (value) one(*value);
    } else if constexpr (kIsOptional<T>) {
      raw(value.has_value());
      if (value) one(*value);
    } else if constexpr (kIsVariant<T>) {
      raw(value.index());
      std::visit([&](const auto& held) { one(held); }, value);
    } else if constexpr (kIsVector<T> || kIsArray<T>) {
      raw(value.size());
      if constexpr (std::is_same_v<T, std::vector<bool>>) {
        for (const bool item : value) raw(item);
      } else {
        for (const auto& item : value) one(item);
      }
    } else if constexpr (!std::is_empty_v<T>) {
      static_assert(std::is_aggregate_v<T>, "ValueKey can only take aggregates apart");
      members<n_members<T>()>(value);
    }
  }

  template <std::size_t n, typename T>
  void members(const T& value) {
    // clang-format off
    if constexpr (n == 1) { const auto& [a] = value; add(a); }
    else if constexpr (n == 2) { const auto& [a, b] = value; add(a, b); }
    else if constexpr (n == 3) { const auto& [a, b, c] = value; add(a, b, c); }
    else if constexpr (n == 4) { const auto& [a, b, c, d] = value; add(a, b, c, d); }
    else if constexpr (n == 5) { const auto& [a, b, c, d, e] = value; add(a, b, c, d, e); }
    else if constexpr (n == 6) { const auto& [a, b, c, d, e, f] = value; add(a, b, c, d, e, f); }
    else if constexpr (n == 7) { const auto& [a, b, c, d, e, f, g] = value; add(a, b, c, d, e, f, g); }
    else if constexpr (n == 8) { const auto& [a, b, c, d, e, f, g, h] = value; add(a, b, c, d, e, f, g, h); }
    else if constexpr (n == 9) { const auto& [a, b, c, d, e, f, g, h, i] = value; add(a, b, c, d, e, f, g, h, i); }
    else if constexpr (n == 10) { const auto& [a, b, c, d, e, f, g, h, i, j] = value; add(a, b, c, d, e, f, g, h, i, j); }
    else if constexpr (n == 11) { const auto& [a, b, c, d, e, f, g, h, i, j, k] = value; add(a, b, c, d, e, f, g, h, i, j, k); }
    else if constexpr (n == 12) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l] = value; add(a, b, c, d, e, f, g, h, i, j, k, l); }
    else if constexpr (n == 13) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m); }
    else { wide<n>(value); }
    // clang-format on
  }

  template <std::size_t n, typename T>
  void wide(const T& value) {
    static_assert(n >= 14 && n <= 27, "ValueKey takes aggregates of up to 27 members apart");
    // clang-format off
    if constexpr (n == 14) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o); }
    else if constexpr (n == 15) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p); }
    else if constexpr (n == 16) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q); }
    else if constexpr (n == 17) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r); }
    else if constexpr (n == 18) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s); }
    else if constexpr (n == 19) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t); }
    else if constexpr (n == 20) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u); }
    else if constexpr (n == 21) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v); }
    else if constexpr (n == 22) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w); }
    else if constexpr (n == 23) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w, x] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w, x); }
    else if constexpr (n == 24) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w, x, y] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w, x, y); }
    else if constexpr (n == 25) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w, x, y, z] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w, x, y, z); }
    else if constexpr (n == 26) { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w, x, y, z, aa] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w, x, y, z, aa); }
    else { const auto& [a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w, x, y, z, aa, ab] = value; add(a, b, c, d, e, f, g, h, i, j, k, l, m, o, p, q, r, s, t, u, v, w, x, y, z, aa, ab); }
    // clang-format on
  }
};

}  // namespace shimwright::job::internal
