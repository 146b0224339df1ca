// Faults that are compiled in and switched on by number from outside: SW_FAULT=7 makes the seventh true. What
// tools/mutants writes into a copy of a module stands on these. SW_COVER names a file with a byte for each
// fault: those that a run comes by are marked.
#pragma once
#include <fcntl.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cstdlib>
#include <type_traits>

#pragma GCC diagnostic ignored "-Wnarrowing"

namespace sw {

inline unsigned char* covered() {
  static unsigned char* const bytes = [] {
    const char* name = std::getenv("SW_COVER");
    const int file = name == nullptr ? -1 : ::open(name, O_RDWR);
    if (file < 0) return static_cast<unsigned char*>(nullptr);
    void* map = ::mmap(nullptr, 1 << 16, PROT_READ | PROT_WRITE, MAP_SHARED, file, 0);
    ::close(file);
    return map == MAP_FAILED ? nullptr : static_cast<unsigned char*>(map);
  }();
  return bytes;
}

inline bool on(int number) {
  static const int chosen = std::getenv("SW_FAULT") == nullptr ? 0 : std::atoi(std::getenv("SW_FAULT"));
  if (unsigned char* bytes = covered()) bytes[number] = 1;
  return number == chosen;
}

/// The fault means nothing for these types.
inline void no_fault(int number) {
  if (on(number)) ::_exit(77);
}

template <class T, class Op>
struct Left {
  const T& value;
};

// a < SW_LESS(7) > b reads as (a < it) > b, whatever stands around it; so for each pair of equal precedence.
#define SW_COMPARISON(NAME, OP, CLOSE, OTHER)                       \
  template <int N>                                                  \
  struct NAME {};                                                   \
  template <class T, int N>                                         \
  Left<T, NAME<N>> operator OP(const T & a, NAME<N>) {              \
    return {a};                                                     \
  }                                                                 \
  template <class T, int N, class U>                                \
  bool operator CLOSE(Left<T, NAME<N>> a, const U& b) {             \
    if constexpr (requires { static_cast<bool>(a.value OTHER b); }) \
      if (on(N)) return static_cast<bool>(a.value OTHER b);         \
    no_fault(N);                                                    \
    return static_cast<bool>(a.value OP b);                         \
  }
SW_COMPARISON(Less, <, >, >=)
SW_COMPARISON(More, >, <, <=)
SW_COMPARISON(LessEqual, <=, >=, >)
SW_COMPARISON(MoreEqual, >=, <=, <)
SW_COMPARISON(Equal, ==, ==, !=)
SW_COMPARISON(Unequal, !=, !=, ==)

#define SW_SUM(NAME, OP, OTHER)                                                                             \
  template <int N>                                                                                          \
  struct NAME {};                                                                                           \
  template <class T, int N>                                                                                 \
  Left<T, NAME<N>> operator OP(const T & a, NAME<N>) {                                                      \
    return {a};                                                                                             \
  }                                                                                                         \
  template <class T, int N, class U>                                                                        \
  auto operator OP(Left<T, NAME<N>> a, const U& b) {                                                        \
    if constexpr (requires { requires std::is_same_v<decltype(a.value OP b), decltype(a.value OTHER b)>; }) \
      if (on(N)) return a.value OTHER b;                                                                    \
    no_fault(N);                                                                                            \
    return a.value OP b;                                                                                    \
  }
SW_SUM(Plus, +, -)
SW_SUM(Minus, -, +)

}  // namespace sw
