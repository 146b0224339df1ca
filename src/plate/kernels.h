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

namespace shimwright::plate {

// Inner loops over plain arrays. They are built twice where the compiler can, for processors with and without
// wide registers; the sums run in the same order in both, so that both give the same bits.

/// A symmetric matrix by the columns of its lower half: column j begins with its diagonal at `offset[j]` and
/// reaches down to row `end[j]`, which never falls with j.
struct ProfileView {
  int n = 0;
  const int* end = nullptr;
  const int* offset = nullptr;
};

/// LDLt in place, without pivoting: columns become those of L, `over_pivot` the inverses of D.
void factor_profile(const ProfileView& view, double* columns, double* over_pivot);

/// Solves in place; `x` is zero before `first`.
void solve_profile(const ProfileView& view, const double* columns, const double* over_pivot, int first,
                   double* x);

/// out += sum of weight[c] x column c of a matrix of n rows; columns of no weight are passed over.
void add_weighted_columns(int n, int n_columns, const double* columns, const double* weight, double* out);

/// out = sum of weight[m] x vectors[m], of n entries each.
void weighted_sum(int n, int n_vectors, const double* const* vectors, const double* weight, double* out);

/// Solves with the factors of a matrix of three entries before the diagonal (rows of four, the diagonal
/// last), in place for four right sides side by side (x[4 i + lane]), which are zero before row `first`.
void solve_band_four(int n, const double* band, const double* over_pivot, int first, double* x);

/// The same for one right side.
void solve_band_one(int n, const double* band, const double* over_pivot, double* x);

/// out += factor x
void add_scaled(int n, double factor, const double* x, double* out);

double dot(int n, const double* a, const double* b);

/// Largest magnitude; NaN when there is one.
double largest_magnitude(int n, const double* x);

}  // namespace shimwright::plate
