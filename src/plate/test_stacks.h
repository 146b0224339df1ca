#pragma once
#include <gtest/gtest.h>

#include <cmath>
#include <initializer_list>

#include "plate/stack.h"

namespace shimwright::plate {

/// Outer radius and thickness of a test disc [mm].
struct TestDisc {
  double radius_mm;
  double thickness_mm;
};

/// Invented stacks for tests: clamp 6 mm, pocket 6 to 10 mm unless changed, steel, seat only read at its
/// radius.
inline Stack test_stack(std::initializer_list<TestDisc> discs) {
  Stack stack;
  stack.clamp_radius = 6e-3;
  stack.load = {6e-3, 10e-3, 1.0, 0.0};
  stack.seat = {false, 10.5e-3, 0.0};
  for (const TestDisc& given : discs) {
    Disc disc;
    disc.bore_radius = 3e-3;
    disc.outer_radius = 1e-3 * given.radius_mm;
    disc.thickness = 1e-3 * given.thickness_mm;
    stack.discs.push_back(disc);
  }
  return stack;
}

inline Options linear_options() {
  Options options;
  options.theory = Theory::Linear;
  return options;
}

inline void expect_close(double value, double expected, double relative) {
  EXPECT_NEAR(value, expected, relative * std::abs(expected));
}

}  // namespace shimwright::plate
