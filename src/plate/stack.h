#pragma once
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/outcome.h"
#include "base/problem.h"
#include "base/terms.h"

namespace shimwright::plate {

/// Rectangular notches cut into a disc's rim (a bleed); all zero when the rim is plain.
struct RimNotches {
  int count = 0;       // notches around the rim
  double width = 0.0;  // along the rim [m]
  double depth = 0.0;  // inwards from the rim [m]

  bool operator==(const RimNotches&) const = default;
};

/// One flat annular disc. A bore larger than the clamp makes it a ring shim, which nothing clamps.
struct Disc {
  double outer_radius = 0.0;      // [m]
  double bore_radius = 0.0;       // [m]
  double thickness = 0.0;         // [m]
  double youngs_modulus = 206e9;  // [Pa]; the default is that of the reference cases
  double poisson_ratio = 0.3;     // [-]
  double yield_strength = 0.0;    // [Pa]; 0 when not known: no yield finding is made
  double fatigue_strength = 0.0;  // endurance amplitude at zero mean stress [Pa]; 0 when not known
  double ultimate_strength =
      0.0;  // [Pa]; 0 when not known: the mean stress is then set against the yield strength
  RimNotches notches;

  bool operator==(const Disc&) const = default;
};

/// What presses on the face disc: the pressure difference, uniform over the pocket, falling across the land.
struct Load {
  double inner_radius = 0.0;       // pocket [m]; the clamp radius where it is smaller
  double outer_radius = 0.0;       // pocket [m]
  double arc_fraction = 1.0;       // share of the circle that the pockets fill [-]
  double land_outer_radius = 0.0;  // end of the seat land [m]; 0 or the pocket's outer radius: no land

  bool operator==(const Load&) const = default;
};

/// The ring the face disc seals on.
struct Seat {
  bool present = true;  // false: `radius` is only where the lift is read
  double radius = 0.0;  // [m]
  double height =
      0.0;  // above the clamp plane [m]; positive preloads the stack, negative leaves an opening at rest

  bool operator==(const Seat&) const = default;
};

/// An unclamped stack: it slides on its collar against a light spring up to a stop, and bends on the way too.
struct Float {
  double travel = 0.0;        // [m]; 0 when the stack is clamped
  double spring_force = 0.0;  // at rest [N]
  double spring_rate = 0.0;   // [N/m]

  bool operator==(const Float&) const = default;
};

/// A coil spring on the back of the stack (a pop-off or high-speed adjuster).
struct BackSpring {
  bool present = false;
  double radius = 0.0;   // where it bears on the last disc there [m]
  double rate = 0.0;     // [N/m]
  double preload = 0.0;  // force at rest, when it already touches [N]
  double gap = 0.0;      // to the disc at rest [m]

  bool operator==(const BackSpring&) const = default;
};

/// A stack of discs on a valve face, as it is built. z points away from the piston.
///
/// Model:  axisymmetric elastic discs in frictionless one-sided contact; clamped discs pile up without gaps
/// and give
///         each other their heights; ring shims float in what the pile leaves.
/// Valid:  what `validate` finds no problem in.
struct Stack {
  std::vector<Disc> discs;     // the face disc first
  double clamp_radius = 0.0;   // edge of the boss: no lift, slope or radial travel inside it [m]
  double washer_radius = 0.0;  // edge of the clamp washer on the far side [m]; 0 when it is that of the boss
  bool clamp_slips =
      false;  // true: the clamp lets the discs slide radially (no friction), false: it holds them
  Load load;
  Seat seat;
  Float slide;
  BackSpring back_spring;

  bool operator==(const Stack&) const = default;
};

/// Everything that makes the stack one that cannot be solved; empty when there is nothing.
Problems validate(const Stack& stack);

struct Options {
  Theory theory = Theory::Large;
  bool shear_flexible = true;  // false: thin (Kirchhoff) plates
  bool von_karman =
      false;  // in Large: moderate rotations and a load that keeps its direction (the textbook theory)
  bool shapes = false;      // also give the shape of every disc at every pressure
  double tolerance = 1e-6;  // relative change of lift at which Newton stops
  double curve_tolerance =
      1e-3;            // of a LiftCurve: of the lift, or of a twentieth of the face disc where that is more
  int refinement = 1;  // radial points are this many times as dense as the default
  bool estimate_mesh_error = true;  // of a StackResult: costs one more pressure, on a finer mesh

