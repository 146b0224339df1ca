#include "assembly/torque.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/check.h"

namespace shimwright::assembly {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kCosHalfAngle = 0.5 * std::numbers::sqrt3;  // cos 30 degrees

/// Lever arm of each share of the torque, torque per preload [m]. The friction arms are per unit of
/// coefficient.
struct Arms {
  double stretch, thread, face;
};
Arms arms_of(const NutJoint& joint) {
  SW_CHECK(problems_in(joint).empty(), joint.thread.diameter, joint.bore, joint.face_outer, joint.face_inner);
  return {.stretch = joint.thread.pitch / (2.0 * kPi),
          .thread = 0.5 * basic_sizes(joint.thread).pitch_diameter / kCosHalfAngle,
          .face = 0.25 * (joint.face_outer + joint.face_inner)};
}

double torque_per_preload(const NutJoint& joint, const Friction& friction) {
  const Arms arms = arms_of(joint);
  return arms.stretch + friction.thread * arms.thread + friction.face * arms.face;
}

double section_diameter(const NutJoint& joint) {
  const double thread = basic_sizes(joint.thread).stress_diameter;
  return joint.neck > 0.0 ? std::min(joint.neck, thread) : thread;
}

}  // namespace

Problems problems_in(const NutJoint& joint) {
  Problems problems = problems_in(joint.thread);
  for (Problem& problem : problems) problem.field = "thread." + problem.field;
  if (!problems.empty()) return problems;

  const double core = basic_sizes(joint.thread).root_diameter;
  if (!(joint.neck >= 0.0)) problems.push_back({"neck", joint.neck, 0.0, "zero or larger"});
  const double solid = joint.neck > 0.0 ? std::min(joint.neck, core) : core;
  if (!(joint.bore >= 0.0 && joint.bore < solid)) {
    problems.push_back({"bore", joint.bore, solid, "smaller than the core of the thread and the neck"});
  }
  if (!(joint.face_inner >= 0.0)) problems.push_back({"face_inner", joint.face_inner, 0.0, "zero or larger"});
  if (!(joint.face_outer > joint.face_inner)) {
    problems.push_back(
        {"face_outer", joint.face_outer, joint.face_inner, "larger than the hole under the nut"});
  }
  return problems;
}

TorqueSplit tightening_torque(const NutJoint& joint, double preload, const Friction& friction) {
  const Arms arms = arms_of(joint);
  TorqueSplit split;
  split.stretch = preload * arms.stretch;
  split.thread = preload * friction.thread * arms.thread;
  split.face = preload * friction.face * arms.face;
  split.total = split.stretch + split.thread + split.face;
  return split;
}

double loosening_torque(const NutJoint& joint, double preload, const Friction& friction) {
  const TorqueSplit split = tightening_torque(joint, preload, friction);
  return split.thread + split.face - split.stretch;
}

double preload_at_torque(const NutJoint& joint, double torque, const Friction& friction) {
  return torque / torque_per_preload(joint, friction);
}

double nut_factor(const NutJoint& joint, const Friction& friction) {
  return torque_per_preload(joint, friction) / joint.thread.diameter;
}

double friction_at_nut_factor(const NutJoint& joint, double factor) {
  const Arms arms = arms_of(joint);
  return (factor * joint.thread.diameter - arms.stretch) / (arms.thread + arms.face);
}

double vdi_tightening_torque(const NutJoint& joint, double preload, const Friction& friction) {
  SW_CHECK(problems_in(joint).empty(), joint.thread.diameter, joint.face_outer, joint.face_inner);
  const double d2 = basic_sizes(joint.thread).pitch_diameter;
  const double face_mean = 0.5 * (joint.face_outer + joint.face_inner);
  return preload *
         (0.16 * joint.thread.pitch + 0.58 * d2 * friction.thread + 0.5 * face_mean * friction.face);
}

Band preload_band(const NutJoint& joint, double torque, const Band& coefficient, double wrench_error) {
  const auto preload = [&](double applied, double mu) { return preload_at_torque(joint, applied, {mu, mu}); };
  return {.low = preload(torque * (1.0 - wrench_error), coefficient.high),
          .typical = preload(torque, coefficient.typical),
          .high = preload(torque * (1.0 + wrench_error), coefficient.low)};
}

PostStress post_stress(const NutJoint& joint, double preload, double thread_friction) {
  SW_CHECK(problems_in(joint).empty(), joint.thread.diameter, joint.bore);
  const double d0 = section_diameter(joint);
  const double d2 = basic_sizes(joint.thread).pitch_diameter;
  const double bore = joint.bore;
  PostStress stress;
  stress.area = 0.25 * kPi * (d0 * d0 - bore * bore);
  stress.tension = preload / stress.area;

  // twist from stretch and thread friction only, in VDI's rounded numbers (1.155 is 1/cos 30)
  const double twist = preload * 0.5 * d2 * (joint.thread.pitch / (kPi * d2) + 1.155 * thread_friction);
  const double plastic_modulus = kPi / 12.0 * (d0 * d0 * d0 - bore * bore * bore);
  stress.torsion = twist / plastic_modulus;
  stress.von_mises = std::hypot(stress.tension, std::numbers::sqrt3 * stress.torsion);
  return stress;
}

double yield_preload(const NutJoint& joint, double yield, double thread_friction, double fraction) {
  // stress is proportional to preload
  return fraction * yield / post_stress(joint, 1.0, thread_friction).von_mises;
}

double post_stretch(const NutJoint& joint, double preload, double loaded_length, double modulus) {
  return preload * loaded_length / (modulus * post_stress(joint, preload, 0.0).area);
}

}  // namespace shimwright::assembly
