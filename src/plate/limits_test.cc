#include "plate/limits.h"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <span>
#include <sstream>
#include <string>
#include <vector>

#include "plate/test_stacks.h"

namespace shimwright::plate {
namespace {

TEST(Limits, FatigueFollowsTheStraightLineBetweenTheTwoStrengths) {
  Disc disc;
  disc.fatigue_strength = 400e6;
  disc.ultimate_strength = 1600e6;
  // zero to s: s / 2 / 400 + s / 2 / 1600 = 1 at s = 640
  EXPECT_NEAR(fatigue_margin(disc, 640e6), 1.0, 1e-12);
  EXPECT_NEAR(fatigue_margin(disc, 320e6), 2.0, 1e-12);
  disc.ultimate_strength = 0.0;
  disc.yield_strength = 1200e6;  // stands in
  EXPECT_NEAR(fatigue_margin(disc, 600e6), 1.0, 1e-12);
  disc.fatigue_strength = 0.0;
  EXPECT_EQ(fatigue_margin(disc, 600e6), 0.0);
}

TEST(Limits, RingUnderUniformHoopCompressionBucklesNearTheKnownLoad) {
  // a narrow ring pressed inwards all round buckles out of its plane or in it; out of plane with both bending
  // and twist, by energy for m = 2: p r^3 = 9 / (4 / (E I) + 1 / (G J)) when the load keeps its direction
  // (Timoshenko & Gere, Theory of Elastic Stability, art. 7.9, from memory). A plate strip has E I -> D (1 -
  // nu^2) b, G J = 2 D (1 - nu) b.
  const double a = 10e-3, b = 9.6e-3, t = 0.1e-3;
  Disc disc;
  disc.outer_radius = a;
  disc.bore_radius = b;
  disc.thickness = t;
  const double width = a - b;
  const double stiffness = disc.youngs_modulus * t * t * t / (12.0 * (1.0 - 0.09));
  const double bend = stiffness * (1.0 - 0.09) * width;
  const double twist = 2.0 * stiffness * (1.0 - 0.3) * width;
  const double mean = 0.5 * (a + b);
  const double load = 9.0 / (4.0 / bend + 1.0 / twist) / std::pow(mean, 3);  // per length of the circle
  const double hoop = load * mean / width;                                   // per length across, compressive
  std::vector<double> radius;
  std::vector<Section> sections(9);
  for (int i = 0; i < 9; ++i) {
    radius.push_back(b + width * i / 8);
    sections[i].force_hoop = -hoop;
  }
  // the trial shapes r^2..r^6 cannot turn the section freely: they find a load too high, the ratio too low
  const double ratio = buckling_ratio(radius, sections, disc, true);
  EXPECT_LT(ratio, 1.05);
  EXPECT_GT(ratio, 0.5);
}

/// Over the load at which a flat disc, clamped at its bore, buckles into waves: by a Ritz series of eight
/// terms, of energies as in Timoshenko & Gere, Theory of Elastic Stability, ch. 8 (from memory), with a
/// general eigenvalue solver. `hoop`: compression per length at a radius.
double ratio_by_series(const Disc& disc, double a, const std::function<double(double)>& hoop) {
  constexpr int kTerms = 8, kSteps = 400;
  const double b = disc.outer_radius, nu = disc.poisson_ratio;
  const double stiffness = disc.youngs_modulus * std::pow(disc.thickness, 3) / (12.0 * (1.0 - nu * nu));
  double worst = 0.0;
  for (int m = 2; m <= 12; ++m) {
    Eigen::MatrixXd bend = Eigen::MatrixXd::Zero(kTerms, kTerms), push = bend;
    for (int step = 0; step < kSteps; ++step) {
      const double x = (step + 0.5) / kSteps;  // from bore to rim
      const double r = a + x * (b - a), dr = (b - a) / kSteps;
      Eigen::VectorXd f(kTerms), slope(kTerms), curve(kTerms);
      for (int k = 0; k < kTerms; ++k) {
        const double p = k + 2.0;
        f[k] = std::pow(x, p);
        slope[k] = p * std::pow(x, p - 1.0) / (b - a);
        curve[k] = p * (p - 1.0) * std::pow(x, p - 2.0) / ((b - a) * (b - a));
      }
      const Eigen::VectorXd around = slope / r - m * m * f / (r * r);
      const Eigen::VectorXd twist = m * (slope / r - f / (r * r));
      const Eigen::MatrixXd mixed = curve * around.transpose();
      bend += stiffness * r * dr *
              (curve * curve.transpose() + around * around.transpose() + nu * (mixed + mixed.transpose()) +
               2.0 * (1.0 - nu) * twist * twist.transpose());
      push += hoop(r) * m * m / r * dr * f * f.transpose();
    }
    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solved(push, bend);
    worst = std::max(worst, solved.eigenvalues().maxCoeff());
  }
  return worst;
}

TEST(Limits, BucklingRatioIsNearAndNotAboveThatOfASeries) {
  Disc disc;
  disc.outer_radius = 12e-3;
  disc.bore_radius = 3e-3;
  disc.thickness = 0.1e-3;
  for (const double clamp : {4e-3, 6e-3, 8e-3})
    for (const double power : {1.0, 2.0, 4.0}) {
      const auto hoop = [&](double r) { return 2e4 * std::pow((r - clamp) / (12e-3 - clamp), power); };
      std::vector<double> radius;
      std::vector<Section> sections(41);
      for (int i = 0; i <= 40; ++i) {
        radius.push_back(clamp + (12e-3 - clamp) * i / 40);
        sections[i].force_hoop = -hoop(radius.back());
      }
      const double ratio = buckling_ratio(radius, sections, disc, false);
      const double exact = ratio_by_series(disc, clamp, hoop);
      EXPECT_LT(ratio, 1.02 * exact) << clamp << ' ' << power;  // its waves need not be whole
      EXPECT_GT(ratio, 0.7 * exact) << clamp << ' ' << power;
    }
}

/// Membrane forces of a disc clamped at its bore under an even pressure inwards on its rim: Lame's two terms,
/// no movement at the bore ([timoshenko1961] and any book on elasticity, from memory).
std::vector<Section> pressed_inwards(const Disc& disc, double pressure, std::span<const double> radius) {
  const double a = disc.bore_radius, b = disc.outer_radius, nu = disc.poisson_ratio;
  // stress A -+ B / r^2, movement ((1 - nu) A r + (1 + nu) B / r) / E with the sign of B as here
  const double ratio = -(1.0 - nu) / (1.0 + nu) * a * a;  // B / A
  const double even = -pressure / (1.0 - ratio / (b * b));
  std::vector<Section> sections(radius.size());
  for (std::size_t i = 0; i < radius.size(); ++i) {
    const double part = ratio / (radius[i] * radius[i]);
    sections[i].force_radial = even * (1.0 - part) * disc.thickness;
    sections[i].force_hoop = even * (1.0 + part) * disc.thickness;
  }
  return sections;
}

// test/reference/wavy_discs.csv: eight annular plates, by finite elements; its header explains the columns
TEST(Limits, BucklingRatioIsNearOneWhereFiniteElementsBuckle) {
  std::ifstream file(SW_SOURCE_DIR "/test/reference/wavy_discs.csv");
  int n_discs = 0;
  for (std::string text; std::getline(file, text);) {
    if (text.empty() || text[0] == '#' || text[0] == 'b') continue;
    std::istringstream line(text);
    std::vector<double> n;
    for (std::string cell; std::getline(line, cell, ',');) n.push_back(std::strtod(cell.c_str(), nullptr));
    ASSERT_EQ(n.size(), 7u) << text;
    Disc disc;
    disc.bore_radius = n[0];
    disc.outer_radius = n[1];
    disc.thickness = n[2];
    disc.youngs_modulus = n[3];
    disc.poisson_ratio = n[4];
    std::vector<double> radius;
    for (int i = 0; i <= 60; ++i) radius.push_back(n[0] + (n[1] - n[0]) * i / 60);
    EXPECT_NEAR(pressed_inwards(disc, 1.0, radius).back().force_radial, -disc.thickness,
                1e-9 * disc.thickness);
    const double ratio = buckling_ratio(radius, pressed_inwards(disc, n[5], radius), disc, false);
    // one trial shape is stiffer than the disc and buckles later; 1 percent is the elements' own
    EXPECT_LT(ratio, 1.01) << text;
    EXPECT_GT(ratio, 0.75) << text;
    ++n_discs;
  }
  EXPECT_EQ(n_discs, 8);
}

TEST(Limits, ARimThatMayGoWavyMarksNothingOutOfRange) {
  Stack stack = test_stack({{12, 0.05}});
  const double pressures[] = {2e4};
  Workspace workspace;
  const StackPoint point = stack_response(stack, pressures, Options{}, workspace).points[0];
  EXPECT_GT(point.limits.buckling_ratio, 1.0);
  EXPECT_EQ(point.outcome.status, Status::Converged);
}

TEST(Limits, BucklingRatioGrowsWithTheCompressionAndIsNoneInTension) {
  const Stack stack = test_stack({{12, 0.10}});
  const double pressures[] = {1e5, 4e5, 1.2e6};
  Workspace workspace;
  const StackResult result = stack_response(stack, pressures, Options{}, workspace);
  for (int i = 0; i < 3; ++i) {
    EXPECT_GT(result.points[i].limits.rim_compression, 0.0);
    EXPECT_EQ(result.points[i].limits.buckling_disc, 0);
    if (i > 0) {
      EXPECT_GT(result.points[i].limits.buckling_ratio, result.points[i - 1].limits.buckling_ratio);
    }
  }
  std::vector<double> radius = {6e-3, 8e-3, 10e-3, 12e-3};
  std::vector<Section> sections(4);
  for (Section& section : sections) section.force_hoop = 1e4;
  EXPECT_EQ(buckling_ratio(radius, sections, stack.discs[0], false), 0.0);
}

TEST(Limits, LinearTheorySaysWhenItLiftsTooFar) {
  const Stack stack = test_stack({{12, 0.15}});
  Options linear;
  linear.theory = Theory::Linear;
  const double pressures[] = {1e3, 1e5};
  Workspace workspace;
  const StackResult result = stack_response(stack, pressures, linear, workspace);
  EXPECT_EQ(result.points[0].outcome.status, Status::Converged);
  EXPECT_EQ(result.points[1].outcome.status, Status::OutOfRange);
  EXPECT_EQ(result.outcome.status, Status::OutOfRange);
}

TEST(Limits, YieldIsToldWithItsDisc) {
  Stack stack = test_stack({{12, 0.15}, {9, 0.15}});
  stack.discs[1].yield_strength = 50e6;
  const double pressures[] = {1e5};
  Workspace workspace;
  const StackPoint point = stack_response(stack, pressures, Options{}, workspace).points[0];
  EXPECT_EQ(point.limits.yield_disc, 1);
  EXPECT_NEAR(point.limits.yield_ratio, point.discs[1].max_stress / 50e6, 1e-12);
  EXPECT_EQ(point.outcome.status, Status::OutOfRange);
}

TEST(Limits, NotchedRimIsWeaker) {
  const Stack plain = test_stack({{12, 0.15}});
  Stack notched = plain;
  notched.discs[0].notches = {4, 2e-3, 1.5e-3};
  const double pressures[] = {5e4};
  for (const Theory theory : {Theory::Linear, Theory::Large}) {
    Options options;
    options.theory = theory;
    Workspace workspace;
    const double before = stack_response(plain, pressures, options, workspace).points[0].lift_rim;
    const double after = stack_response(notched, pressures, options, workspace).points[0].lift_rim;
    EXPECT_GT(after, before);
    EXPECT_LT(after, 1.3 * before);
  }
}

TEST(Limits, SlitsInARimTakeItsHoopForceOverADepthBesideThem) {
  // slits without width take nothing along the radius, but the rim carries no hoop force near them: a rim
  // that slits make as good as free around the circle lifts like one of radial fingers, 2 depths of slits
  // like one
  const Stack plain = test_stack({{12, 0.15}});
  const double pressures[] = {5e4};
  Options options;
  options.theory = Theory::Linear;
  Workspace workspace;
  const auto lift = [&](int count, double depth) {
    Stack cut = plain;
    cut.discs[0].notches = {count, 1e-9, depth};
    return stack_response(cut, pressures, options, workspace).points[0].lift_rim;
  };
  const double before = stack_response(plain, pressures, options, workspace).points[0].lift_rim;
  EXPECT_GT(lift(4, 2e-3), 1.002 * before);
  EXPECT_GT(lift(12, 2e-3), lift(4, 2e-3));
  // 1 - n 2 depth / (2 pi r): twice as many slits of half the depth leave the same share, in half of the rim
  EXPECT_LT(lift(8, 1e-3), lift(4, 2e-3));
  EXPECT_LT(lift(12, 2e-3), 1.3 * before);
}

std::vector<bool> every_disc(const Stack& stack) {
  return std::vector<bool>(stack.discs.size(), true);
}

TEST(Influence, ThickerDiscsLiftLessAndALooseOneCouldBeLeftOut) {
  Stack stack = test_stack({{12, 0.15}, {10, 0.15}, {8, 0.15}, {11, 0.15}});
  stack.discs[3].bore_radius = 9e-3;  // a ring that nothing holds
  Workspace workspace;
  const StackInfluence influence = stack_influence(stack, 1e5, every_disc(stack), Options{}, workspace);
  for (int i = 0; i < 3; ++i) EXPECT_LT(influence.discs[i].lift_per_thickness, 0.0) << i;
  EXPECT_TRUE(influence.discs[3].could_be_left_out);
  EXPECT_FALSE(influence.discs[0].could_be_left_out);
  EXPECT_GT(influence.discs[1].lift_without, influence.lift_seat);
  double share = 0.0;
  for (const GroupShare& group : influence.groups) share += group.stiffness_share;
  EXPECT_NEAR(share, 1.0, 1e-12);
}

TEST(Influence, OneDiscAloneFollowsTheCubeOfItsThickness) {
  const Stack stack = test_stack({{12, 0.15}});
  Options linear;
  linear.theory = Theory::Linear;
  linear.shear_flexible = false;
  Workspace workspace;
  const StackInfluence influence = stack_influence(stack, 1e3, every_disc(stack), linear, workspace);
  EXPECT_NEAR(influence.discs[0].lift_per_thickness * 0.15e-3 / influence.lift_seat, -3.0,
              1e-4);  // central difference
}

TEST(Influence, EqualNeighboursShareWhatTheyDo) {
  const Stack stack = test_stack({{12, 0.15}, {12, 0.15}, {12, 0.15}, {9, 0.2}});
  Options linear;
  linear.theory = Theory::Linear;
  Workspace workspace;
  const StackInfluence influence = stack_influence(stack, 1e5, every_disc(stack), linear, workspace);
  // the same of one disc alone, by its own difference
  const double pressures[] = {1e5};
  const double step = 1e-3 * 0.15e-3;
  for (int i = 0; i < 3; ++i) {
    Stack thicker = stack, thinner = stack;
    thicker.discs[i].thickness += step;
    thinner.discs[i].thickness -= step;
    const double rise = stack_response(thicker, pressures, linear, workspace).points[0].lift_seat -
                        stack_response(thinner, pressures, linear, workspace).points[0].lift_seat;
    // unequal discs touch at points of the mesh, equal ones everywhere
    EXPECT_NEAR(influence.discs[i].lift_per_thickness * 2.0 * step / rise, 1.0, 5e-3) << i;
  }
}

TEST(Influence, AgreesWithEachThicknessSolvedFromRest) {
  // with a gap shim, bent far, seated and afloat on a back spring's stop
  Stack stack = test_stack({{12, 0.15}, {12, 0.15}, {8, 0.10}, {11, 0.15}, {9, 0.2}});
  Stack floating = stack;
  floating.slide = {0.2e-3, 4.0, 2e3};
  Options tight;
  tight.tolerance = 1e-10;
  for (const Stack& one : {stack, floating}) {
    Workspace workspace;
    const auto lift = [&](const Stack& changed) {
      const double pressures[] = {1e6};
      return stack_lifts(changed, pressures, tight, workspace)[0].seat;
    };
    const StackInfluence influence = stack_influence(one, 1e6, every_disc(one), Options{}, workspace);
    EXPECT_NEAR(influence.lift_seat, lift(one), 1e-6 * influence.lift_seat);
    for (std::size_t i = 2; i < one.discs.size(); ++i) {
      Stack thicker = one, thinner = one;
      const double step = 2e-3 * one.discs[i].thickness;
      thicker.discs[i].thickness += step;
      thinner.discs[i].thickness -= step;
      const double rise = lift(thicker) - lift(thinner);
      // 1e-7 of the lift is what both are solved to, over a change of some thousandths
      EXPECT_NEAR(influence.discs[i].lift_per_thickness, rise / (2.0 * step),
                  2e-4 * std::abs(influence.discs[0].lift_per_thickness))
          << i;
    }
  }
}

TEST(Influence, OfOneDiscIsThatOfThemAll) {
  const Stack stack = test_stack({{12, 0.15}, {12, 0.15}, {8, 0.10}, {11, 0.15}});
  Workspace workspace;
  const StackInfluence all = stack_influence(stack, 1e6, every_disc(stack), Options{}, workspace);
  const StackInfluence one = stack_influence(stack, 1e6, {false, false, true, false}, Options{}, workspace);
  EXPECT_EQ(one.discs[2].lift_per_thickness, all.discs[2].lift_per_thickness);
  EXPECT_EQ(one.discs[2].lift_without, all.discs[2].lift_without);
  EXPECT_EQ(one.discs[3].lift_per_thickness, 0.0);
  for (int i = 0; i < 4; ++i) EXPECT_EQ(one.discs[i].force_share, all.discs[i].force_share);
}

TEST(Lifts, AreThoseOfTheWholeResponse) {
  Stack stack = test_stack({{12, 0.15}, {8, 0.10}, {11, 0.15}, {9, 0.2}});
  stack.slide = {0.2e-3, 4.0, 2e3};
  Workspace workspace;
  const double pressures[] = {2e6, 0.0, 1e4, 2e5, 2e6};  // one twice, in no order
  const std::vector<StackPoint> points = stack_response(stack, pressures, Options{}, workspace).points;
  const std::vector<Lift> lifts = stack_lifts(stack, pressures, Options{}, workspace);
  for (std::size_t i = 0; i < 5; ++i) {
    // both come to the tolerance of 1e-6, each on its own way
    EXPECT_NEAR(lifts[i].seat, points[i].lift_seat, 2e-6 * points[i].lift_seat) << i;
    EXPECT_NEAR(lifts[i].rim, points[i].lift_rim, 2e-6 * points[i].lift_rim) << i;
  }
}

TEST(Validate, EveryFaultIsFoundByField) {
  Stack stack = test_stack({{12, 0.15}, {10, 0.15}});
  EXPECT_TRUE(validate(stack).empty());
  stack.discs[1].thickness = 0.0;
  stack.discs[0].bore_radius = 13e-3;
  Problems problems = validate(stack);
  ASSERT_EQ(problems.size(), 2u);
  EXPECT_EQ(problems[0].field, "discs[0].bore_radius");
  EXPECT_EQ(problems[1].field, "discs[1].thickness");
  stack = test_stack({{12, 0.15}});
  stack.load.outer_radius = 13e-3;
  stack.seat.radius = 5e-3;
  problems = validate(stack);
  ASSERT_EQ(problems.size(), 2u);
  EXPECT_EQ(problems[0].field, "load.outer_radius");
  EXPECT_EQ(problems[1].field, "seat.radius");
  stack = test_stack({{12, 0.15}});
  stack.slide = {1e-4, 1.0, 0.0};
  problems = validate(stack);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].field, "slide.spring_rate");
}

}  // namespace
}  // namespace shimwright::plate