  bool operator==(const Options&) const = default;
};

/// One place where two bodies touch.
struct Contact {
  int lower = 0;        // disc index; -1 is the seat or the boss
  int upper = 0;        // disc index; n_discs is the washer, n_discs + 1 the back spring
  double radius = 0.0;  // [m]
  double force = 0.0;   // around the whole circle, positive pressing [N]
};

struct DiscShape {
  std::vector<double> radius;  // [m]
  std::vector<double>
      deflection;  // of the mid-surface from where it is piled; for a ring, from its neighbour below [m]
  std::vector<double> slope;   // [rad]
  std::vector<double> stress;  // von Mises of the section stress, the worse surface [Pa]
};

struct DiscResult {
  double max_stress = 0.0;  // von Mises of membrane + bending, worse surface, largest over the disc [Pa]
  double max_stress_radius = 0.0;  // where [m]
  double rim_deflection = 0.0;     // [m]
  double force_share = 0.0;        // bending energy in this disc over that of all discs [-]
  bool carries_load = false;       // false: it could be left out at this pressure
  double fatigue_margin =
      0.0;                    // >= 1 lasts; load between zero and this pressure; 0 when no strength is known
  double yield_margin = 0.0;  // yield strength over max_stress; 0 when not known
};

/// How near the result is to where the theory ends. Ratios above 1 are beyond.
struct Limits {
  double rim_compression = 0.0;  // largest hoop compression at a rim, section mean [Pa]
  double buckling_ratio = 0.0;   // that over the estimate of what makes the rim wavy [-]
  int buckling_disc = -1;        // disc with the largest ratio; -1 when no rim is compressed
  double max_slope = 0.0;        // [rad]
  double slope_ratio = 0.0;      // that over the slope the theory is good for [-]
  double yield_ratio = 0.0;      // largest stress over its yield strength [-]; 0 when no strength is known
  int yield_disc = -1;           // disc with the largest ratio
};

struct StackPoint {
  double pressure = 0.0;      // difference across the stack [Pa]
  double lift_seat = 0.0;     // of the face disc over the seat at the seat radius, float included [m]
  double lift_rim = 0.0;      // of the face disc's rim over the seat plane, float included [m]
  double opening_area = 0.0;  // 2 pi r_seat arc_fraction lift_seat, never negative [m^2]
  double slope = 0.0;         // d lift_seat / d pressure [m/Pa]
  double float_travel = 0.0;  // used [m]
  double seat_force = 0.0;    // the seat's push on the face disc [N]
  double spring_force = 0.0;  // the back spring's push [N]
  double face_stress = 0.0;   // largest von Mises stress of the face disc [Pa]
  double max_stress = 0.0;    // of all discs [Pa]
  int worst_disc = -1;        // the disc of max_stress

  std::vector<DiscResult> discs;  // as in the stack
  std::vector<Contact>
      contacts;  // those that press; equal neighbours press each other everywhere and are left out
  std::vector<DiscShape> shapes;  // as in the stack; empty unless requested
  Limits limits;

  double mesh_error = 0.0;  // relative, of the lift or of a twentieth of the largest: this mesh against one
                            // twice as fine at the last pressure, and 3e-4 or more where bodies touch in more
                            // than one place; 1 when that one did not end; and what is left out where equal
                            // discs bend as one [-]
  double complementarity_error =
      0.0;  // worst of penetration, tension and gap x force, over the lift and the load [-]
  Outcome outcome;
};

struct StackResult {
  std::vector<StackPoint> points;  // as the pressures
  Outcome outcome;                 // the worst of all
};

/// Scratch memory of the solver; keep one per thread and hand it in again: results do not depend on what it
/// was used for before, the time does.
class Workspace {
 public:
  Workspace();
  ~Workspace();
  Workspace(Workspace&&) noexcept;
  Workspace& operator=(Workspace&&) noexcept;

  /// Keeps the last so many lift curves: one requested again, of the same stack to the same pressure, is not
  /// computed again. It is the same to the last bit. Without this call none are kept.
  void remember_curves(int most);

  struct Impl;
  Impl& impl() { return *impl_; }

