#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "assembly/torque.h"

// Laws of threads, torque and preload over many sizes.

namespace shimwright::assembly {
namespace {

/// A whole number of steps between two bounds: plain ranges shrink well and never waste a case.
double drawn(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 1001) / 1000.0;
}

TorqueCase any_case() {
  const double diameter = drawn(4e-3, 20e-3);
  const Thread thread = nominal_thread(diameter, diameter * drawn(0.06, 0.2));
  const double core = basic_sizes(thread).root_diameter;
  const auto strengths = named_strengths();
  const auto pick = [&] { return strengths[*rc::gen::inRange<std::size_t>(0, strengths.size())].strength; };
  return {.joint = {.thread = thread,
                    .bore = core * drawn(0.0, 0.6),
                    .face_outer = diameter * drawn(1.3, 2.0),
                    .face_inner = diameter * 1.05},
          .post = pick(),
          .nut = pick(),
          .engaged_length = diameter * drawn(0.2, 1.5),
          .nut_width = diameter * drawn(1.4, 2.2),
          .state = *rc::gen::element(ThreadState::Dry, ThreadState::Oiled, ThreadState::Threadlocker,
                                     ThreadState::AntiSeize),
          .wrench_error = drawn(0.0, 0.2)};
}

ThreadPair pair_of(const TorqueCase& c) {
  return {.thread = c.joint.thread,
          .engaged_length = c.engaged_length,
          .post = c.post,
          .nut = c.nut,
          .nut_width = c.nut_width};
}

RC_GTEST_PROP(TorqueLaws, MoreTorqueNeverMeansLessPreloadOrStress, ()) {
  const TorqueCase c = any_case();
  const double torque = drawn(0.1, 100.0);
  const double more = torque * drawn(1.0, 3.0);
  const TorqueAcceptance a = judge_torque(c, torque);
  const TorqueAcceptance b = judge_torque(c, more);
  RC_ASSERT(b.preload.low >= a.preload.low);
  RC_ASSERT(b.preload.typical >= a.preload.typical);
  RC_ASSERT(b.preload.high >= a.preload.high);
  RC_ASSERT(b.utilisation.high >= a.utilisation.high);
  // the verdict only ever goes from too low over holds to too high
  const auto order = [](TorqueVerdict v) {
    return v == TorqueVerdict::TooLow ? 0 : v == TorqueVerdict::Holds ? 1 : 2;
  };
  RC_ASSERT(order(b.verdict) >= order(a.verdict));
}

RC_GTEST_PROP(TorqueLaws, BandsAreInOrder, ()) {
  const TorqueAcceptance a = judge_torque(any_case(), drawn(0.1, 100.0));
  RC_ASSERT(a.preload.low <= a.preload.typical && a.preload.typical <= a.preload.high);
  RC_ASSERT(a.utilisation.low <= a.utilisation.high);
}

RC_GTEST_PROP(TorqueLaws, PreloadIsTheInverseOfTorque, ()) {
  const TorqueCase c = any_case();
  const Friction friction{drawn(0.03, 0.4), drawn(0.03, 0.4)};
  const double preload = drawn(1.0, 1e5);
  const double back =
      preload_at_torque(c.joint, tightening_torque(c.joint, preload, friction).total, friction);
  RC_ASSERT(std::abs(back - preload) <= 1e-12 * preload);
  const double mu = drawn(0.03, 0.4);
  RC_ASSERT(std::abs(friction_at_nut_factor(c.joint, nut_factor(c.joint, {mu, mu})) - mu) < 1e-12);
}

RC_GTEST_PROP(TorqueLaws, TheStretchShareIsWhatLooseningGivesBack, ()) {
  const TorqueCase c = any_case();
  const Friction friction{drawn(0.03, 0.4), drawn(0.03, 0.4)};
  const TorqueSplit on = tightening_torque(c.joint, 1e3, friction);
  const double off = loosening_torque(c.joint, 1e3, friction);
  RC_ASSERT(std::abs(on.total - off - 2.0 * on.stretch) <= 1e-12 * on.total);
}

RC_GTEST_PROP(TorqueLaws, YieldPreloadBringsThePostExactlyThere, ()) {
  const TorqueCase c = any_case();
  const double mu = drawn(0.03, 0.4);
  const double fraction = drawn(0.1, 1.0);
  const double preload = yield_preload(c.joint, c.post.yield, mu, fraction);
  const double reached = post_stress(c.joint, preload, mu).von_mises;
  RC_ASSERT(std::abs(reached - fraction * c.post.yield) <= 1e-12 * c.post.yield);
}

RC_GTEST_PROP(TorqueLaws, ABiggerBoreNeverCarriesMore, ()) {
  TorqueCase c = any_case();
  const double before = yield_preload(c.joint, c.post.yield, 0.12);
  c.joint.bore *= drawn(1.0, 1.3);
  RC_ASSERT(yield_preload(c.joint, c.post.yield, 0.12) <= before);
}

RC_GTEST_PROP(TorqueLaws, MoreThreadNeverStripsEarlier, ()) {
  ThreadPair pair = pair_of(any_case());
  const Stripping before = stripping(pair);
  const double factor = drawn(1.0, 3.0);
  pair.engaged_length *= factor;
  const Stripping after = stripping(pair);
  RC_ASSERT(after.force >= before.force);
  // and in proportion
  RC_ASSERT(std::abs(after.force - factor * before.force) <= 1e-9 * after.force);
  RC_ASSERT(after.weaker == before.weaker);
}

RC_GTEST_PROP(TorqueLaws, AStrongerNutNeverStripsEarlier, ()) {
  ThreadPair pair = pair_of(any_case());
  const double before = stripping(pair).nut_force;
  pair.nut.ultimate *= drawn(1.0, 2.0);
  // Alexander takes a little off the nut as it comes up to the post's strength, never more than it gained
  RC_ASSERT(stripping(pair).nut_force >= before * (1.0 - 1e-12));
}

RC_GTEST_PROP(TorqueLaws, AFeasibleEstimateIsInOrderAndItsTargetHolds, ()) {
  const TorqueCase c = any_case();
  const TorqueRange range = estimated_torque_range(c);
  RC_ASSERT(range.feasible == (range.least <= range.greatest));
  if (!range.feasible) return;
  RC_ASSERT(range.least <= range.target && range.target <= range.greatest);
  const TorqueAcceptance judged = judge_torque(c, range.target);
  RC_ASSERT(judged.verdict != TorqueVerdict::TooHigh);
  RC_ASSERT(judged.utilisation.high < 1.0);
  RC_ASSERT(judged.preload.high < judged.stripping_force);
}

RC_GTEST_PROP(TorqueLaws, SizesScale, ()) {
  // twice the size in everything: areas fourfold, torque at equal stress eightfold
  const TorqueCase small = any_case();
  NutJoint big = small.joint;
  big.thread.diameter *= 2;
  big.thread.pitch *= 2;
  big.bore *= 2;
  big.face_outer *= 2;
  big.face_inner *= 2;
  const double f_small = yield_preload(small.joint, small.post.yield, 0.12);
  const double f_big = yield_preload(big, small.post.yield, 0.12);
  RC_ASSERT(std::abs(f_big / f_small - 4.0) < 1e-9);
  const double t_small = tightening_torque(small.joint, f_small, {0.12, 0.12}).total;
  RC_ASSERT(std::abs(tightening_torque(big, f_big, {0.12, 0.12}).total / t_small - 8.0) < 1e-9);
}

}  // namespace
}  // namespace shimwright::assembly
