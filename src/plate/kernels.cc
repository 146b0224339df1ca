#include "plate/kernels.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

#include "plate/disc_band.h"

namespace shimwright::plate {
namespace {

constexpr int kBlock = 4;  // columns taken out of the rest together

}  // namespace

SW_WIDE void factor_profile(const ProfileView& view, double* columns, double* over_pivot) {
  for (int block = 0; block < view.n; block += kBlock) {
    const int n_block = std::min(kBlock, view.n - block);

    // the columns of the block among themselves
    const double* from[kBlock];
    bool level = n_block == kBlock;
    for (int q = 0; q < n_block; ++q) {
      const int j = block + q;
      const double* column = columns + view.offset[j];
      from[q] = column;
      level = level && view.end[j] == view.end[block];
      over_pivot[j] = 1.0 / column[0];
      const int last = std::min(block + n_block - 1, view.end[j]);
      for (int row = j + 1; row <= last; ++row) {
        const double factor = column[row - j] * over_pivot[j];
        double* other = columns + view.offset[row];
        const double* below = column + (row - j);
        const int length = view.end[j] - row + 1;
        for (int i = 0; i < length; ++i) other[i] -= factor * below[i];
      }
    }

    // the block from the rest
    const int end = view.end[block + n_block - 1];
    for (int row = block + n_block; row <= end; ++row) {
      double* other = columns + view.offset[row];
      if (level) {
        const double* b0 = from[0] + (row - block);
        const double* b1 = from[1] + (row - block - 1);
        const double* b2 = from[2] + (row - block - 2);
        const double* b3 = from[3] + (row - block - 3);
        const double f0 = b0[0] * over_pivot[block];
        const double f1 = b1[0] * over_pivot[block + 1];
        const double f2 = b2[0] * over_pivot[block + 2];
        const double f3 = b3[0] * over_pivot[block + 3];
        const int length = end - row + 1;
        for (int i = 0; i < length; ++i) other[i] -= (f0 * b0[i] + f1 * b1[i]) + (f2 * b2[i] + f3 * b3[i]);
        continue;
      }
      for (int q = 0; q < n_block; ++q) {
        const int j = block + q;
        if (row > view.end[j]) continue;
        const double* below = from[q] + (row - j);
        const double factor = below[0] * over_pivot[j];
        const int length = view.end[j] - row + 1;
        for (int i = 0; i < length; ++i) other[i] -= factor * below[i];
      }
    }
    for (int j = block; j < block + n_block; ++j) {
      double* column = columns + view.offset[j];
      const int length = view.end[j] - j;
      for (int k = 1; k <= length; ++k) column[k] *= over_pivot[j];
    }
  }
}

namespace {

/// In four parts, which are added at the end: the order is that of a wide register.
inline double dot_of(int n, const double* a, const double* b) {
  double part[4] = {};
  int i = 0;
  for (; i + 4 <= n; i += 4)
    for (int lane = 0; lane < 4; ++lane) part[lane] += a[i + lane] * b[i + lane];
  double sum = (part[0] + part[1]) + (part[2] + part[3]);
  for (; i < n; ++i) sum += a[i] * b[i];
  return sum;
}

}  // namespace

SW_WIDE void solve_profile(const ProfileView& view, const double* columns, const double* over_pivot,
                           int first, double* x) {
  // blocks of columns that reach down to the same row go together
  const auto level = [&](int j) {
    return j + kBlock <= view.n && view.end[j] == view.end[j + kBlock - 1] && view.end[j] >= j + kBlock - 1;
  };
  for (int j = first; j < view.n;) {
    const double* c0 = columns + view.offset[j];
    if (!level(j)) {
      const int length = view.end[j] - j;
      const double value = x[j];
      double* below = x + j;
      for (int k = 1; k <= length; ++k) below[k] -= c0[k] * value;
      ++j;
      continue;
    }
    const double* c1 = columns + view.offset[j + 1] - 1;
    const double* c2 = columns + view.offset[j + 2] - 2;
    const double* c3 = columns + view.offset[j + 3] - 3;
    const double x0 = x[j];
    const double x1 = x[j + 1] - c0[1] * x0;
    const double x2 = (x[j + 2] - c0[2] * x0) - c1[2] * x1;
    const double x3 = ((x[j + 3] - c0[3] * x0) - c1[3] * x1) - c2[3] * x2;
    x[j + 1] = x1;
    x[j + 2] = x2;
    x[j + 3] = x3;
    double* below = x + j;
    const int length = view.end[j] - j;
    for (int k = kBlock; k <= length; ++k) below[k] -= (c0[k] * x0 + c1[k] * x1) + (c2[k] * x2 + c3[k] * x3);
    j += kBlock;
  }
  for (int j = first; j < view.n; ++j) x[j] *= over_pivot[j];
  for (int j = view.n - 1; j >= 0;) {
    const int begin = j - kBlock + 1;
    if (begin < 0 || !level(begin)) {
      const double* column = columns + view.offset[j];
      x[j] -= dot_of(view.end[j] - j, column + 1, x + j + 1);
      --j;
      continue;
    }
    const double* c0 = columns + view.offset[begin];
    const double* c1 = columns + view.offset[begin + 1] - 1;
    const double* c2 = columns + view.offset[begin + 2] - 2;
    const double* c3 = columns + view.offset[begin + 3] - 3;
    double* at = x + begin;
    const int length = view.end[begin] - begin + 1;
    double p0[4] = {}, p1[4] = {}, p2[4] = {}, p3[4] = {};
    int k = kBlock;
    for (; k + 4 <= length; k += 4) {
      for (int lane = 0; lane < 4; ++lane) {
        p0[lane] += c0[k + lane] * at[k + lane];
        p1[lane] += c1[k + lane] * at[k + lane];
        p2[lane] += c2[k + lane] * at[k + lane];
        p3[lane] += c3[k + lane] * at[k + lane];
      }
    }
    double s0 = (p0[0] + p0[1]) + (p0[2] + p0[3]);
    double s1 = (p1[0] + p1[1]) + (p1[2] + p1[3]);
    double s2 = (p2[0] + p2[1]) + (p2[2] + p2[3]);
    double s3 = (p3[0] + p3[1]) + (p3[2] + p3[3]);
    for (; k < length; ++k) {
      s0 += c0[k] * at[k];
      s1 += c1[k] * at[k];
      s2 += c2[k] * at[k];
      s3 += c3[k] * at[k];
    }
    at[3] -= s3;
    at[2] -= s2 + c2[3] * at[3];
    at[1] -= (s1 + c1[3] * at[3]) + c1[2] * at[2];
    at[0] -= ((s0 + c0[3] * at[3]) + c0[2] * at[2]) + c0[1] * at[1];
    j = begin - 1;
  }
}

SW_WIDE void add_weighted_columns(int n, int n_columns, const double* columns, const double* weight,
                                  double* out) {
  const double* some[kBlock];
  double factor[kBlock];
  int n_some = 0;
  for (int c = 0; c < n_columns; ++c) {
    if (weight[c] == 0.0) continue;
    some[n_some] = columns + static_cast<std::size_t>(c) * n;
    factor[n_some++] = weight[c];
    if (n_some < kBlock) continue;
    const double* c0 = some[0];
    const double* c1 = some[1];
    const double* c2 = some[2];
    const double* c3 = some[3];
    for (int i = 0; i < n; ++i)
      out[i] += (factor[0] * c0[i] + factor[1] * c1[i]) + (factor[2] * c2[i] + factor[3] * c3[i]);
    n_some = 0;
  }
  for (int q = 0; q < n_some; ++q)
    for (int i = 0; i < n; ++i) out[i] += factor[q] * some[q][i];
}

SW_WIDE void weighted_sum(int n, int n_vectors, const double* const* vectors, const double* weight,
                          double* out) {
  for (int i = 0; i < n; ++i) out[i] = weight[0] * vectors[0][i];
  for (int m = 1; m < n_vectors; ++m)
    for (int i = 0; i < n; ++i) out[i] += weight[m] * vectors[m][i];
}

SW_WIDE void solve_band_four(int n, const double* band, const double* over_pivot, int first, double* x) {
  for (int i = first; i < n; ++i) {
    const double* row = band + 4 * i;
    double value[4];
    for (int lane = 0; lane < 4; ++lane) value[lane] = x[4 * i + lane];
    for (int j = std::max(first, i - kBand); j < i; ++j)
      for (int lane = 0; lane < 4; ++lane) value[lane] -= row[kBand + j - i] * x[4 * j + lane];
    for (int lane = 0; lane < 4; ++lane) x[4 * i + lane] = value[lane];
  }
  for (int i = first; i < n; ++i)
    for (int lane = 0; lane < 4; ++lane) x[4 * i + lane] *= over_pivot[i];
  for (int i = n - 1; i > 0; --i) {
    const double* row = band + 4 * i;
    for (int j = std::max(0, i - kBand); j < i; ++j)
      for (int lane = 0; lane < 4; ++lane) x[4 * j + lane] -= row[kBand + j - i] * x[4 * i + lane];
  }
}

void solve_band_one(int n, const double* band, const double* over_pivot, double* x) {
  const int n_head = std::min(kBand, n);
  for (int i = 1; i < n_head; ++i)
    for (int j = 0; j < i; ++j) x[i] -= band[4 * i + kBand + j - i] * x[j];
  for (int i = kBand; i < n; ++i) {
    const double* row = band + 4 * i;
    // what has been known for longest first, so that the next waits for one product only
    x[i] = ((x[i] - row[0] * x[i - 3]) - row[1] * x[i - 2]) - row[2] * x[i - 1];
  }
  for (int i = 0; i < n; ++i) x[i] *= over_pivot[i];
  const int tail = std::max(n - kBand, 0);
  for (int i = n - 2; i >= tail; --i)
    for (int j = n - 1; j > i; --j) x[i] -= band[4 * j + kBand + i - j] * x[j];
  for (int i = tail - 1; i >= 0; --i) {
    const double* row = band + 4 * i;
    x[i] = ((x[i] - row[12] * x[i + 3]) - row[9] * x[i + 2]) - row[6] * x[i + 1];
  }
}

SW_WIDE void add_scaled(int n, double factor, const double* x, double* out) {
  for (int i = 0; i < n; ++i) out[i] += factor * x[i];
}

SW_WIDE double dot(int n, const double* a, const double* b) {
  return dot_of(n, a, b);
}

double largest_magnitude(int n, const double* x) {
  double largest = 0.0;
  double sum = 0.0;  // a comparison alone would lose what is no number
  for (int i = 0; i < n; ++i) {
    sum += x[i];
    largest = std::max(largest, std::abs(x[i]));
  }
  return std::isfinite(sum) ? largest : std::numeric_limits<double>::quiet_NaN();
}

}  // namespace shimwright::plate
