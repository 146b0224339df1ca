#include <gtest/gtest.h>

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

}  // namespace
}  // namespace shimwright::plate
