#include <gtest/gtest.h>

#include <cmath>

#include "plate/lift_curve.h"
#include "plate/stack.h"
#include "plate/test_stacks.h"

namespace shimwright::plate {
namespace {

// a check plate alone on its spring touches nothing: the workspace must forget the contacts of the stack
// before
TEST(Workspace, AStackWithoutContactAfterOneWithContact) {
  for (const Theory theory : {Theory::Linear, Theory::Large}) {
    Options options;
    options.theory = theory;
    const Stack lone = test_stack({{12, 0.3}});
    Workspace fresh, used;
    const LiftCurve expected = lift_curve(lone, 1e5, options, fresh);
    lift_curve(test_stack({{12, 0.15}, {11, 0.15}, {10, 0.2}, {9, 0.2}}), 1e6, options, used);
    const LiftCurve got = lift_curve(lone, 1e5, options, used);
    EXPECT_EQ(lift_at(got, 0.7e5), lift_at(expected, 0.7e5));  // same input, same bits
  }
}

TEST(Workspace, ARememberedCurveIsTheSameToTheLastBitAndNoOtherIsTakenForIt) {
  const Stack stack = test_stack({{12, 0.15}, {11, 0.15}, {9, 0.2}});
  Stack thicker = stack;
  thicker.discs[1].thickness = std::nextafter(0.15e-3, 1.0);
  Options linear;
  linear.theory = Theory::Linear;
  Workspace fresh, remembering;
  remembering.remember_curves(4);
  for (int time = 0; time < 2; ++time) {
    for (const Stack& one : {stack, thicker}) {
      for (const Options& options : {Options{}, linear}) {
        for (const double p_max : {4e5, 5e5}) {  // eight curves for four places: some are drawn again
          const LiftCurve expected = lift_curve(one, p_max, options, fresh);
          for (int again = 0; again < 2; ++again) {
            const LiftCurve got = lift_curve(one, p_max, options, remembering);
            EXPECT_EQ(got.pressure, expected.pressure);
            EXPECT_EQ(got.lift, expected.lift);
            EXPECT_EQ(got.slope, expected.slope);
          }
        }
      }
    }
  }
}

}  // namespace
}  // namespace shimwright::plate
