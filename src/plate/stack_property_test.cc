#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "plate/lift_curve.h"
#include "plate/stack.h"
#include "plate/test_stacks.h"

namespace shimwright::plate {
namespace {

StackPoint solve(const Stack& stack, double pressure, const Options& options) {
  Workspace workspace;
  const double pressures[] = {pressure};
  return stack_response(stack, pressures, options, workspace).points[0];
}

/// A random stack: a face disc and one to six more in any order of diameters, sometimes a ring around a
/// filler a little thinner or thicker than it, a preload or an opening at the seat.
Stack any_stack() {
  Stack stack = test_stack({{12, 0.15}});
  const int n_more = *rc::gen::inRange(1, 7);
  for (int i = 0; i < n_more; ++i) {
    Disc disc = stack.discs[0];
    disc.outer_radius = 1e-5 * *rc::gen::inRange(680, 1200);
    disc.thickness = 0.05e-3 * *rc::gen::inRange(2, 6);
    if (*rc::gen::inRange(0, 6) == 0) {
      Disc filler = disc;
      filler.outer_radius = 6.8e-3;
      filler.thickness = disc.thickness + 0.05e-3 * *rc::gen::inRange(-1, 2);
      stack.discs.push_back(filler);
      disc.outer_radius = std::max(disc.outer_radius, 9e-3);
      disc.bore_radius = disc.outer_radius - 1e-5 * *rc::gen::inRange(80, 210);
    }
    stack.discs.push_back(disc);
  }
  const int seat = *rc::gen::inRange(0, 4);
  if (seat > 0) stack.seat = {true, 10.5e-3, 0.05e-3 * (seat - 2)};
  return stack;
}

/// A random pressure that lifts by something like a thickness.
double any_pressure() {
  return 1e3 * *rc::gen::inRange(20, 800);
}

RC_GTEST_PROP(StackProperty, NothingOverlapsAndNothingPulls, ()) {
  const Stack stack = any_stack();
  for (const Theory theory : {Theory::Linear, Theory::Large}) {
    Options options;
    options.theory = theory;
    const StackPoint point = solve(stack, any_pressure(), options);
    RC_ASSERT(point.outcome.status != Status::Stalled);
    RC_ASSERT(point.complementarity_error <
              1e-6);  // the solver's 1e-9; two rings that share a bore yield 1e-7 there
  }
}

RC_GTEST_PROP(StackProperty, ForcesOnEveryBodyBalance, ()) {
  // what presses a ring shim from below leaves it above; linear, where the ground spring of a loose ring is
  // 1e-9 of its own
  const Stack stack = any_stack();
  const StackPoint point = solve(stack, any_pressure(), linear_options());
  for (int i = 0; i < static_cast<int>(stack.discs.size()); ++i) {
    if (stack.discs[i].bore_radius <= stack.clamp_radius) continue;
    double net = 0.0, all = 1.0;
    for (const Contact& contact : point.contacts) {
      if (contact.upper == i) net += contact.force;
      if (contact.lower == i) net -= contact.force;
      all = std::max(all, contact.force);
    }
    const bool grouped =
        (i > 0 && stack.discs[i - 1].bore_radius > stack.clamp_radius) ||
        (i + 1 < static_cast<int>(stack.discs.size()) && stack.discs[i + 1].bore_radius > stack.clamp_radius);
    if (!grouped) RC_ASSERT(std::abs(net) < 1e-5 * all);
  }
}

RC_GTEST_PROP(StackProperty, MorePressureLiftsFurther, ()) {
  const Stack stack = any_stack();
  Options options;
  options.theory = *rc::gen::element(Theory::Linear, Theory::Large);
  const double p = any_pressure();
  const double pressures[] = {0.0, 0.3 * p, 0.6 * p, p};
  Workspace workspace;
  const StackResult result = stack_response(stack, pressures, options, workspace);
  for (int i = 1; i < 4; ++i)
    RC_ASSERT(result.points[i].lift_seat >=
              result.points[i - 1].lift_seat - 1e-6 * std::abs(result.points[3].lift_seat) - 1e-13);
}

RC_GTEST_PROP(StackProperty, AnotherDiscNeverSoftens, ()) {
  // on top of the pile, where it changes no height
  Stack stack = any_stack();
  const double p = any_pressure();
  Options options;
  options.theory = *rc::gen::element(Theory::Linear, Theory::Large);
  const double before = solve(stack, p, options).lift_seat;
  Disc disc = stack.discs[0];
  disc.outer_radius = 1e-5 * *rc::gen::inRange(650, 1200);
  disc.thickness = 0.05e-3 * *rc::gen::inRange(2, 6);
  stack.discs.push_back(disc);
  // 2e-5: other rims move the points of contact a little
  RC_ASSERT(solve(stack, p, options).lift_seat <= before + 2e-5 * std::abs(before) + 1e-12);
}

RC_GTEST_PROP(StackProperty, LinearLiftScalesWithThicknessModulusAndSize, ()) {
  // one disc alone, thin: t^-3, 1/E, a^4; thin plates only, shear goes with 1/t
  Stack stack = test_stack({{12, 0.15}});
  Options options = linear_options();
  options.shear_flexible = false;
  const double lift = solve(stack, 1e5, options).lift_seat;
  const double factor = 0.01 * *rc::gen::inRange(50, 200);
  Stack thick = stack;
  thick.discs[0].thickness *= factor;
  RC_ASSERT(std::abs(solve(thick, 1e5, options).lift_seat * std::pow(factor, 3) / lift - 1.0) < 1e-10);
  Stack stiff = stack;
  stiff.discs[0].youngs_modulus *= factor;
  RC_ASSERT(std::abs(solve(stiff, 1e5, options).lift_seat * factor / lift - 1.0) < 1e-10);
  Stack wide = stack;
  for (double* r : {&wide.clamp_radius, &wide.load.inner_radius, &wide.load.outer_radius, &wide.seat.radius,
                    &wide.discs[0].outer_radius, &wide.discs[0].bore_radius})
    *r *= factor;
  RC_ASSERT(std::abs(solve(wide, 1e5, options).lift_seat / std::pow(factor, 4) / lift - 1.0) < 1e-9);
}

RC_GTEST_PROP(StackProperty, EqualDiscsLiftAsOneOverTheirNumber, ()) {
  const int n = *rc::gen::inRange(2, 9);
  Stack one = test_stack({{12, 0.15}});
  Stack many = one;
  many.discs.assign(n, one.discs[0]);
  const double p = any_pressure();
  RC_ASSERT(
      std::abs(solve(many, p, linear_options()).lift_seat * n / solve(one, p, linear_options()).lift_seat -
               1.0) < 1e-10);
  // at large lift n discs under n times the pressure do as one, but for the heights that part their surfaces
  Options thin;
  thin.von_karman = true;
  RC_ASSERT(std::abs(solve(many, n * p, thin).lift_seat / solve(one, p, thin).lift_seat - 1.0) < 1e-6);
}

RC_GTEST_PROP(StackProperty, LargeTheoryIsLinearAtSmallLoad, ()) {
  Stack stack = any_stack();
  stack.seat.height = 0.0;
  stack.seat.present = false;
  for (Disc& disc : stack.discs)
    if (disc.bore_radius > stack.clamp_radius)
      disc.bore_radius = 3e-3;  // a thick ring preloads, which is no small load
  const double large = solve(stack, 1.0, Options{}).lift_seat;
  const double linear = solve(stack, 1.0, linear_options()).lift_seat;
  RC_ASSERT(std::abs(large / linear - 1.0) < 1e-5);  // elements against closed form
}

RC_GTEST_PROP(StackProperty, SameInputGivesTheSameBits, ()) {
  const Stack stack = any_stack();
  const Stack other = any_stack();
  const double p = any_pressure();
  const double pressures[] = {0.5 * p, p};
  Workspace fresh;
  Workspace used;
  (void)stack_response(other, pressures, Options{}, used);
  (void)lift_curve(other, p, Options{}, used);
  const StackResult a = stack_response(stack, pressures, Options{}, fresh);
  const StackResult b = stack_response(stack, pressures, Options{}, used);
  for (int i = 0; i < 2; ++i) {
    RC_ASSERT(a.points[i].lift_seat == b.points[i].lift_seat);
    RC_ASSERT(a.points[i].max_stress == b.points[i].max_stress);
  }
}

TEST(StackProperty, LoadAndLiftAreReciprocal) {
  // lift at the seat by a pressure ring at one radius is the lift there by one at the seat, linear, any stack
  Stack stack = test_stack({{12, 0.15}, {10, 0.15}, {8, 0.2}});
  const double width = 1e-6;
  const double radii[] = {8.5e-3, 11e-3};
  double lift[2];
  for (int i = 0; i < 2; ++i) {
    const double at = radii[i];
    stack.load = {at - width, at + width, 1.0, 0.0};
    stack.seat.radius = radii[1 - i];
    const double force = 3.14159265358979 * (std::pow(at + width, 2) - std::pow(at - width, 2));
    lift[i] = solve(stack, 1.0, linear_options()).lift_seat / force;
  }
  // not the same contact set for both loads: a taper stays in contact at both here; ring width 1e-4 of the
  // radius
  EXPECT_NEAR(lift[0] / lift[1], 1.0, 0.05);
  stack.discs.resize(1);
  for (int i = 0; i < 2; ++i) {
    const double at = radii[i];
    stack.load = {at - width, at + width, 1.0, 0.0};
    stack.seat.radius = radii[1 - i];
    const double force = 3.14159265358979 * (std::pow(at + width, 2) - std::pow(at - width, 2));
    lift[i] = solve(stack, 1.0, linear_options()).lift_seat / force;
  }
  EXPECT_NEAR(lift[0] / lift[1], 1.0, 1e-6);
}

TEST(StackProperty, DiscsBehindALargerOneMayChangeOrderWithTheirRimsHidden) {
  // beyond a stiff larger disc only what touches counts: two equal small discs behind it are the same either
  // way
  const Stack a = test_stack({{12, 0.15}, {8, 0.15}, {8, 0.10}});
  const Stack b = test_stack({{12, 0.15}, {8, 0.10}, {8, 0.15}});
  Options thin = linear_options();
  thin.shear_flexible = false;
  EXPECT_NEAR(solve(a, 1e5, thin).lift_seat / solve(b, 1e5, thin).lift_seat, 1.0, 1e-6);
}

TEST(StackProperty, GapShimOfNoThicknessIsNoGap) {
  const Stack plain = test_stack({{12, 0.15}, {10, 0.15}});
  const double plain_lift = solve(plain, 1e5, linear_options()).lift_seat;
  const Stack gap =
      test_stack({{12, 0.15}, {7, 1e-5}, {10, 0.15}});  // 10 nm; other points of contact change 1e-4
  EXPECT_NEAR(solve(gap, 1e5, linear_options()).lift_seat / plain_lift, 1.0, 3e-4);
  // at large lift a gap of 1 um lets the face disc lift about that much further before its neighbour helps,
  // no more
  const double large_lift = solve(plain, 1e5, Options{}).lift_seat;
  const double with_gap = solve(test_stack({{12, 0.15}, {7, 1e-3}, {10, 0.15}}), 1e5, Options{}).lift_seat;
  EXPECT_GT(with_gap, large_lift);
  EXPECT_LT(with_gap, large_lift + 2e-6);
}

TEST(StackProperty, RingThatFillsItsGapNeitherPreloadsNorLeavesPlay) {
  // filler and ring of one thickness between two discs: at rest nothing presses
  Stack stack = test_stack({{12, 0.2}, {6.8, 0.15}, {11.5, 0.15}, {11.6, 0.15}});
  stack.discs[2].bore_radius = 9e-3;
  const StackPoint rest = solve(stack, 0.0, Options{});
  EXPECT_LT(rest.max_stress, 1.0);
  stack.discs[2].thickness = 0.20e-3;
  stack.seat.present = true;
  EXPECT_GT(solve(stack, 0.0, Options{}).seat_force, 1.0);
}

TEST(StackProperty, WorkOfThePressureIsStoredInTheDiscs) {
  // linear, no preload: the discs hold half of pressure x swept volume; shear is left out so that bending
  // holds it all
  Options thin = linear_options();
  thin.shear_flexible = false;
  thin.shapes = true;
  const Stack stack = test_stack({{12, 0.15}, {10, 0.15}, {8, 0.2}});
  const StackPoint point = solve(stack, 1e5, thin);
  double share = 0.0;
  for (const DiscResult& disc : point.discs) share += disc.force_share;
  EXPECT_NEAR(share, 1.0, 1e-12);
  for (const DiscResult& disc : point.discs) EXPECT_GT(disc.force_share, 0.0);
}

}  // namespace
}  // namespace shimwright::plate
