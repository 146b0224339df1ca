#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/document_value.h"

namespace shimwright::job {

/// One disc of a stack where it lies at rest. Discs are numbered from 1, the face disc on the seat.
struct DiscDrawing {
  int number = 0;           // 1 = face disc
  int group = 0;            // index into StackGeometry::groups
  std::string label;        // "20 x 0.15 mm", in the units asked for
  double outer_radius = 0;  // [m]
  double bore_radius = 0;   // [m]
  double thickness = 0;     // [m]
  double height =
      0;  // of its underside over the clamp plane at rest (the underside of the face disc's pile is 0) [m]
  bool ring = false;    // nothing clamps it: it floats in the gap that the pile leaves
  bool carries = true;  // false: no contact force at any pressure computed
};

/// Equal neighbours, bracketed with their count.
struct DiscGroup {
  int count = 0;
  int first = 1;      // number of its first disc
  std::string label;  // "3 x 21 x 0.10 mm"
};

/// Everything a face needs to draw the stack on its seat, in section and to scale.
struct StackGeometry {
  std::vector<DiscDrawing> discs;  // face disc first
  std::vector<DiscGroup> groups;   // face first
  double height = 0;               // of the clamped pile [m]

  double clamp_radius = 0;  // of the washer that the discs bend over [m]
  double boss_radius = 0;   // of the raised face under the discs [m]
  double bore_radius = 0;   // of the discs, on the post [m]
  double seat_radius = 0;   // [m]
  double seat_height =
      0;  // of the seat over the clamp plane; positive preloads, negative leaves it open at rest [m]
  double pocket_inner_radius = 0;  // where the port's pressure begins to act [m]
  double pocket_outer_radius = 0;  // [m]
  double pocket_arc = 1;           // fraction of the circle that the ports fill
  double land_outer_radius = 0;    // of the seat's face; the seat radius for a sharp edge [m]
  bool seat_supports = true;       // false: nothing under the disc, the seat is only where lift is read
  double float_travel = 0;         // free slide before it bends; 0 = clamped [m]
};

/// A force carried between two neighbours at one radius.
struct ContactForce {
  int lower = 0;      // disc number below; 0 = the seat
  int upper = 0;      // disc number above; number of discs + 1 = the clamp washer or stop
  double radius = 0;  // [m]
  double force = 0;   // around the whole circle [N]
};

/// The stress of one disc at one pressure.
struct DiscStress {
  int number = 0;
  double stress = 0;                     // largest equivalent stress [Pa]
  double radius = 0;                     // where [m]
  std::optional<double> yield_margin;    // strength over stress; empty when no strength is stated
  std::optional<double> fatigue_margin;  // permissible over present, by the rule named in StackResult
  double share = 0;                      // of the bending energy of all discs
};

/// The stack at one asked pressure.
struct StackPoint {
  double pressure = 0;            // drop over the face disc [Pa]
  double float_used = 0;          // slide on the collar before bending [m]
  double lift_at_seat = 0;        // underside of the face disc over the seat plane at the seat [m]
  double lift_at_rim = 0;         // the same at the face disc's outer edge [m]
  double opening_area = 0;        // of the curtain at the seat, arc fraction included [m2]
  double face_stress = 0;         // highest in the face disc [Pa]
  double highest_stress = 0;      // highest in any disc [Pa]
  int worst_disc = 0;             // that has it
  std::vector<DiscStress> discs;  // face first
  std::vector<ContactForce> contacts;
  double largest_slope = 0;    // [rad]
  double slope_ratio = 0;      // that over the slope the theory is good for
  double rim_compression = 0;  // largest hoop compression at a rim, mean over the thickness [Pa]
  double buckling_ratio = 0;   // rim compression over the estimate of what makes the rim wavy
  int buckling_disc = 0;       // with that ratio; 0: no rim is compressed
  double mesh_error = 0;       // relative, of the lift
  double iteration_error = 0;  // relative: what the last iteration moved, or contact_error if that is more
  double contact_error = 0;    // worst of penetration, tension and gap x force, over the lift and the load
  Outcome outcome;
};

/// The bent shape of one disc: height of its underside over the clamp plane at each radius.
struct DiscShape {
  int number = 0;
  std::vector<double> radius;  // ascending [m]
  std::vector<double> height;  // [m] (as radius)
  std::vector<double>
      stress;  // largest equivalent stress over the two faces [Pa] (as radius); empty when not asked
};

/// All discs at one pressure, for drawing.
struct StackShape {
  std::string name;     // "closed", "working", "most"
  double pressure = 0;  // [Pa]
  std::vector<DiscShape> discs;
};

/// Where the line of lift over pressure bends: a contact opens or closes.
struct PathBreak {
  double pressure = 0;      // [Pa]
  double lift_at_seat = 0;  // [m]
  bool closes = true;       // false: the contact opens
  int lower = 0;            // disc number below; 0 = the seat
  int upper = 0;            // disc number above; number of discs + 1 = the clamp washer or stop
  double radius = 0;        // of the contact [m]
  bool physical = true;     // false: contact that creeps on from one point of the mesh to the next
  std::string what;         // "discs 4 and 5 touch; disc 5 begins to carry"
};

/// A smooth line of lift over pressure, for plotting.
struct LiftLine {
  std::vector<double> pressure;      // ascending [Pa]
  std::vector<double> lift_at_seat;  // [m] (as pressure)
  std::vector<double> lift_at_rim;   // [m] (as pressure)
};

/// What one disc does at the pressure of StackInfluence.
struct DiscInfluence {
  int number = 0;
  double lift_per_thickness = 0;       // change of lift over change of this disc's thickness [m/m]
  std::optional<double> lift_without;  // left out, the pile closed up [m]; empty: what is left is no stack
  bool could_be_left_out = false;      // the lift would stay the same within 0.1 %
};

/// What a bracket of equal shims does: as a technician changes them, all by the same.
struct GroupInfluence {
  int group = 0;                       // index into StackGeometry::groups
  double stiffness_share = 0;          // of the work the pressure has put into the discs
  std::optional<double> lift_thicker;  // with each shim of it thicker by StackInfluence::thicker_by [m]
  std::optional<double> change;        // of the lift by that, relative; negative: lifts less
};

/// The discs from one gap shim to the next: the stages in which a stack comes to bear.
struct StageShare {
  int first_disc = 1;
  int last_disc = 1;
  double stiffness_share = 0;  // of the work the pressure has put into the discs
};

/// How much each disc matters, at one pressure.
struct StackInfluence {
  double pressure = 0;                 // the working state of `shapes` [Pa]
  double lift_at_seat = 0;             // [m]
  double thicker_by = 0;               // [m]
  std::vector<DiscInfluence> discs;    // face first; the idle ones alone where no details were asked for
  std::vector<GroupInfluence> groups;  // as StackGeometry::groups
  std::vector<StageShare> stages;      // face first
  std::vector<std::string> sentences;  // as a technician reads it, the most sensitive group first
  Outcome outcome;
};

/// One stack: what it is and how it answers pressure.
struct StackResult {
  std::string name;  // "fork leg, piston valve, compression"
  Theory theory = Theory::Large;
  StackGeometry geometry;

  double opening_pressure = 0;     // at which the seat first lets go (0: no preload) [Pa]
  std::vector<StackPoint> points;  // at the asked pressures, ascending
  bool pressures_assumed =
      false;  // nobody asked for these pressures and no speed gives them: strength is not judged
  std::vector<StackShape> shapes;  // three states: closed, working, most
  LiftLine line;
  std::vector<PathBreak> path;  // of the linear theory, from zero up

  int worst_disc = 0;                       // at the highest pressure computed
  std::optional<double> yield_margin;       // of the worst disc there
  std::optional<double> fatigue_margin;     // of the worst disc there
  std::string fatigue_rule;                 // in words, with its source
  std::vector<int> idle_discs;              // carry nothing at any pressure computed
  std::optional<StackInfluence> influence;  // empty: the stack does not bend at its working pressure
  double largest_slope = 0;                 // at the highest pressure computed [rad]
  Outcome outcome;                          // the worst of all points
};

}  // namespace shimwright::job
