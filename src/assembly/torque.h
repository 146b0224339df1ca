#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "assembly/stripping.h"

namespace shimwright::assembly {

// ---------------------------------------------------------------- what is on the thread

/// What is on the thread and under the nut when it is tightened.
enum class ThreadState { Dry, Oiled, Threadlocker, AntiSeize };

/// A quantity with its band.
struct Band {
  double low = 0.0;
  double typical = 0.0;
  double high = 0.0;
};

/// Friction of one state. The trade tables give nut factors; the friction coefficient behind them, taken back
/// on the M8 coarse screw that such tables are about, is what carries over to another thread.
struct FrictionState {
  ThreadState state;
  std::string_view id;      // "dry", "oiled", "threadlocker", "anti-seize"
  std::string_view label;   // words for print
  Band nut_factor;          // K in T = K d F [-]
  Band coefficient;         // friction coefficient, of thread and nut face [-]
  std::string_view source;  // where K comes from
};

/// All states, in the order of ThreadState.
std::span<const FrictionState> friction_states();
const FrictionState& friction_of(ThreadState state);
const FrictionState* find_friction(std::string_view id);

/// Friction coefficients at one tightening.
struct Friction {
  double thread = 0.0;
  double face = 0.0;  // under the nut
};

// ---------------------------------------------------------------- torque and preload

/// A nut on a post, as far as torque is concerned.
struct NutJoint {
  Thread thread;
  double bore = 0.0;        // through hole of the post, for a needle or its rod [m]; 0: solid
  double neck = 0.0;        // smallest outer diameter of the loaded length, an undercut [m]; 0: no undercut
  double face_outer = 0.0;  // d_w, of the nut's bearing ring [m]
  double face_inner = 0.0;  // d_h, of the bearing ring, the hole of what lies below [m]
};

Problems problems_in(const NutJoint& joint);

/// Torque and where it goes [N m].
struct TorqueSplit {
  double stretch = 0.0;  // P/(2 pi) F: all that makes preload
  double thread = 0.0;   // lost in the thread
  double face = 0.0;     // lost under the nut
  double total = 0.0;
};

/// Torque that gives `preload` [N].
///
/// Model:  T = F [P/(2 pi) + mu_t r_t / cos 30 + mu_n r_n]; r_t = d2/2, r_n = (d_w + d_h)/4.
/// Source: [motosh1976], from memory. Tested: torque_reference_test.cc
TorqueSplit tightening_torque(const NutJoint& joint, double preload, const Friction& friction);

/// Torque that starts the nut off again, the hold of threadlocker not counted [N m].
/// Negative: it undoes itself.
double loosening_torque(const NutJoint& joint, double preload, const Friction& friction);

/// Preload from a torque, the inverse of tightening_torque() [N].
double preload_at_torque(const NutJoint& joint, double torque, const Friction& friction);

/// K in T = K d F.
double nut_factor(const NutJoint& joint, const Friction& friction);

/// Friction coefficient, the same in thread and face, behind a nut factor on this joint; inverse of
/// nut_factor().
double friction_at_nut_factor(const NutJoint& joint, double factor);

/// Torque by the rounded coefficients of [vdi2230]: M = F [0.16 P + 0.58 d2 mu_G + D_Km/2 mu_K] [N m].
double vdi_tightening_torque(const NutJoint& joint, double preload, const Friction& friction);

/// Preload band of a torque over the friction band and the wrench's own error [N].
///
/// Shape:  `wrench_error` relative, 0.04 for a good click wrench (a class of [iso6789], from memory).
Band preload_band(const NutJoint& joint, double torque, const Band& coefficient, double wrench_error = 0.04);

// ---------------------------------------------------------------- stress in the post

/// Stress in the post's threaded (or necked) section while the nut is being turned [Pa].
///
/// Model:  von Mises of pull and twist; twist over the fully plastic ring section, as VDI 2230 takes it, so
///         that yield_preload() is the exact inverse.
/// Source: [vdi2230], from memory; hollow section by the same reasoning. Tested: torque_reference_test.cc
struct PostStress {
  double area = 0.0;       // that carries the pull [m^2]
  double tension = 0.0;    // [Pa]
  double torsion = 0.0;    // [Pa]
  double von_mises = 0.0;  // [Pa]
};
PostStress post_stress(const NutJoint& joint, double preload, double thread_friction);

/// Preload at which the von Mises stress reaches `fraction` of the yield strength [N].
/// VDI's F_M at fraction = 0.9.
double yield_preload(const NutJoint& joint, double yield, double thread_friction, double fraction = 0.9);

/// Stretch of the post under preload over its loaded length [m]; steel 206 GPa unless given.
double post_stretch(const NutJoint& joint, double preload, double loaded_length, double modulus = 206e9);

// ---------------------------------------------------------------- a stated torque, accepted or refused

/// Everything a torque is judged by.
struct TorqueCase {
  NutJoint joint;
  Strength post;
  Strength nut;
  double engaged_length = 0.0;  // full thread [m]
  double nut_width = 0.0;       // [m], 0: not known
  ThreadState state = ThreadState::Dry;
  double clamp_needed = 0.0;           // force that must stay between the pieces [N]; 0: not stated
  double face_pressure_allowed = 0.0;  // limit of the softest face under the nut [Pa]; 0: not checked
  double wrench_error = 0.04;          // relative
};

Problems problems_in(const TorqueCase& torque_case);

enum class TorqueVerdict { Holds, TooLow, TooHigh };

/// What gives way first as the torque rises.
enum class TorqueLimit { PostYield, Stripping, FacePressure };

/// Inch-pounds and foot-pounds differ by twelve.
enum class UnitSlip {
  None,
  FootForInch,  // refused as too high, and a twelfth of it would hold
  InchForFoot,  // refused as too low, and twelve times it would hold
};

/// What a torque does to the joint.
///
/// Model:  TooHigh when, at typical friction, the post passes 0.9 of its yield, the thread its stripping
/// force
///         / 1.25, or the face under the nut its allowed pressure.
///         TooLow when, at typical friction, the preload is under the clamp needed, or, if none is stated,
///         under a tenth of the preload at 0.9 yield. `tight` when the verdict is Holds but the slippery or
///         the rough end of the band fails (slippery end: yield or stripping reached; rough end: clamp needed
///         not reached).
/// Source: limits are common practice, no source.
/// Tested: torque_test.cc
struct TorqueAcceptance {
  TorqueVerdict verdict = TorqueVerdict::Holds;
  bool tight = false;
  TorqueLimit limit = TorqueLimit::PostYield;  // what sets greatest_torque
  double torque = 0.0;                         // as stated [N m]
  Band preload;                                // [N]
  Band utilisation;                            // von Mises over yield, at low, typical, high preload [-]
  double stripping_force = 0.0;                // of the weaker thread [N]
  Member weaker = Member::Nut;                 // the thread that would strip
  double least_torque = 0.0;                   // that would still hold at typical friction [N m]
  double greatest_torque = 0.0;                // that would still hold at typical friction [N m]
  UnitSlip slip = UnitSlip::None;
  double slip_torque = 0.0;  // the torque that was likely meant [N m]; 0 without a slip
  Outcome outcome;           // of the stripping model
};
TorqueAcceptance judge_torque(const TorqueCase& torque_case, double torque);

// ---------------------------------------------------------------- an estimate, when no maker published a
// torque

/// What the number of a step measures, so that print can give it its unit.
enum class StepUnit { Ratio, Length, Area, Stress, Force, Torque };

/// One line of a derivation.
struct DerivationStep {
  std::string_view what;  // "stress area of the post, bore taken off"
  double value = 0.0;     // SI
  StepUnit unit = StepUnit::Ratio;
};

/// A range of torque with no maker behind it. Always shown as an estimate, with its steps.
///
/// Model:  target: half of yield (von Mises) at typical friction. Greatest: three quarters of yield, half of
///         the stripping force, or the allowed face pressure, at the slippery end and with the wrench reading
///         low. Least: the clamp needed (or a fifth of yield) at the rough end and with the wrench reading
///         high. Target is kept inside.
/// Source: fractions are common practice, no source.
struct TorqueRange {
  bool is_estimate = true;
  bool feasible = true;   // false: least > greatest, the joint cannot be both tight enough and safe
  double least = 0.0;     // [N m]
  double target = 0.0;    // [N m]
  double greatest = 0.0;  // [N m]
  std::vector<DerivationStep> steps;
  Outcome outcome;
};
TorqueRange estimated_torque_range(const TorqueCase& torque_case);

}  // namespace shimwright::assembly
