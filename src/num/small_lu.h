#pragma once
#include <Eigen/Core>
#include <array>
#include <cmath>
#include <utility>

namespace shimwright::num {

/// Factors of a small dense matrix of fixed size, with row pivots. For N of about ten this takes a third of
/// the time of the general library routine, which is built for large ones.
///
/// Valid:  a matrix that is not singular; a singular one gives values that are not finite.
/// Tested: small_lu_test.cc
template <int N>
class SmallLu {
 public:
  using Matrix = Eigen::Matrix<double, N, N>;
  using Vector = Eigen::Matrix<double, N, 1>;

  explicit SmallLu(const Matrix& matrix) : a_(matrix) {
#pragma GCC unroll 16
    for (int k = 0; k < N; ++k) {
      int pivot = k;
#pragma GCC unroll 16
      for (int i = k + 1; i < N; ++i)
        if (std::abs(a_(i, k)) > std::abs(a_(pivot, k))) pivot = i;
      pivot_[k] = pivot;
      if (pivot != k)
        for (int j = 0; j < N; ++j) std::swap(a_(k, j), a_(pivot, j));
      inverse_[k] = 1.0 / a_(k, k);
      double* column = &a_(0, k);
#pragma GCC unroll 16
      for (int i = k + 1; i < N; ++i) column[i] *= inverse_[k];
#pragma GCC unroll 16
      for (int j = k + 1; j < N; ++j) {
        double* target = &a_(0, j);
        const double factor = target[k];
#pragma GCC unroll 16
        for (int i = k + 1; i < N; ++i) target[i] -= column[i] * factor;
      }
    }
  }

  /// Overwrites the right side with the solution.
  void solve(Vector& b) const {
#pragma GCC unroll 16
    for (int k = 0; k < N; ++k)
      if (pivot_[k] != k) std::swap(b[k], b[pivot_[k]]);
#pragma GCC unroll 16
    for (int k = 0; k < N; ++k) {
      const double* column = &a_(0, k);
#pragma GCC unroll 16
      for (int i = k + 1; i < N; ++i) b[i] -= column[i] * b[k];
    }
#pragma GCC unroll 16
    for (int k = N - 1; k >= 0; --k) {
      const double* column = &a_(0, k);
      b[k] *= inverse_[k];
#pragma GCC unroll 16
      for (int i = 0; i < k; ++i) b[i] -= column[i] * b[k];
    }
  }

 private:
  Matrix a_;
  std::array<int, N> pivot_{};
  std::array<double, N> inverse_{};
};

}  // namespace shimwright::num
