#pragma once
#include <cstdint>
#include <string>
#include <string_view>

namespace shimwright::file {

/// 64-bit FNV-1a, as 16 hex digits: shows that two texts differ, protects nothing.
/// Source: Fowler, Noll, Vo (constants from memory; checked against the published value of the empty text)
/// Tested: job_hash_test.cc
inline std::uint64_t hash_of(std::string_view text, std::uint64_t seed = 14695981039346656037ULL) {
  for (const char c : text) seed = (seed ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return seed;
}

std::string hash_text(std::uint64_t hash);

}  // namespace shimwright::file
