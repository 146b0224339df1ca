#include "plate/contact.h"

#include <gtest/gtest.h>

#include <cmath>

#include "plate/solver.h"
#include "plate/test_stacks.h"

namespace shimwright::plate {
namespace {

TEST(Layout, PileGivesEveryPairItsGap) {
  // two face discs, a gap shim, a taper behind: beyond the shim's rim the second and the fourth disc face
  // each other
  Stack stack = test_stack({{12, 0.15}, {12, 0.15}, {7, 0.10}, {11, 0.20}});
  Layout layout;
  lay_out(stack, 1, layout);
  ASSERT_EQ(layout.n_layers(), 3);  // the equal face discs are one
  EXPECT_EQ(layout.layers[0].n_equal, 2);
  int n_beyond = 0;
  for (const ContactPoint& point : layout.points) {
    const double r = layout.radius[point.station];
    if (point.lower == 0 && point.upper == 2) {
      ++n_beyond;
      EXPECT_GT(r, 7e-3);
      EXPECT_NEAR(point.gap, 0.10e-3, 1e-15);
    } else {
      EXPECT_LE(r, 7e-3 + 1e-9);
      EXPECT_NEAR(point.gap, 0.0, 1e-15);
    }
  }
  EXPECT_GT(n_beyond, 3);
}

TEST(Layout, ThickRingPreloadsWhatItLiesBetween) {
  Stack stack = test_stack({{12, 0.2}, {6.8, 0.10}, {11.5, 0.15}, {11.6, 0.15}});
  stack.discs[2].bore_radius = 9e-3;
  Layout layout;
  lay_out(stack, 1, layout);
  for (const ContactPoint& point : layout.points) {
    if (point.lower == 0 && point.upper == 2) {
      EXPECT_NEAR(point.gap, 0.0, 1e-15);
    }
    if (point.lower == 2 && point.upper == 3) {
      EXPECT_NEAR(point.gap, -0.05e-3, 1e-15);
    }
    if (point.lower == 1 && point.upper == 3) {
      EXPECT_NEAR(point.gap, 0.0, 1e-15);
    }
  }
}

TEST(Layout, LandCarriesLessThanThePocketAndTheWholeForceIsTheirSum) {
  Stack stack = test_stack({{12, 0.15}});
  Layout layout;
  lay_out(stack, 1, layout);
  const double pocket = M_PI * (100e-6 - 36e-6);
  EXPECT_NEAR(layout.load_force, pocket, 1e-12 * pocket);
  stack.load.land_outer_radius = 10.5e-3;
  lay_out(stack, 1, layout);
  const double land = M_PI * (10.5e-3 * 10.5e-3 - 100e-6);
  // the logarithmic fall over a narrow land is nearly straight: half the pressure on the mean
  EXPECT_NEAR((layout.load_force - pocket) / land, 0.5, 0.02);
  // the load of a hydrostatic pad, pi (R^2 - r^2) / (2 ln(R / r)) with its pocket [hamrock2004], less the
  // middle
  const double pad = M_PI * (10.5e-3 * 10.5e-3 - 100e-6) / (2.0 * std::log(10.5 / 10.0)) - M_PI * 36e-6;
  EXPECT_NEAR(layout.load_force / pad, 1.0, 1e-9);
  stack.load.arc_fraction = 0.25;
  const double whole = layout.load_force;
  lay_out(stack, 1, layout);
  EXPECT_NEAR(layout.load_force / whole, 0.25, 1e-12);
}

TEST(Contact, RimForceFollowsFromOneEquation) {
  // two unequal discs: X from w1 q(c) - G1 X = G2 X at the small disc's rim, the hand check of the physics
  // reference 1.3
  Stack stack = test_stack({{12, 0.15}, {9, 0.2}});
  stack.load.outer_radius = 12e-3;
  StackSolver solver;
  Options options = linear_options();
  options.shear_flexible = false;
  solver.set_up(stack, options);
  ASSERT_TRUE(solver.solve(1e5));
  double rim = 0.0, rest = 0.0;
  for (std::size_t p = 0; p < solver.layout().points.size(); ++p) {
    const bool at_rim = std::abs(solver.layout().radius[solver.layout().points[p].station] - 9e-3) < 1e-9;
    (at_rim ? rim : rest) += solver.contact().force[p];
  }
  EXPECT_EQ(rest, 0.0);
  EXPECT_NEAR(rim, 27.2458, 1e-4);  // ST-03
  for (std::size_t p = 0; p < solver.layout().points.size(); ++p) EXPECT_GE(solver.contact().gap[p], -1e-14);
}

TEST(Contact, RateIsTheSlopeOfTheLift) {
  const Stack stack = test_stack({{12, 0.15}, {11, 0.15}, {9.5, 0.2}, {8, 0.15}});
  StackSolver solver;
  solver.set_up(stack, linear_options());
  ASSERT_TRUE(solver.solve(1e5));
  solver.find_rate();
  EXPECT_NEAR(solver.seat_rate() * 1e5 / solver.seat_lift(), 1.0, 1e-9);  // homogeneous
}

TEST(Contact, RingThatNothingHoldsStaysLoose) {
  Stack stack = test_stack({{12, 0.15}, {11, 0.15}});
  stack.discs[1].bore_radius = 8e-3;
  const double pressures[] = {1e5};
  Workspace workspace;
  const StackPoint with = stack_response(stack, pressures, Options{}, workspace).points[0];
  stack.discs.pop_back();
  const StackPoint without = stack_response(stack, pressures, Options{}, workspace).points[0];
  EXPECT_NEAR(with.lift_seat / without.lift_seat, 1.0, 1e-4);
  EXPECT_FALSE(with.discs[1].carries_load);
}

TEST(Contact, BackSpringTakesItsShare) {
  // a spring so stiff that it is a stop, and one so soft that it is not there
  Stack stack = test_stack({{12, 0.15}});
  stack.back_spring = {true, 10.5e-3, 1e10, 0.0, 0.0};
  const double pressures[] = {1e5};
  Workspace workspace;
  const StackPoint held = stack_response(stack, pressures, Options{}, workspace).points[0];
  EXPECT_LT(std::abs(held.lift_seat), 1e-8);
  EXPECT_GT(held.spring_force, 1.0);
  stack.back_spring.rate = 1e4;
  const StackPoint sprung = stack_response(stack, pressures, Options{}, workspace).points[0];
  EXPECT_NEAR(sprung.spring_force, 1e4 * sprung.lift_seat,
              1e-6 * sprung.spring_force);  // F = k w at its radius
  stack.back_spring.gap = 0.05e-3;
  const StackPoint later = stack_response(stack, pressures, Options{}, workspace).points[0];
  EXPECT_NEAR(later.spring_force, 1e4 * (later.lift_seat - 0.05e-3), 1e-6 * later.spring_force);
  EXPECT_GT(later.lift_seat, sprung.lift_seat);
}

TEST(Contact, WasherWiderThanTheBossStiffensAndANarrowerOneLets) {
  Stack stack = test_stack({{12, 0.15}, {10, 0.15}});
  const double pressures[] = {1e5};
  Workspace workspace;
  const double same = stack_response(stack, pressures, Options{}, workspace).points[0].lift_seat;
  stack.washer_radius = 7e-3;
  const double wide = stack_response(stack, pressures, Options{}, workspace).points[0].lift_seat;
  stack.washer_radius = 5.5e-3;
  const double narrow = stack_response(stack, pressures, Options{}, workspace).points[0].lift_seat;
  EXPECT_LT(wide, same);
  EXPECT_GT(narrow, same);
  stack.washer_radius = 0.0;
  stack.clamp_radius = 5.5e-3;
  // the boss under the disc holds it up, and nothing holds it down: as if clamped at the narrow washer
  EXPECT_NEAR(narrow / stack_response(stack, pressures, Options{}, workspace).points[0].lift_seat, 1.0, 0.1);
}

}  // namespace
}  // namespace shimwright::plate