 private:
  std::unique_ptr<Impl> impl_;
};

/// Lift, stress and contact of the stack at each pressure.
///
/// Model:  README.md of this module.
/// Shape:  one point for each pressure, in their order; pressures need not be sorted.
/// Units:  pressures are differences, >= 0 [Pa].
/// Valid:  stacks without problems (SW_CHECK). Points past a limit say OutOfRange. Those that were not solved
///         say Stalled and hold no numbers; where two in a row did not, those above are not tried.
/// Source: README.md.
/// Tested: plate_reference_test.cc, fe_stacks_test.cc, stack_property_test.cc
StackResult stack_response(const Stack& stack, std::span<const double> pressures, const Options& options,
                           Workspace& workspace);

struct Lift {
  double seat = 0.0;  // float included [m]
  double rim = 0.0;   // the same at the face's rim [m]
  Outcome outcome;
};

/// The lifts at the pressures as `stack_response` finds them, without the other results given there; 0 where
/// one stalled.
/// Shape:  as the pressures, in any order.
/// Tested: limits_test.cc
std::vector<Lift> stack_lifts(const Stack& stack, std::span<const double> pressures, const Options& options,
                              Workspace& workspace);

/// What happened at a breakpoint of the linear response.
enum class ContactChange { Closed, Opened };

/// What a breakpoint is to the two bodies of its contact.
enum class BreakpointKind {
  Pair,   // the first place where they press, or the last
  Edge,   // at the rim or bore of one of them, while they press elsewhere, too
  Zone,   // inside: a zone of contact appears, vanishes, parts or joins another
  Front,  // the edge of a zone creeps to the next contact point: a step of the mesh, not of the stack
};

struct Breakpoint {
  double pressure = 0.0;
  double lift_seat = 0.0;
  ContactChange change = ContactChange::Closed;
  BreakpointKind kind = BreakpointKind::Pair;
  Contact contact;          // where; its force is 0
  std::vector<int> starts;  // discs that begin to carry here
  std::vector<int> ceases;  // discs that cease to carry here
};

/// Whether a breakpoint is one of the stack whatever the mesh: two bodies meet or part, a rim or an edge
/// comes to press or to gape, a disc begins or ceases to carry. The others are steps of contact that moves
/// from point to point.
bool is_physical(const Breakpoint& breakpoint);

/// The linear response from zero to the last pressure, exactly.
struct LinearPath {
  std::vector<double> pressure;   // 0, every breakpoint, p_max; ascending [Pa]
  std::vector<double> lift_seat;  // at each [m]; straight in between
  std::vector<double> lift_rim;   // at each [m]
  std::vector<Breakpoint> breakpoints;
  // where the face disc leaves its seat [Pa]; 0 when it never touched; none: still shut at the last pressure
  std::optional<double> opening_pressure = 0.0;
  Outcome outcome;
};

/// Every breakpoint of the linear response found, not sampled.
///
/// Model:  linear theory; contact points as `stack_response` has them, so a contact zone that grows moves
/// from
///         point to point and each such step is a breakpoint (`is_physical` parts them). Changes within 1e-9
///         of the last pressure are one breakpoint. Stalled where the path does not arrive at the end solved
///         on its own.
/// Tested: lift_curve_test.cc, linear_path_test.cc, stack_shapes_test.cc
LinearPath linear_path(const Stack& stack, double p_max, const Options& options, Workspace& workspace);

/// How each disc matters at one pressure.
struct DiscInfluence {
  double lift_per_thickness = 0.0;  // d lift_seat / d thickness [m/m]; negative where thicker is stiffer
  double lift_without = 0.0;        // lift_seat when this disc is left out and the pile closes up [m]
  double force_share = 0.0;         // as in DiscResult at this pressure [-]
  bool could_be_left_out = false;   // the lift would stay the same within 0.1 %
};

struct GroupShare {
  int first_disc = 0;  // groups run between gap shims: discs first..last
  int last_disc = 0;
  double stiffness_share = 0.0;  // of the energy put in by the pressure from zero, what this group took [-]
};

struct StackInfluence {
  double lift_seat = 0.0;            // at the pressure [m]
  std::vector<DiscInfluence> discs;  // as in the stack
  std::vector<GroupShare> groups;
  Outcome outcome;
};

/// Sensitivity of the lift to discs at one pressure, by central differences of the solved response.
/// `of`: by disc, whether it is wanted; of the others `discs` has the force_share alone.
StackInfluence stack_influence(const Stack& stack, double pressure, const std::vector<bool>& of,
                               const Options& options, Workspace& workspace);

}  // namespace shimwright::plate
