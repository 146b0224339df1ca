#include "num/rodas.h"

#include <gtest/gtest.h>

#include <Eigen/LU>

#include <algorithm>
#include <numbers>
#include <vector>

namespace shimwright::num {
namespace {

using rodas::kStages;

// ---- the coefficients themselves

using SquareS = Eigen::Matrix<double, kStages, kStages>;
using ColumnS = Eigen::Matrix<double, kStages, 1>;

/// The method in the usual form of Rosenbrock methods, from the form without products that the code uses:
/// gamma matrix = (I / gamma - C)^-1, alpha = A gamma, b = m gamma. [hairer1996] IV.7.
struct Classical {
  SquareS alpha, gamma;
  ColumnS b;
  ColumnS embedded;  // without the last stage, which is the error
};

Classical classical() {
  SquareS a = SquareS::Zero(), c = SquareS::Zero();
  ColumnS m;
  for (int i = 0; i < kStages; ++i)
    for (int j = 0; j < i; ++j) {
      a(i, j) = rodas::kA[i][j];
      c(i, j) = rodas::kC[i][j];
    }
  for (int j = 0; j < kStages - 1; ++j) m[j] = rodas::kA[kStages - 1][j];
  m[kStages - 1] = 0.0;
  Classical k;
  k.gamma = (SquareS::Identity() / rodas::kGamma - c).inverse();
  k.alpha = a * k.gamma;
  k.embedded = k.gamma.transpose() * m;
  m[kStages - 1] = 1.0;
  k.b = k.gamma.transpose() * m;
  return k;
}

/// A rooted tree: what hangs on its root. Each one is a condition of the order that it has nodes.
struct Tree {
  std::vector<Tree> branches;

