// A run of pressures, each predicted from those before it, against every pressure solved alone.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <vector>

#include "plate/layout.h"
#include "plate/stack.h"
#include "plate/test_shapes.h"
#include "plate/test_stacks.h"

namespace shimwright::plate {
namespace {

Options quiet() {
  Options options;
  options.estimate_mesh_error = false;
  return options;
}

StackPoint alone(const Stack& stack, double pressure) {
  Options tight = quiet();
  tight.tolerance = 1e-9;
  const double pressures[] = {pressure};
  Workspace workspace;
  return stack_response(stack, pressures, tight, workspace).points[0];
}

std::vector<double> even_pressures(double p_max, int n) {
  std::vector<double> pressures;
  for (int i = 1; i <= n; ++i) pressures.push_back(p_max * i / n);
  return pressures;
}

double largest_lift(const StackResult& result) {
  double largest = 0.0;
  for (const StackPoint& point : result.points)
    largest = std::max({largest, std::abs(point.lift_seat), std::abs(point.lift_rim)});
  return largest;
}

/// How far two states of a stack at one pressure are apart.
struct Apart {
  double lift = 0.0;    // [m]
  double stress = 0.0;  // the worst disc, of the largest stress of all [-]
  double force = 0.0;   // between any two bodies, of the load and the largest such force [-]
};

Apart apart(const StackPoint& a, const StackPoint& b, double load) {
  Apart far;
  far.lift = std::max(std::abs(a.lift_seat - b.lift_seat), std::abs(a.lift_rim - b.lift_rim));
  for (std::size_t i = 0; i < a.discs.size(); ++i)
    far.stress = std::max(far.stress, std::abs(a.discs[i].max_stress - b.discs[i].max_stress));
  far.stress /= std::max(a.max_stress, 1.0);
  // by pair: within a zone where two discs lie on each other the points share the force as they like
  std::map<std::tuple<int, int>, double> net;
  double largest = std::max(load, 1e-6);
  for (const Contact& contact : a.contacts) net[{contact.lower, contact.upper}] += contact.force;
  for (const auto& [pair, force] : net) largest = std::max(largest, force);
  for (const Contact& contact : b.contacts) net[{contact.lower, contact.upper}] -= contact.force;
  for (const auto& [pair, force] : net) far.force = std::max(far.force, std::abs(force) / largest);
  return far;
}

double load_force(const Stack& stack) {
  Layout layout;
  lay_out(stack, 1, layout);
  return layout.load_force;
}

// the promise of a run; the mesh is good to 3e-4 of the lift, and the tolerance is 1e-6 of it. Of
// 18 000 points, unevenly spaced, 999 in 1000 were within 1e-6 and all within 4e-6 of the lift, 1e-6 and 4e-6
// of the stress.
constexpr double kLift = 1e-5;    // of the largest
constexpr double kStress = 1e-4;  // of the largest
constexpr double kForce = 1e-4;   // of the load

RC_GTEST_PROP(ResponseRun, IsWhatEachPressureGivesAlone, ()) {
  const Stack stack = any_shape();
  RC_PRE(validate(stack).empty());
  RC_LOG() << described(stack);
  const double p_max = any_pressure_for(stack);
  const int n = *rc::gen::inRange(5, 40);
  const StackResult run = [&] {
    Workspace workspace;
    return stack_response(stack, even_pressures(p_max, n), quiet(), workspace);
  }();
  const double largest = std::max(largest_lift(run), 1e-6);
  const double load = load_force(stack);
  for (int k = 0; k < 5; ++k) {
    const StackPoint& point = run.points[*rc::gen::inRange(0, n)];
    const StackPoint one = alone(stack, point.pressure);
    RC_PRE(one.outcome.residual < 1e-8);  // not a slow end of Newton
    RC_ASSERT(point.outcome.status != Status::Stalled);
    const Apart far = apart(one, point, point.pressure * load);
    RC_ASSERT(far.lift <= kLift * largest);
    RC_ASSERT(far.stress <= kStress);
    RC_ASSERT(far.force <= kForce);
    RC_ASSERT(point.complementarity_error < 1e-6);
    RC_ASSERT(point.outcome.residual < 1e-6);  // the reported rest
  }
}

RC_GTEST_PROP(ResponseRun, APressureHardlyMindsWhatElseIsAsked, ()) {
  const Stack stack = any_shape();
  RC_PRE(validate(stack).empty());
  RC_LOG() << described(stack);
  const double p_max = any_pressure_for(stack);
  std::vector<double> some, others;
  for (int i = 0; i < 20; ++i) some.push_back(p_max * between(0.02, 1.0));
  const double asked = some[7];
  others = even_pressures(p_max, 12);
  others.push_back(asked);
  Workspace workspace;
  const StackResult a = stack_response(stack, some, quiet(), workspace);
  const StackResult b = stack_response(stack, others, quiet(), workspace);
  RC_PRE(a.outcome.status != Status::Stalled && b.outcome.status != Status::Stalled);
  const Apart far = apart(a.points[7], b.points.back(), asked * load_force(stack));
  // both are within the same of the truth, see above
  RC_ASSERT(far.lift <= kLift * std::max(largest_lift(b), 1e-6));
  RC_ASSERT(far.stress <= kStress);
}

Stack two_stages() {
  Stack stack =
      test_stack({{12, 0.10}, {12, 0.10}, {7, 0.10}, {11.5, 0.10}, {11, 0.15}, {10, 0.10}, {9, 0.2}});
  stack.seat = {true, 10.5e-3, 0.02e-3};
  return stack;
}

TEST(ResponseRun, OrderAndRepetitionChangeNoBit) {
  const Stack stack = two_stages();
  const std::vector<double> sorted = {0.0, 1e5, 1e5, 2e5, 3e5, 4e5, 5e5, 6e5};
  const std::vector<double> mixed = {6e5, 1e5, 4e5, 0.0, 3e5, 1e5, 5e5, 2e5};
  const std::vector<double> once = {0.0, 1e5, 2e5, 3e5, 4e5, 5e5, 6e5};
  Workspace workspace;
  std::map<double, StackPoint> expected;
  for (const StackPoint& point : stack_response(stack, once, quiet(), workspace).points)
    expected[point.pressure] = point;
  for (const std::vector<double>& pressures : {sorted, mixed}) {
    const StackResult result = stack_response(stack, pressures, quiet(), workspace);
    for (std::size_t i = 0; i < pressures.size(); ++i) {
      const StackPoint& point = result.points[i];
      const StackPoint& same = expected.at(pressures[i]);
      EXPECT_EQ(point.pressure, pressures[i]);
      EXPECT_EQ(point.lift_seat, same.lift_seat);
      EXPECT_EQ(point.slope, same.slope);
      EXPECT_EQ(point.max_stress, same.max_stress);
      ASSERT_EQ(point.contacts.size(), same.contacts.size());
      for (std::size_t c = 0; c < same.contacts.size(); ++c)
        EXPECT_EQ(point.contacts[c].force, same.contacts[c].force);
    }
  }
}

TEST(ResponseRun, SlopesAreTheDerivativeThroughTheClosingOfASecondStage) {
  Stack stack = two_stages();
  stack.seat.present = false;
  const double p_max = 1e6;
  int n_near = 0;
  Workspace workspace;
  for (const StackPoint& point :
       stack_response(stack, even_pressures(p_max, 40), quiet(), workspace).points) {
    const double step = 1e-4 * point.pressure;
    const double lift = alone(stack, point.pressure).lift_seat;
    const double below = (lift - alone(stack, point.pressure - step).lift_seat) / step;
    const double above = (alone(stack, point.pressure + step).lift_seat - lift) / step;
    // contact walks over the points of the mesh: there the slope jumps by some percent and back, which the
    // lifts of the pressures before do not show
    EXPECT_GE(point.slope, std::min(below, above) * (1.0 - 7e-2)) << point.pressure;
    EXPECT_LE(point.slope, std::max(below, above) * (1.0 + 7e-2)) << point.pressure;
    n_near += point.slope > std::min(below, above) * (1.0 - 5e-3) &&
              point.slope < std::max(below, above) * (1.0 + 5e-3);
  }
  EXPECT_GE(n_near, 36);
}

TEST(ResponseRun, TakesFewStepsWhereTheResponseIsSmooth) {
  const Stack stack = test_stack({{12, 0.15}, {11, 0.15}, {10, 0.15}, {9, 0.2}, {8, 0.2}});
  Workspace workspace;
  int n_steps = 0;
  for (const StackPoint& point : stack_response(stack, even_pressures(6e5, 60), quiet(), workspace).points)
    n_steps += point.outcome.iterations;
  EXPECT_LE(n_steps, 120);  // two at each; each alone from rest takes five or more
}

}  // namespace
}  // namespace shimwright::plate
