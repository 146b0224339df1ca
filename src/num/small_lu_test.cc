#include "num/small_lu.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <Eigen/LU>

namespace shimwright::num {
namespace {

double number() {
  return (*rc::gen::inRange(-1000000, 1000001)) * 1e-6;
}

RC_GTEST_PROP(SmallLu, SolvesWhatTheLibrarySolves, ()) {
  Eigen::Matrix<double, 7, 7> a;
  Eigen::Matrix<double, 7, 1> b;
  for (int i = 0; i < 7; ++i) {
    b[i] = number();
    for (int j = 0; j < 7; ++j) a(i, j) = number() * std::pow(10.0, *rc::gen::inRange(-3, 4));
  }
  for (int i = 0; i < 7; ++i) a(i, (i + 3) % 7) += 1e4;  // far from singular, pivots off the diagonal
  auto x = b;
  SmallLu<7>(a).solve(x);
  // rounding, times how near to singular the matrix is
  RC_ASSERT((a * x - b).norm() <= 1e-12 * (a.norm() * x.norm() + b.norm()));
}

TEST(SmallLu, TakesItsPivotsFromWhereTheyAre) {
  Eigen::Matrix3d a;
  a << 0, 2, 1, 1, 0, 0, 0, 0, 3;
  Eigen::Vector3d b(5, 7, 3);
  SmallLu<3>(a).solve(b);
  EXPECT_EQ(b, Eigen::Vector3d(7, 2, 1));
}

TEST(SmallLu, ASingularMatrixGivesNothingFinite) {
  Eigen::Matrix2d a;
  a << 1, 2, 2, 4;
  Eigen::Vector2d b(1, 1);
  SmallLu<2>(a).solve(b);
  EXPECT_FALSE(b.allFinite());
}

}  // namespace
}  // namespace shimwright::num
