#include "document/document_describe_list.h"
#include "document/document_stack.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<DiscDrawing>() {
  static constexpr FieldInfo fields[] = {
      field<&DiscDrawing::number>("number", "Number of the disc; 1 is the face disc."),
      field<&DiscDrawing::group>("group", "Index of its group in `geometry.groups`."),
      field<&DiscDrawing::label>("label", "For example \"20 x 0.15 mm\", in the units asked for."),
      field<&DiscDrawing::outer_radius>("outer_radius", Kind::Length, "Outer radius."),
      field<&DiscDrawing::bore_radius>("bore_radius", Kind::Length, "Radius of the bore."),
      field<&DiscDrawing::thickness>("thickness", Kind::Length, "Thickness."),
      field<&DiscDrawing::height>("height", Kind::Length,
                                  "Height of its underside over the clamp plane at rest; the underside of "
                                  "the face disc's pile is 0."),
      field<&DiscDrawing::ring>("ring", "Nothing clamps it: it floats in the gap that the pile leaves."),
      field<&DiscDrawing::carries>("carries", "False: it takes no contact force at any pressure computed."),
  };
  static constexpr auto info = structure<DiscDrawing>(
      "DiscDrawing",
      "One disc of a stack as it lies at rest. Discs are numbered from 1, the face disc on the seat.",
      fields);
  return info;
}

template <>
const StructInfo& describe<DiscGroup>() {
  static constexpr FieldInfo fields[] = {
      field<&DiscGroup::count>("count", "How many discs."),
      field<&DiscGroup::first>("first", "Number of the first disc of the group."),
      field<&DiscGroup::label>("label", "For example \"3 x 21 x 0.10 mm\"."),
  };
  static constexpr auto info =
      structure<DiscGroup>("DiscGroup", "Equal neighbours, bracketed with their count.", fields);
  return info;
}

template <>
const StructInfo& describe<StackGeometry>() {
  static constexpr FieldInfo fields[] = {
      field<&StackGeometry::discs>("discs", "All discs, face disc first."),
      field<&StackGeometry::groups>("groups", "Groups of equal discs, face first."),
      field<&StackGeometry::height>("height", Kind::Length, "Height of the clamped pile."),
      field<&StackGeometry::clamp_radius>("clamp_radius", Kind::Length,
                                          "Radius of the washer that the discs bend over."),
      field<&StackGeometry::boss_radius>("boss_radius", Kind::Length,
                                         "Radius of the raised face under the discs."),
      field<&StackGeometry::bore_radius>("bore_radius", Kind::Length,
                                         "Radius of the discs' bore, on the post."),
      field<&StackGeometry::seat_radius>("seat_radius", Kind::Length, "Radius of the seat."),
      field<&StackGeometry::seat_height>("seat_height", Kind::Length,
                                         "Height of the seat over the clamp plane; positive preloads the "
                                         "stack, negative leaves it open at rest."),
      field<&StackGeometry::pocket_inner_radius>("pocket_inner_radius", Kind::Length,
                                                 "Where the port's pressure begins to act."),
      field<&StackGeometry::pocket_outer_radius>("pocket_outer_radius", Kind::Length,
                                                 "Where the port's pressure ends to act."),
      field<&StackGeometry::pocket_arc>("pocket_arc", Kind::Fraction,
                                        "Part of the circle that the ports fill."),
      field<&StackGeometry::land_outer_radius>(
          "land_outer_radius", Kind::Length,
          "Outer radius of the seat's face; the seat radius for a sharp edge."),
      field<&StackGeometry::seat_supports>(
          "seat_supports", "False: nothing lies under the disc, and the seat is only where lift is read."),
      field<&StackGeometry::float_travel>("float_travel", Kind::Length,
                                          "Free slide before the stack bends; 0: clamped."),
  };
  static constexpr auto info = structure<StackGeometry>(
      "StackGeometry", "Everything that a drawing of the stack on its seat needs, in section and to scale.",
      fields);
  return info;
}

template <>
const StructInfo& describe<ContactForce>() {
  static constexpr FieldInfo fields[] = {
      field<&ContactForce::lower>("lower", "Number of the disc below; 0 is the seat."),
      field<&ContactForce::upper>(
          "upper",
          "Number of the disc above; one more than the number of discs is the clamp washer or the stop."),
      field<&ContactForce::radius>("radius", Kind::Length, "Radius where they touch."),
      field<&ContactForce::force>("force", Kind::Force, "Force around the whole circle."),
  };
  static constexpr auto info =
      structure<ContactForce>("ContactForce", "A force between two neighbours at one radius.", fields);
  return info;
}

