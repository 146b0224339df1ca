#include <algorithm>
#include <numbers>

#include "assembly/torque.h"
#include "base/check.h"

// A stated torque accepted or refused, and an estimate where none was published.

namespace shimwright::assembly {
namespace {

// limits of a stated torque, common practice, no source
constexpr double kYieldAllowed = 0.9;  // as VDI 2230 tightens
constexpr double kStrippingReserve = 1.25;
constexpr double kLeastYieldShare = 0.1;  // of the preload at kYieldAllowed, when no clamp force is stated

// fractions of an estimate, common practice, no source
constexpr double kTargetYield = 0.5;
constexpr double kGreatestYield = 0.75;
constexpr double kGreatestStripping = 0.5;
constexpr double kLeastYield = 0.2;

constexpr double kInchPerFoot = 12.0;

ThreadPair pair_of(const TorqueCase& c) {
  return {.thread = c.joint.thread,
          .engaged_length = c.engaged_length,
          .post = c.post,
          .nut = c.nut,
          .nut_width = c.nut_width};
}

double face_area(const NutJoint& joint) {
  return 0.25 * std::numbers::pi *
         (joint.face_outer * joint.face_outer - joint.face_inner * joint.face_inner);
}

double torque_at(const NutJoint& joint, double preload, double mu) {
  return tightening_torque(joint, preload, {mu, mu}).total;
}

/// The lowest of the preload limits and which one it is.
struct PreloadLimit {
  double preload;
  TorqueLimit limit;
};
PreloadLimit lowest_limit(const TorqueCase& c, double yield_limit, double stripping_limit) {
  PreloadLimit lowest{yield_limit, TorqueLimit::PostYield};
  if (stripping_limit < lowest.preload) lowest = {stripping_limit, TorqueLimit::Stripping};
  if (c.face_pressure_allowed > 0.0) {
    const double face_limit = c.face_pressure_allowed * face_area(c.joint);
    if (face_limit < lowest.preload) lowest = {face_limit, TorqueLimit::FacePressure};
  }
  return lowest;
}

void look_for_unit_slip(TorqueAcceptance& result) {
  const auto holds = [&](double torque) {
    return torque >= result.least_torque && torque <= result.greatest_torque;
  };
  if (result.verdict == TorqueVerdict::TooHigh && holds(result.torque / kInchPerFoot)) {
    result.slip = UnitSlip::FootForInch;
    result.slip_torque = result.torque / kInchPerFoot;
  }
  if (result.verdict == TorqueVerdict::TooLow && holds(result.torque * kInchPerFoot)) {
    result.slip = UnitSlip::InchForFoot;
    result.slip_torque = result.torque * kInchPerFoot;
  }
}

}  // namespace

Problems problems_in(const TorqueCase& torque_case) {
  Problems problems = problems_in(torque_case.joint);
  for (Problem& problem : problems) problem.field = "joint." + problem.field;
  for (Problem& problem : problems_in(pair_of(torque_case))) {
    // the joint has spoken of its thread already
    if (!problem.field.starts_with("thread.")) problems.push_back(std::move(problem));
  }
  if (!(torque_case.clamp_needed >= 0.0)) {
    problems.push_back({"clamp_needed", torque_case.clamp_needed, 0.0, "zero or larger"});
  }
  if (!(torque_case.face_pressure_allowed >= 0.0)) {
    problems.push_back({"face_pressure_allowed", torque_case.face_pressure_allowed, 0.0, "zero or larger"});
  }
  if (!(torque_case.wrench_error >= 0.0 && torque_case.wrench_error < 0.5)) {
    problems.push_back({"wrench_error", torque_case.wrench_error, 0.5, "from zero to one half"});
  }
  return problems;
}

TorqueAcceptance judge_torque(const TorqueCase& torque_case, double torque) {
  SW_CHECK(problems_in(torque_case).empty(), torque_case.joint.thread.diameter, torque_case.engaged_length);
  SW_CHECK(torque >= 0.0, torque);
  const TorqueCase& c = torque_case;
  const Band& mu = friction_of(c.state).coefficient;
  const Stripping strip = stripping(pair_of(c));

  // what the torque makes
  TorqueAcceptance result;
  result.torque = torque;
  result.preload = preload_band(c.joint, torque, mu, c.wrench_error);
  const auto utilisation = [&](double preload, double friction) {
    return post_stress(c.joint, preload, friction).von_mises / c.post.yield;
  };
  result.utilisation = {utilisation(result.preload.low, mu.high),
                        utilisation(result.preload.typical, mu.typical),
                        utilisation(result.preload.high, mu.low)};
  result.weaker = strip.weaker;
  result.stripping_force = strip.force;
  result.outcome = strip.outcome;

  // what it may make, at typical friction
  const double at_yield = yield_preload(c.joint, c.post.yield, mu.typical, kYieldAllowed);
  const PreloadLimit most = lowest_limit(c, at_yield, strip.force / kStrippingReserve);
  const double least = c.clamp_needed > 0.0 ? c.clamp_needed : kLeastYieldShare * at_yield;
  result.limit = most.limit;
  result.greatest_torque = torque_at(c.joint, most.preload, mu.typical);
  result.least_torque = torque_at(c.joint, least, mu.typical);

  // verdict
  if (torque > result.greatest_torque) {
    result.verdict = TorqueVerdict::TooHigh;
  } else if (torque < result.least_torque) {
    result.verdict = TorqueVerdict::TooLow;
  } else {
    const bool may_yield = result.utilisation.high >= 1.0 || result.preload.high >= strip.force;
    const bool may_open = c.clamp_needed > 0.0 && result.preload.low < c.clamp_needed;
    result.tight = may_yield || may_open;
  }
  look_for_unit_slip(result);
  return result;
}

TorqueRange estimated_torque_range(const TorqueCase& torque_case) {
  SW_CHECK(problems_in(torque_case).empty(), torque_case.joint.thread.diameter, torque_case.engaged_length);
  const TorqueCase& c = torque_case;
  const Band& mu = friction_of(c.state).coefficient;
  const Stripping strip = stripping(pair_of(c));
  TorqueRange range;
  range.outcome = strip.outcome;
  const auto step = [&](std::string_view what, double value, StepUnit unit) {
    range.steps.push_back({what, value, unit});
    return value;
  };

  // the joint
  step("area of the post that carries the load, without the bore", post_stress(c.joint, 0.0, 0.0).area,
       StepUnit::Area);
  step("yield strength of the post", c.post.yield, StepUnit::Stress);
  step("length of full thread in the nut", c.engaged_length, StepUnit::Length);
  step("force that strips the weaker thread", strip.force, StepUnit::Force);
  step("lowest friction coefficient", mu.low, StepUnit::Ratio);
  step("typical friction coefficient", mu.typical, StepUnit::Ratio);
  step("highest friction coefficient", mu.high, StepUnit::Ratio);
  step("error of the torque wrench", c.wrench_error, StepUnit::Ratio);

  // greatest: slippery, and the wrench gives more than it shows
  step("highest share of yield, slippery thread", kGreatestYield, StepUnit::Ratio);
  step("highest share of the stripping force", kGreatestStripping, StepUnit::Ratio);
  const double strip_limit = kGreatestStripping * strip.force;
  const double most =
      lowest_limit(c, yield_preload(c.joint, c.post.yield, mu.low, kGreatestYield), strip_limit).preload;
  step("highest preload", most, StepUnit::Force);
  range.greatest = torque_at(c.joint, most, mu.low) / (1.0 + c.wrench_error);
  step("highest torque", range.greatest, StepUnit::Torque);

  // least: rough, and the wrench gives less
  double least = c.clamp_needed;
  if (!(least > 0.0)) {
    step("lowest share of yield, rough thread", kLeastYield, StepUnit::Ratio);
    least = yield_preload(c.joint, c.post.yield, mu.high, kLeastYield);
  }
  step("lowest preload", least, StepUnit::Force);
  range.least = torque_at(c.joint, least, mu.high) / (1.0 - c.wrench_error);
  step("lowest torque", range.least, StepUnit::Torque);

  // target
  range.feasible = range.least <= range.greatest;
  step("target share of yield", kTargetYield, StepUnit::Ratio);
  const double aimed = yield_preload(c.joint, c.post.yield, mu.typical, kTargetYield);
  const double aimed_torque = torque_at(c.joint, aimed, mu.typical);
  range.target = range.feasible ? std::clamp(aimed_torque, range.least, range.greatest) : range.greatest;
  step("target torque, kept inside the range", range.target, StepUnit::Torque);
  return range;
}

}  // namespace shimwright::assembly
