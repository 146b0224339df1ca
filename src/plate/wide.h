#pragma once

// SW_WIDE before a function: the compiler builds it for 256-bit registers as well, and the processor it runs
// on chooses. Without fused multiply-add, so that the results are the same. Left out under the sanitizers,
// which are not up yet when that choice is made.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define SW_WIDE
#elif defined(__clang__)
#define SW_WIDE
#elif defined(__GNUC__) && defined(__x86_64__) && defined(__linux__)
#define SW_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define SW_WIDE
#endif