template <>
const StructInfo& describe<DiscStress>() {
  static constexpr FieldInfo fields[] = {
      field<&DiscStress::number>("number", "Number of the disc."),
      field<&DiscStress::stress>("stress", Kind::Stress, "Largest equivalent stress."),
      field<&DiscStress::radius>("radius", Kind::Length, "Where that stress is."),
      field<&DiscStress::yield_margin>("yield_margin", Kind::Number,
                                       "Strength over stress; absent when no strength is stated."),
      field<&DiscStress::fatigue_margin>("fatigue_margin", Kind::Number,
                                         "Permitted over present stress, by the fatigue rule of the stack."),
      field<&DiscStress::share>("share", Kind::Fraction, "Its share of the bending energy of all discs."),
  };
  static constexpr auto info =
      structure<DiscStress>("DiscStress", "The stress of one disc at one pressure.", fields);
  return info;
}

template <>
const StructInfo& describe<StackPoint>() {
  static constexpr FieldInfo fields[] = {
      field<&StackPoint::pressure>("pressure", Kind::PressureDifference, "Pressure drop over the face disc."),
      field<&StackPoint::float_used>("float_used", Kind::Length,
                                     "Slide on the collar before the stack bends."),
      field<&StackPoint::lift_at_seat>("lift_at_seat", Kind::Length,
                                       "Height of the face disc's underside over the seat, at the seat."),
      field<&StackPoint::lift_at_rim>("lift_at_rim", Kind::Length,
                                      "The same at the outer edge of the face disc."),
      field<&StackPoint::opening_area>("opening_area", Kind::Area,
                                       "Open area between disc and seat, counted over the arc of the ports."),
      field<&StackPoint::face_stress>("face_stress", Kind::Stress, "Highest stress in the face disc."),
      field<&StackPoint::highest_stress>("highest_stress", Kind::Stress, "Highest stress in any disc."),
      field<&StackPoint::worst_disc>("worst_disc", "Number of the disc with the highest stress."),
      field<&StackPoint::discs>("discs", "Stress of each disc, face first."),
      field<&StackPoint::contacts>("contacts", "Who presses on whom."),
      field<&StackPoint::largest_slope>("largest_slope", Kind::Angle, "Largest slope of any disc."),
      field<&StackPoint::slope_ratio>("slope_ratio", Kind::Number,
                                      "That slope over the slope that the theory is good for."),
      field<&StackPoint::rim_compression>("rim_compression", Kind::Stress,
                                          "Largest hoop compression at a rim, mean over the thickness."),
      field<&StackPoint::buckling_ratio>("buckling_ratio", Kind::Number,
                                         "Rim compression over the estimate of what makes the rim wavy."),
      field<&StackPoint::buckling_disc>("buckling_disc",
                                        "Number of the disc with that ratio; 0: no rim is compressed."),
      field<&StackPoint::mesh_error>("mesh_error", Kind::Fraction,
                                     "Error of the lift from the mesh, relative."),
      field<&StackPoint::iteration_error>(
          "iteration_error", Kind::Fraction,
          "What the last iteration moved of the lift, relative, or `contact_error` if that is more."),
      field<&StackPoint::contact_error>(
          "contact_error", Kind::Fraction,
          "Worst of penetration, tension and gap times force, over the lift and the load."),
      field<&StackPoint::outcome>("outcome", "How the solution ended."),
  };
  static constexpr auto info = structure<StackPoint>("StackPoint", "The stack at one pressure.", fields);
  return info;
}

template <>
const StructInfo& describe<DiscShape>() {
  static constexpr FieldInfo fields[] = {
      field<&DiscShape::number>("number", "Number of the disc."),
      field<&DiscShape::radius>("radius", Kind::Length, "Radii, ascending."),
      field<&DiscShape::height>("height", Kind::Length,
                                "Height of the underside over the clamp plane at each radius."),
      field<&DiscShape::stress>(
          "stress", Kind::Stress,
          "Largest equivalent stress of the two faces at each radius; empty when not asked for."),
  };
  static constexpr auto info = structure<DiscShape>("DiscShape", "The bent shape of one disc.", fields);
  return info;
}

template <>
const StructInfo& describe<StackShape>() {
  static constexpr FieldInfo fields[] = {
      field<&StackShape::name>("name", "\"closed\", \"working\" or \"most\"."),
      field<&StackShape::pressure>("pressure", Kind::PressureDifference, "Pressure drop over the face disc."),
      field<&StackShape::discs>("discs", "The shape of each disc."),
  };
  static constexpr auto info =
      structure<StackShape>("StackShape", "All discs at one pressure, for drawing.", fields);
  return info;
}