  int nodes() const {
    int n = 1;
    for (const Tree& branch : branches) n += branch.nodes();
    return n;
  }
  double density() const {
    double d = nodes();
    for (const Tree& branch : branches) d *= branch.density();
    return d;
  }
  /// The sum that the method makes of it, by stage: a lone branch goes by alpha + gamma, several by alpha.
  ColumnS weight(const Classical& k) const {
    if (branches.size() == 1) return (k.alpha + k.gamma) * branches[0].weight(k);
    ColumnS product = ColumnS::Ones();
    for (const Tree& branch : branches) product = product.cwiseProduct(k.alpha * branch.weight(k));
    return product;
  }
};

/// Every tree of up to five nodes.
std::vector<Tree> trees() {
  const Tree dot;
  const Tree line2{{dot}}, fork3{{dot, dot}}, line3{{line2}};
  const std::vector<Tree> of_four = {{{dot, dot, dot}}, {{dot, line2}}, {{fork3}}, {{line3}}};
  std::vector<Tree> all = {dot, line2, fork3, line3};
  all.insert(all.end(), of_four.begin(), of_four.end());
  for (const Tree& four : of_four) all.push_back({{four}});
  for (const Tree& five : std::vector<Tree>{
           {{dot, dot, dot, dot}}, {{dot, dot, line2}}, {{line2, line2}}, {{dot, fork3}}, {{dot, line3}}})
    all.push_back(five);
  return all;
}

// [hairer1996] IV.7, theorem 7.6: one condition for each tree
TEST(RodasTableau, MeetsEveryConditionOfOrderFiveAndItsErrorThoseOfOrderFour) {
  const Classical k = classical();
  ASSERT_EQ(trees().size(), 17u);
  for (const Tree& tree : trees()) {
    const double digits = 1e-11;  // sixteen digits of coefficients up to 150, added up eight times eight
    EXPECT_NEAR(k.b.dot(tree.weight(k)), 1.0 / tree.density(), digits) << tree.nodes();
    const double embedded = k.embedded.dot(tree.weight(k)) - 1.0 / tree.density();
    if (tree.nodes() < 5) {
      EXPECT_NEAR(embedded, 0.0, digits) << tree.nodes();
    }
  }
}

TEST(RodasTableau, TimesAndTimeWeightsAreTheRowSums) {
  const Classical k = classical();
  for (int i = 0; i < kStages; ++i) {
    EXPECT_NEAR(k.alpha.row(i).sum(), rodas::kAlpha[i], 1e-13) << i;
    EXPECT_NEAR(k.gamma.row(i).sum(), rodas::kD[i], 1e-13) << i;
  }
}

TEST(RodasTableau, IsStifflyAccurateAndForgetsWhatIsInfinitelyStiff) {
  const Classical k = classical();
  const SquareS beta = k.alpha + k.gamma;
  for (int i = 0; i < kStages; ++i) EXPECT_NEAR(beta(kStages - 1, i), k.b[i], 1e-12) << i;
  const double at_infinity = 1.0 - k.b.dot(beta.inverse() * ColumnS::Ones());
  EXPECT_NEAR(at_infinity, 0.0, 1e-10);  // conditioning of beta
}

// ---- problems

template <int N, int Quadratures = 0, int Events = 0>
struct Problem {
  static constexpr int kStates = N;
  static constexpr int kQuadratures = Quadratures;
  static constexpr int kEvents = Events;
  using State = StateOf<N + Quadratures>;
  using Matrix = Eigen::Matrix<double, N + Quadratures, N>;
  void events(double, const State&, std::array<double, Events>&) {}
};

/// y' = -stiffness (y - cos t) - sin t: y = cos t. With the integral of y beside it.
struct Prothero : Problem<1, 1> {
  double stiffness = 100.0;
  void rates(double t, const State& y, State& f) {
    f << -stiffness * (y[0] - std::cos(t)) - std::sin(t), y[0];
  }
  void jacobian(double t, const State&, Matrix& j, State& f_time) {
    j << -stiffness, 1.0;
    f_time << -stiffness * std::sin(t) - std::cos(t), 0.0;
  }
};

/// Two coupled, not linear, with time in it; y0 = exp(sin t), y1 = cos t exactly.
struct Waves : Problem<2> {
  void rates(double t, const State& y, State& f) {
    f << y[0] * y[1] + (y[1] - std::cos(t)) * y[0], -std::sin(t) + (y[1] * y[1] - std::cos(t) * std::cos(t));
  }
  void jacobian(double t, const State& y, Matrix& j, State& f_time) {
    j << 2.0 * y[1] - std::cos(t), 2.0 * y[0], 0.0, 2.0 * y[1];
    f_time << std::sin(t) * y[0], -std::cos(t) + 2.0 * std::cos(t) * std::sin(t);
  }
};

template <typename System>
typename Rodas<System>::State end_state(System& system, double t_end, const typename Rodas<System>::State& y0,
                                        double tolerance, double absolute, double step_max,
                                        double step_first = 0.0) {
  Rodas<System> rodas(system, 0.0, y0, Rodas<System>::State::Constant(absolute),
                      {.tolerance = tolerance, .step_first = step_first, .step_max = step_max});
  while (rodas.t() < t_end)
    if (rodas.step(t_end) != Status::Converged) break;
  EXPECT_EQ(rodas.t(), t_end);
  return rodas.y();
}

/// Error at t = 2 with equal steps: any step passes a tolerance of a million.
double waves_error(int n_steps) {
  Waves system;
  const double h = 2.0 / n_steps;
  const auto y = end_state(system, 2.0, {1.0, 1.0}, 1e6, 1e6, h, h);
  return std::hypot(y[0] - std::exp(std::sin(2.0)), y[1] - std::cos(2.0));
}

TEST(Rodas, HalvingTheStepDividesTheErrorByThirtyTwo) {
  for (const int n : {20, 40, 80}) {
    const double order = std::log2(waves_error(n) / waves_error(2 * n));
    EXPECT_GT(order, 4.7) << n;  // five in the limit
    EXPECT_LT(order, 5.5) << n;
  }
}

/// Error at t = 1 with equal steps of a state that is bound to cos t as hard as one likes.
double bound_error(int n_steps, double stiffness) {
  Prothero system;
  system.stiffness = stiffness;
  const double h = 1.0 / n_steps;
  const auto y = end_state(system, 1.0, {1.0, 0.0}, 1e6, 1e6, h, h);
  return std::abs(y[0] - std::cos(1.0));
}

// what the method was made for, [steinebach2023]: of order three at least between slow and infinitely stiff,
// where others fall to one
TEST(Rodas, IsOfOrderThreeWhereAStiffStateFollowsASlowOne) {
  for (const double stiffness : {1e2, 1e4, 1e6}) {
    const double order = std::log2(bound_error(10, stiffness) / bound_error(20, stiffness));
    EXPECT_GT(order, 2.9) << stiffness;
  }
}

TEST(Rodas, FollowsASlowSolutionOfAStiffEquationWithItsIntegral) {
  Prothero system;
  const auto y = end_state(system, 1.5, {1.0, 0.0}, 1e-9, 1e-9, 1.0);
  EXPECT_NEAR(y[0], std::cos(1.5), 1e-8);
  EXPECT_NEAR(y[1], std::sin(1.5), 1e-8);
}

TEST(Rodas, ErrorFallsWithTheTolerance) {
  Waves system;
  double last = 1.0;
  for (const double tolerance : {1e-4, 1e-6, 1e-8}) {
    const auto y = end_state(system, 2.0, {1.0, 1.0}, tolerance, tolerance, 2.0);
    const double error = std::abs(y[0] - std::exp(std::sin(2.0)));
    EXPECT_LT(error, 30.0 * tolerance);  // errors of the steps add up over two time units
    EXPECT_LT(error, last);
    last = error;
  }
}

TEST(Rodas, DenseOutputIsOfOrderFourInsideAStep) {
  double errors[2];
  for (int k = 0; k < 2; ++k) {
    Waves system;
    const double h = 0.1 / (k + 1);
    Rodas<Waves> rodas(system, 0.0, {1.0, 1.0}, {1e6, 1e6},
                       {.tolerance = 1e6, .step_first = h, .step_max = h});
    rodas.step(1.0);
    const double t = 0.4 * h;
    errors[k] = std::abs(rodas.dense(t)[0] - std::exp(std::sin(t)));
    EXPECT_EQ(rodas.dense(rodas.t()), rodas.y());
    EXPECT_NEAR(rodas.dense(0.0)[0], 1.0, 1e-15);
  }
  EXPECT_GT(std::log2(errors[0] / errors[1]), 4.6);  // local error one order above: five in the limit
}

// Robertson's three reactions. Reference values: [mazzia2008] problem ROBER, read in public copies.
struct Robertson : Problem<3> {
  void rates(double, const State& y, State& f) {
    const double a = 0.04 * y[0], b = 1e4 * y[1] * y[2], c = 3e7 * y[1] * y[1];
    f << -a + b, a - b - c, c;
  }
  void jacobian(double, const State& y, Matrix& j, State& f_time) {
    j << -0.04, 1e4 * y[2], 1e4 * y[1], 0.04, -1e4 * y[2] - 6e7 * y[1], -1e4 * y[1], 0.0, 6e7 * y[1], 0.0;
    f_time.setZero();
  }
};

TEST(Rodas, SolvesRobertsonsReactionsOverElevenDecades) {
  Robertson system;
  const auto y = end_state(system, 1e11, {1.0, 0.0, 0.0}, 1e-9, 1e-22, 1e11, 1e-6);
  EXPECT_NEAR(y[0] / 0.2083340149701255e-7, 1.0, 1e-6);
  EXPECT_NEAR(y[1] / 0.8333360770334713e-13, 1.0, 1e-6);
  EXPECT_NEAR(y[2], 0.9999999791665050, 1e-9);
}

// Van der Pol, eps 1e-6, t = 2. Reference values: [mazzia2008] problem VDPOL, read in public copies.
struct VanDerPol : Problem<2> {
  static constexpr double kEps = 1e-6;
  void rates(double, const State& y, State& f) { f << y[1], ((1.0 - y[0] * y[0]) * y[1] - y[0]) / kEps; }
  void jacobian(double, const State& y, Matrix& j, State& f_time) {
    j << 0.0, 1.0, (-2.0 * y[0] * y[1] - 1.0) / kEps, (1.0 - y[0] * y[0]) / kEps;
    f_time.setZero();
  }
};

TEST(Rodas, SolvesVanDerPolThroughItsJumps) {
  VanDerPol system;
  const auto y = end_state(system, 2.0, {2.0, 0.0}, 1e-9, 1e-9, 2.0, 1e-6);
  EXPECT_NEAR(y[0], 0.1706167732170483e1, 1e-6);
  EXPECT_NEAR(y[1], -0.8928097010247975, 1e-6);
}

// Eight reactions of plant physiology, t = 321.8122. Reference values: the same test set, problem HIRES, from
// memory.
struct Hires : Problem<8> {
  void rates(double, const State& y, State& f) {
    const double meet = 280.0 * y[5] * y[7];
    f << -1.71 * y[0] + 0.43 * y[1] + 8.32 * y[2] + 0.0007, 1.71 * y[0] - 8.75 * y[1],
        -10.03 * y[2] + 0.43 * y[3] + 0.035 * y[4], 8.32 * y[1] + 1.71 * y[2] - 1.12 * y[3],
        -1.745 * y[4] + 0.43 * y[5] + 0.43 * y[6],
        -meet + 0.69 * y[3] + 1.71 * y[4] - 0.43 * y[5] + 0.69 * y[6], meet - 1.81 * y[6],
        -meet + 1.81 * y[6];
  }
  void jacobian(double, const State& y, Matrix& j, State& f_time) {
    j.setZero();
    f_time.setZero();
    j(0, 0) = -1.71, j(0, 1) = 0.43, j(0, 2) = 8.32;
    j(1, 0) = 1.71, j(1, 1) = -8.75;
    j(2, 2) = -10.03, j(2, 3) = 0.43, j(2, 4) = 0.035;
    j(3, 1) = 8.32, j(3, 2) = 1.71, j(3, 3) = -1.12;
    j(4, 4) = -1.745, j(4, 5) = 0.43, j(4, 6) = 0.43;
    j(5, 3) = 0.69, j(5, 4) = 1.71, j(5, 5) = -280.0 * y[7] - 0.43, j(5, 6) = 0.69, j(5, 7) = -280.0 * y[5];
    j(6, 5) = 280.0 * y[7], j(6, 6) = -1.81, j(6, 7) = 280.0 * y[5];
    j(7, 5) = -280.0 * y[7], j(7, 6) = 1.81, j(7, 7) = -280.0 * y[5];
  }
};

TEST(Rodas, SolvesHires) {
  Hires system;
  StateOf<8> y0;
  y0 << 1, 0, 0, 0, 0, 0, 0, 0.0057;
  const auto y = end_state(system, 321.8122, y0, 1e-9, 1e-12, 321.0, 1e-6);
  const double expected[8] = {0.7371312573325668e-3, 0.1442485726316185e-3, 0.5888729740967575e-4,
                              0.1175651343283149e-2, 0.2386356198831331e-2, 0.6238968252742796e-2,
                              0.2849998395185769e-2, 0.2850001604814231e-2};
  for (int i = 0; i < 8; ++i) EXPECT_NEAR(y[i] / expected[i], 1.0, 1e-6) << i;
}

// ---- events

/// A swing: events where it passes zero and where it passes 0.5.
struct Swing : Problem<2, 0, 2> {
  void rates(double, const State& y, State& f) { f << y[1], -y[0]; }
  void jacobian(double, const State&, Matrix& j, State& f_time) {
    j << 0.0, 1.0, -1.0, 0.0;
    f_time.setZero();
  }
  void events(double, const State& y, std::array<double, 2>& g) { g = {y[0], y[0] - 0.5}; }
};

TEST(Rodas, FindsEventsWhereTheyAreAndStopsThere) {
  Swing swing;
  Rodas<Swing> rodas(swing, 0.0, {0.0, 1.0}, {1e-9, 1e-9}, {.tolerance = 1e-9, .step_max = 1.0});
  std::vector<double> zero, half;
  while (rodas.t() < 10.0) {
    ASSERT_EQ(rodas.step(10.0), Status::Converged);
    if (rodas.fired()[0] != 0) zero.push_back(rodas.t() * rodas.fired()[0]);
    if (rodas.fired()[1] != 0) half.push_back(rodas.t() * rodas.fired()[1]);
  }
  // sin t: falls at pi and 3 pi, rises at 2 pi; half at pi/6 and 5 pi/6 of each round. Tolerance: that of the
  // steps, added up
  const double pi = std::numbers::pi;
  ASSERT_EQ(zero.size(), 3u);
  const double zeros[] = {-pi, 2 * pi, -3 * pi};
  for (int i = 0; i < 3; ++i) EXPECT_NEAR(zero[i], zeros[i], 1e-7);
  ASSERT_EQ(half.size(), 4u);
  const double halves[] = {pi / 6, -5 * pi / 6, 13 * pi / 6, -17 * pi / 6};
  for (int i = 0; i < 4; ++i) EXPECT_NEAR(half[i], halves[i], 1e-7);
}

/// y' = t - 1/3 from there on, zero before: the kink is met exactly, so a fourth-order method makes no error
/// at all.
struct Kinked : Problem<1, 0, 1> {
  void rates(double t, const State&, State& f) { f << std::max(0.0, t - 1.0 / 3); }
  void jacobian(double t, const State&, Matrix& j, State& f_time) {
    j.setZero();
    f_time << (t < 1.0 / 3 ? 0.0 : 1.0);
  }
  void events(double t, const State&, std::array<double, 1>& g) { g = {t - 1.0 / 3}; }
};

TEST(Rodas, AKinkAtAnEventCostsNoAccuracy) {
  double errors[2];
  for (const bool cut : {false, true}) {
    Kinked system;
    Rodas<Kinked> rodas(system, 0.0, Eigen::Matrix<double, 1, 1>{0.0}, Eigen::Matrix<double, 1, 1>{1e3},
                        {.tolerance = 1e3, .step_first = 0.1, .step_max = 0.25, .cut_at_events = cut});
    while (rodas.t() < 1.0) ASSERT_EQ(rodas.step(1.0), Status::Converged);
    errors[cut] = std::abs(rodas.y()[0] - 2.0 / 9);
  }
  EXPECT_LT(errors[true], 1e-10);  // the event is found to 1e-10 of a step
  EXPECT_GT(errors[false], 1e-5);  // what is gained
}

// ---- status

/// y' = y^2 leaves every bound at t = 1.
struct Explosion : Problem<1> {
  void rates(double, const State& y, State& f) { f << y[0] * y[0]; }
  void jacobian(double, const State& y, Matrix& j, State& f_time) {
    j << 2.0 * y[0];
    f_time.setZero();
  }
};

TEST(Rodas, SaysWhereItCannotGoOn) {
  Explosion system;
  Rodas<Explosion> rodas(system, 0.0, Eigen::Matrix<double, 1, 1>{1.0}, Eigen::Matrix<double, 1, 1>{1e-6},
                         {.tolerance = 1e-6, .step_max = 1.0});
  Status status = Status::Converged;
  for (int i = 0; i < 100000 && status == Status::Converged && rodas.t() < 2.0; ++i) status = rodas.step(2.0);
  EXPECT_EQ(status, Status::Stalled);
  EXPECT_NEAR(rodas.t(), 1.0, 1e-4);  // the pole, met with that tolerance
}

TEST(Rodas, TheSameRunGivesTheSameBits) {
  const auto run = [] {
    VanDerPol system;
    return end_state(system, 1.0, {2.0, 0.0}, 1e-6, 1e-6, 1.0, 1e-6);
  };
  EXPECT_EQ(run(), run());
}

}  // namespace
}  // namespace shimwright::num