template <>
const StructInfo& describe<PathBreak>() {
  static constexpr FieldInfo fields[] = {
      field<&PathBreak::pressure>("pressure", Kind::PressureDifference, "Pressure at which it happens."),
      field<&PathBreak::lift_at_seat>("lift_at_seat", Kind::Length, "Lift at that pressure."),
      field<&PathBreak::closes>("closes", "False: the contact opens."),
      field<&PathBreak::lower>("lower", "Number of the disc below; 0 is the seat."),
      field<&PathBreak::upper>(
          "upper",
          "Number of the disc above; one more than the number of discs is the clamp washer or the stop."),
      field<&PathBreak::radius>("radius", Kind::Length, "Radius of the contact."),
      field<&PathBreak::physical>(
          "physical", "False: the contact only creeps on from one point of the mesh to the next."),
      field<&PathBreak::what>("what", "For example \"discs 4 and 5 touch; disc 5 begins to carry\"."),
  };
  static constexpr auto info = structure<PathBreak>(
      "PathBreak", "Where the line of lift over pressure bends: a contact opens or closes.", fields);
  return info;
}

template <>
const StructInfo& describe<LiftLine>() {
  static constexpr FieldInfo fields[] = {
      field<&LiftLine::pressure>("pressure", Kind::PressureDifference, "Pressures, ascending."),
      field<&LiftLine::lift_at_seat>("lift_at_seat", Kind::Length, "Lift at the seat at each pressure."),
      field<&LiftLine::lift_at_rim>("lift_at_rim", Kind::Length, "Lift at the rim at each pressure."),
  };
  static constexpr auto info =
      structure<LiftLine>("LiftLine", "A smooth line of lift over pressure, for a plot.", fields);
  return info;
}

template <>
const StructInfo& describe<DiscInfluence>() {
  static constexpr FieldInfo fields[] = {
      field<&DiscInfluence::number>("number", "Number of the disc."),
      field<&DiscInfluence::lift_per_thickness>(
          "lift_per_thickness", Kind::Number,
          "Change of lift over change of this disc's thickness; negative: thicker lifts less."),
      field<&DiscInfluence::lift_without>(
          "lift_without", Kind::Length,
          "Lift with the disc left out and the pile closed up; absent: what is left is no stack."),
      field<&DiscInfluence::could_be_left_out>("could_be_left_out",
                                               "Without it the lift stays the same within 0.1 %."),
  };
  static constexpr auto info = structure<DiscInfluence>(
      "DiscInfluence", "What one disc does at the pressure of its StackInfluence.", fields);
  return info;
}

template <>
const StructInfo& describe<GroupInfluence>() {
  static constexpr FieldInfo fields[] = {
      field<&GroupInfluence::group>("group", "Index of the group in `geometry.groups`."),
      field<&GroupInfluence::stiffness_share>("stiffness_share", Kind::Fraction,
                                              "Its share of the work that the pressure put into the discs."),
      field<&GroupInfluence::lift_thicker>("lift_thicker", Kind::Length,
                                           "Lift with each shim of the group thicker by `thicker_by`; "
                                           "absent: that stack could not be solved."),
      field<&GroupInfluence::change>("change", Kind::Fraction,
                                     "Change of the lift by that, relative; negative: lifts less."),
  };
  static constexpr auto info = structure<GroupInfluence>(
      "GroupInfluence", "What a group of equal shims does when all of them change alike.", fields);
  return info;
}

template <>
const StructInfo& describe<StageShare>() {
  static constexpr FieldInfo fields[] = {
      field<&StageShare::first_disc>("first_disc", "Number of the first disc."),
      field<&StageShare::last_disc>(
          "last_disc", "Number of the last disc; the gap shim itself goes with the stage it ends."),
      field<&StageShare::stiffness_share>("stiffness_share", Kind::Fraction,
                                          "Its share of the work that the pressure put into the discs."),
  };
  static constexpr auto info = structure<StageShare>(
      "StageShare", "The discs from one gap shim to the next: the stages in which a stack comes into play.",
      fields);
  return info;
}

template <>
const StructInfo& describe<StackInfluence>() {
  static constexpr FieldInfo fields[] = {
      field<&StackInfluence::pressure>("pressure", Kind::PressureDifference,
                                       "Pressure of the working state in `shapes`."),
      field<&StackInfluence::lift_at_seat>("lift_at_seat", Kind::Length, "Lift at that pressure."),
      field<&StackInfluence::thicker_by>("thicker_by", Kind::Length,
                                         "How much thicker each group is tried: 0.01 mm."),
      field<&StackInfluence::discs>("discs", "Face first; only the idle ones in what the page holds."),
      field<&StackInfluence::groups>("groups", "In the order of `geometry.groups`."),
      field<&StackInfluence::stages>("stages", "Face first."),
      field<&StackInfluence::sentences>("sentences",
                                        "As a technician reads it, the most sensitive group first: \"0.01 mm "
                                        "more on each of the three 24 x 0.15 mm shims: lift -9 %\"."),
      field<&StackInfluence::outcome>("outcome", "How the solutions ended."),
  };
  static constexpr auto info = structure<StackInfluence>(
      "StackInfluence",
      "How much each disc matters at one pressure. Each change is solved anew, not extrapolated.", fields);
  return info;
}

template <>
const StructInfo& describe<StackRelief>() {
  static constexpr FieldInfo fields[] = {
      field<&StackRelief::first_disc>("first_disc", "First of the equal discs that go."),
      field<&StackRelief::last_disc>("last_disc", "Last of them."),
      field<&StackRelief::count>("count", "How many thinner discs come in their place."),
      field<&StackRelief::thickness>("thickness", Kind::Length, "Thickness of each of them."),
      field<&StackRelief::drop>("drop", Kind::PressureDifference, "Drop at which the margins are the least."),
      field<&StackRelief::yield_margin>("yield_margin", kNoUnit,
                                        "Least margin of the changed stack to yield there."),
      field<&StackRelief::fatigue_margin>("fatigue_margin", kNoUnit,
                                          "Least margin of the changed stack to the fatigue limit there."),
  };
  static constexpr auto info = structure<StackRelief>(
      "StackRelief", "Thinner discs, together at least as stiff, that bear less stress at the same drop.",
      fields);
  return info;
}

template <>
const StructInfo& describe<StackResult>() {
  static constexpr FieldInfo fields[] = {
      field<&StackResult::name>("name", "For example \"fork leg, piston valve, compression\"."),
      field<&StackResult::theory>("theory", "Plate theory that it was computed with."),
      field<&StackResult::geometry>("geometry", "What a drawing needs."),
      field<&StackResult::opening_pressure>(
          "opening_pressure", Kind::PressureDifference,
          "Pressure at which the stack first leaves its seat; 0: no preload; absent: shut at every pressure "
          "computed."),
      field<&StackResult::points>("points", "The stack at the asked pressures, ascending."),
      field<&StackResult::unsolved>("unsolved", Kind::PressureDifference,
                                    "Asked pressures at which the stack could not be solved: no point has "
                                    "them."),
      field<&StackResult::pressures_assumed>(
          "pressures_assumed",
          "Nobody asked for these pressures and no speed gives them: strength is not judged."),
      field<&StackResult::shapes>("shapes",
                                  "Three states: closed, working, most, where they could be solved; empty in "
                                  "what the page holds."),
      field<&StackResult::line>("line", "Lift over pressure; empty in what the page holds."),
      field<&StackResult::path>("path",
                                "Where contacts open and close by the linear theory, from zero pressure up."),
      field<&StackResult::worst_disc>(
          "worst_disc", "Number of the disc with the highest stress at the highest pressure computed."),
      field<&StackResult::yield_margin>("yield_margin", Kind::Number,
                                        "Strength over stress of that disc there."),
      field<&StackResult::fatigue_margin>("fatigue_margin", Kind::Number,
                                          "Permitted over present stress of that disc there."),
      field<&StackResult::fatigue_rule>("fatigue_rule", "The fatigue rule in words, with its source."),
      field<&StackResult::idle_discs>("idle_discs",
                                      "Numbers of the discs that carry nothing at any pressure computed."),
      field<&StackResult::influence>(
          "influence",
          "How much each disc matters; absent: the stack does not bend at its working pressure, or has more "
          "than 24 groups."),
      field<&StackResult::relief>(
          "relief",
          "What lowers the stress where a margin is too small; absent: it is not, or nothing "
          "in reach does."),
      field<&StackResult::largest_slope>("largest_slope", Kind::Angle,
                                         "Largest slope at the highest pressure computed."),
      field<&StackResult::outcome>("outcome", "The worst of all points."),
      field<&StackResult::plots>("plots", "Lift over pressure."),
  };
  static constexpr auto info =
      structure<StackResult>("StackResult", "One stack: what it is and how it answers pressure.", fields);
  return info;
}

}  // namespace shimwright::document
