#pragma once
#include <tuple>

#include "job/document.h"

namespace shimwright::job::internal {

/// One member of a document struct and its name in JSON.
template <typename Struct, typename Member>
struct Field {
  const char* name;
  Member Struct::* member;
};

template <typename Struct, typename Member>
constexpr Field<Struct, Member> field(const char* name, Member Struct::* member) {
  return {name, member};
}

/// The members of each document struct in the order of its header: the one list that the writer, the reader
/// and the check for numbers that are none go by. document_json.cc does not compile when a member is left
/// out.
template <typename Struct>
struct Fields;

template <>
struct Fields<Outcome> {
  static constexpr auto list =
      std::make_tuple(field("status", &Outcome::status), field("iterations", &Outcome::iterations),
                      field("residual", &Outcome::residual), field("note", &Outcome::note));
};

template <>
struct Fields<Value> {
  static constexpr auto list = std::make_tuple(
      field("si", &Value::si), field("kind", &Value::kind), field("reference", &Value::reference),
      field("counted", &Value::counted), field("typed", &Value::typed));
};

template <>
struct Fields<NamedValue> {
  static constexpr auto list =
      std::make_tuple(field("name", &NamedValue::name), field("value", &NamedValue::value));
};

template <>
struct Fields<Place> {
  static constexpr auto list = std::make_tuple(field("unit", &Place::unit), field("valve", &Place::valve),
                                               field("stroke", &Place::stroke), field("path", &Place::path),
                                               field("file", &Place::file), field("line", &Place::line));
};

template <>
struct Fields<Finding> {
  static constexpr auto list = std::make_tuple(
      field("code", &Finding::code), field("severity", &Finding::severity), field("place", &Finding::place),
      field("title", &Finding::title), field("numbers", &Finding::numbers), field("rule", &Finding::rule),
      field("source", &Finding::source), field("remedy", &Finding::remedy));
};

template <>
struct Fields<DiscDrawing> {
  static constexpr auto list =
      std::make_tuple(field("number", &DiscDrawing::number), field("group", &DiscDrawing::group),
                      field("label", &DiscDrawing::label), field("outer_radius", &DiscDrawing::outer_radius),
                      field("bore_radius", &DiscDrawing::bore_radius),
                      field("thickness", &DiscDrawing::thickness), field("height", &DiscDrawing::height),
                      field("ring", &DiscDrawing::ring), field("carries", &DiscDrawing::carries));
};

template <>
struct Fields<DiscGroup> {
  static constexpr auto list =
      std::make_tuple(field("count", &DiscGroup::count), field("first", &DiscGroup::first),
                      field("label", &DiscGroup::label));
};

template <>
struct Fields<StackGeometry> {
  static constexpr auto list = std::make_tuple(
      field("discs", &StackGeometry::discs), field("groups", &StackGeometry::groups),
      field("height", &StackGeometry::height), field("clamp_radius", &StackGeometry::clamp_radius),
      field("boss_radius", &StackGeometry::boss_radius), field("bore_radius", &StackGeometry::bore_radius),
      field("seat_radius", &StackGeometry::seat_radius), field("seat_height", &StackGeometry::seat_height),
      field("pocket_inner_radius", &StackGeometry::pocket_inner_radius),
      field("pocket_outer_radius", &StackGeometry::pocket_outer_radius),
      field("pocket_arc", &StackGeometry::pocket_arc),
      field("land_outer_radius", &StackGeometry::land_outer_radius),
      field("seat_supports", &StackGeometry::seat_supports),
      field("float_travel", &StackGeometry::float_travel));
};

template <>
struct Fields<ContactForce> {
  static constexpr auto list =
      std::make_tuple(field("lower", &ContactForce::lower), field("upper", &ContactForce::upper),
                      field("radius", &ContactForce::radius), field("force", &ContactForce::force));
};

template <>
struct Fields<DiscStress> {
  static constexpr auto list = std::make_tuple(
      field("number", &DiscStress::number), field("stress", &DiscStress::stress),
      field("radius", &DiscStress::radius), field("yield_margin", &DiscStress::yield_margin),
      field("fatigue_margin", &DiscStress::fatigue_margin), field("share", &DiscStress::share));
};

template <>
struct Fields<StackPoint> {
  static constexpr auto list = std::make_tuple(
      field("pressure", &StackPoint::pressure), field("float_used", &StackPoint::float_used),
      field("lift_at_seat", &StackPoint::lift_at_seat), field("lift_at_rim", &StackPoint::lift_at_rim),
      field("opening_area", &StackPoint::opening_area), field("face_stress", &StackPoint::face_stress),
      field("highest_stress", &StackPoint::highest_stress), field("worst_disc", &StackPoint::worst_disc),
      field("discs", &StackPoint::discs), field("contacts", &StackPoint::contacts),
      field("largest_slope", &StackPoint::largest_slope), field("slope_ratio", &StackPoint::slope_ratio),
      field("rim_compression", &StackPoint::rim_compression),
      field("buckling_ratio", &StackPoint::buckling_ratio),
      field("buckling_disc", &StackPoint::buckling_disc), field("mesh_error", &StackPoint::mesh_error),
      field("iteration_error", &StackPoint::iteration_error),
      field("contact_error", &StackPoint::contact_error), field("outcome", &StackPoint::outcome));
};

template <>
struct Fields<DiscShape> {
  static constexpr auto list =
      std::make_tuple(field("number", &DiscShape::number), field("radius", &DiscShape::radius),
                      field("height", &DiscShape::height), field("stress", &DiscShape::stress));
};

template <>
struct Fields<StackShape> {
  static constexpr auto list =
      std::make_tuple(field("name", &StackShape::name), field("pressure", &StackShape::pressure),
                      field("discs", &StackShape::discs));
};

template <>
struct Fields<PathBreak> {
  static constexpr auto list = std::make_tuple(
      field("pressure", &PathBreak::pressure), field("lift_at_seat", &PathBreak::lift_at_seat),
      field("closes", &PathBreak::closes), field("lower", &PathBreak::lower),
      field("upper", &PathBreak::upper), field("radius", &PathBreak::radius),
      field("physical", &PathBreak::physical), field("what", &PathBreak::what));
};

template <>
struct Fields<LiftLine> {
  static constexpr auto list =
      std::make_tuple(field("pressure", &LiftLine::pressure), field("lift_at_seat", &LiftLine::lift_at_seat),
                      field("lift_at_rim", &LiftLine::lift_at_rim));
};

template <>
struct Fields<DiscInfluence> {
  static constexpr auto list =
      std::make_tuple(field("number", &DiscInfluence::number),
                      field("lift_per_thickness", &DiscInfluence::lift_per_thickness),
                      field("lift_without", &DiscInfluence::lift_without),
                      field("could_be_left_out", &DiscInfluence::could_be_left_out));
};

template <>
struct Fields<GroupInfluence> {
  static constexpr auto list = std::make_tuple(
      field("group", &GroupInfluence::group), field("stiffness_share", &GroupInfluence::stiffness_share),
      field("lift_thicker", &GroupInfluence::lift_thicker), field("change", &GroupInfluence::change));
};

template <>
struct Fields<StageShare> {
  static constexpr auto list = std::make_tuple(field("first_disc", &StageShare::first_disc),
                                               field("last_disc", &StageShare::last_disc),
                                               field("stiffness_share", &StageShare::stiffness_share));
};

template <>
struct Fields<StackInfluence> {
  static constexpr auto list = std::make_tuple(
      field("pressure", &StackInfluence::pressure), field("lift_at_seat", &StackInfluence::lift_at_seat),
      field("thicker_by", &StackInfluence::thicker_by), field("discs", &StackInfluence::discs),
      field("groups", &StackInfluence::groups), field("stages", &StackInfluence::stages),
      field("sentences", &StackInfluence::sentences), field("outcome", &StackInfluence::outcome));
};

template <>
struct Fields<StackResult> {
  static constexpr auto list = std::make_tuple(
      field("name", &StackResult::name), field("theory", &StackResult::theory),
      field("geometry", &StackResult::geometry), field("opening_pressure", &StackResult::opening_pressure),
      field("points", &StackResult::points), field("pressures_assumed", &StackResult::pressures_assumed),
      field("shapes", &StackResult::shapes), field("line", &StackResult::line),
      field("path", &StackResult::path), field("worst_disc", &StackResult::worst_disc),
      field("yield_margin", &StackResult::yield_margin),
      field("fatigue_margin", &StackResult::fatigue_margin),
      field("fatigue_rule", &StackResult::fatigue_rule), field("idle_discs", &StackResult::idle_discs),
      field("influence", &StackResult::influence), field("largest_slope", &StackResult::largest_slope),
      field("outcome", &StackResult::outcome));
};

template <>
struct Fields<LedgerLine> {
  static constexpr auto list =
      std::make_tuple(field("name", &LedgerLine::name), field("shape", &LedgerLine::shape),
                      field("count", &LedgerLine::count), field("height", &LedgerLine::height),
                      field("tolerance", &LedgerLine::tolerance), field("measured", &LedgerLine::measured),
                      field("typed", &LedgerLine::typed), field("from", &LedgerLine::from),
                      field("to", &LedgerLine::to), field("outer_radius", &LedgerLine::outer_radius));
};

template <>
struct Fields<SpacerLine> {
  static constexpr auto list =
      std::make_tuple(field("name", &SpacerLine::name), field("thickness", &SpacerLine::thickness),
                      field("in_hand", &SpacerLine::in_hand), field("used", &SpacerLine::used),
                      field("written", &SpacerLine::written));
};

template <>
struct Fields<ThreadResult> {
  static constexpr auto list = std::make_tuple(
      field("designation", &ThreadResult::designation), field("pitch", &ThreadResult::pitch),
      field("post_length", &ThreadResult::post_length), field("thread_start", &ThreadResult::thread_start),
      field("stack_height", &ThreadResult::stack_height),
      field("stack_tolerance", &ThreadResult::stack_tolerance),
      field("nut_height", &ThreadResult::nut_height), field("engaged_turns", &ThreadResult::engaged_turns),
      field("nut_turns", &ThreadResult::nut_turns), field("least_turns", &ThreadResult::least_turns),
      field("protrusion", &ThreadResult::protrusion), field("unthreaded_gap", &ThreadResult::unthreaded_gap));
};

template <>
struct Fields<PostFlag> {
  static constexpr auto list =
      std::make_tuple(field("kind", &PostFlag::kind), field("what", &PostFlag::what),
                      field("sure", &PostFlag::sure), field("serious", &PostFlag::serious),
                      field("value", &PostFlag::value), field("limit", &PostFlag::limit));
};

template <>
struct Fields<TorqueResult> {
  static constexpr auto list = std::make_tuple(
      field("asked", &TorqueResult::asked), field("on_the_thread", &TorqueResult::on_the_thread),
      field("friction_low", &TorqueResult::friction_low),
      field("friction_high", &TorqueResult::friction_high), field("preload_low", &TorqueResult::preload_low),
      field("preload_high", &TorqueResult::preload_high), field("post_stress", &TorqueResult::post_stress),
      field("stretch_margin", &TorqueResult::stretch_margin),
      field("strip_margin", &TorqueResult::strip_margin), field("range_low", &TorqueResult::range_low),
      field("range_high", &TorqueResult::range_high), field("limit", &TorqueResult::limit),
      field("estimate", &TorqueResult::estimate), field("derivation", &TorqueResult::derivation),
      field("derivation_steps", &TorqueResult::derivation_steps),
      field("torque_source", &TorqueResult::torque_source), field("gives_way", &TorqueResult::gives_way),
      field("verdict", &TorqueResult::verdict), field("slip_torque", &TorqueResult::slip_torque),
      field("too_low", &TorqueResult::too_low), field("tight", &TorqueResult::tight),
      field("refused", &TorqueResult::refused));
};

template <>
struct Fields<DirectionNote> {
  static constexpr auto list = std::make_tuple(
      field("part", &DirectionNote::part), field("words", &DirectionNote::words),
      field("how_to_tell", &DirectionNote::how_to_tell), field("if_reversed", &DirectionNote::if_reversed),
      field("drawing", &DirectionNote::drawing));
};

template <>
struct Fields<PostResult> {
  static constexpr auto list = std::make_tuple(
      field("name", &PostResult::name), field("ledger", &PostResult::ledger),
      field("bore_radius", &PostResult::bore_radius), field("major_radius", &PostResult::major_radius),
      field("thread", &PostResult::thread), field("spacers", &PostResult::spacers),
      field("spacer_advice", &PostResult::spacer_advice), field("fits", &PostResult::fits),
      field("fits_always", &PostResult::fits_always), field("missing_least", &PostResult::missing_least),
      field("missing_greatest", &PostResult::missing_greatest),
      field("choices_examined", &PostResult::choices_examined), field("flags", &PostResult::flags),
      field("torque", &PostResult::torque), field("directions", &PostResult::directions));
};

template <>
struct Fields<LawPoint> {
  static constexpr auto list = std::make_tuple(
      field("flow", &LawPoint::flow), field("drop", &LawPoint::drop), field("speed", &LawPoint::speed),
      field("lift_at_seat", &LawPoint::lift_at_seat), field("bleed_flow", &LawPoint::bleed_flow),
      field("stack_flow", &LawPoint::stack_flow), field("port_drop", &LawPoint::port_drop),
      field("beyond_table", &LawPoint::beyond_table), field("carrier", &LawPoint::carrier));
};

template <>
struct Fields<DirectionResult> {
  static constexpr auto list = std::make_tuple(
      field("stroke", &DirectionResult::stroke), field("check", &DirectionResult::check),
      field("stack", &DirectionResult::stack), field("law", &DirectionResult::law),
      field("bleed_area", &DirectionResult::bleed_area), field("port_area", &DirectionResult::port_area),
      field("opening_speed", &DirectionResult::opening_speed),
      field("choking_speed", &DirectionResult::choking_speed), field("outcome", &DirectionResult::outcome));
};

template <>
struct Fields<BleedResult> {
  static constexpr auto list =
      std::make_tuple(field("name", &BleedResult::name), field("kind", &BleedResult::kind),
                      field("acts_in_compression", &BleedResult::acts_in_compression),
                      field("acts_in_rebound", &BleedResult::acts_in_rebound),
                      field("clicks", &BleedResult::clicks), field("clicks_max", &BleedResult::clicks_max),
                      field("area", &BleedResult::area), field("area_by_click", &BleedResult::area_by_click),
                      field("full_area_clicks", &BleedResult::full_area_clicks));
};

template <>
struct Fields<ValveResult> {
  static constexpr auto list =
      std::make_tuple(field("place", &ValveResult::place), field("directions", &ValveResult::directions),
                      field("bleeds", &ValveResult::bleeds), field("post", &ValveResult::post));
};

template <>
struct Fields<ForcePoint> {
  static constexpr auto list = std::make_tuple(
      field("speed", &ForcePoint::speed), field("force", &ForcePoint::force),
      field("damping", &ForcePoint::damping), field("friction", &ForcePoint::friction),
      field("compression_pressure", &ForcePoint::compression_pressure),
      field("rod_pressure", &ForcePoint::rod_pressure),
      field("reservoir_pressure", &ForcePoint::reservoir_pressure),
      field("piston_flow", &ForcePoint::piston_flow), field("foot_flow", &ForcePoint::foot_flow),
      field("margin", &ForcePoint::margin), field("cavitated", &ForcePoint::cavitated),
      field("piston_carrier", &ForcePoint::piston_carrier), field("foot_carrier", &ForcePoint::foot_carrier));
};

template <>
struct Fields<ForceCurve> {
  static constexpr auto list =
      std::make_tuple(field("stroke", &ForceCurve::stroke), field("points", &ForceCurve::points),
                      field("outcome", &ForceCurve::outcome));
};

template <>
struct Fields<FamilyMember> {
  static constexpr auto list =
      std::make_tuple(field("clicks", &FamilyMember::clicks), field("present", &FamilyMember::present),
                      field("force", &FamilyMember::force), field("cavitated", &FamilyMember::cavitated));
};

template <>
struct Fields<ClickFamily> {
  static constexpr auto list =
      std::make_tuple(field("adjuster", &ClickFamily::adjuster), field("place", &ClickFamily::place),
                      field("stroke", &ClickFamily::stroke), field("speed", &ClickFamily::speed),
                      field("members", &ClickFamily::members));
};

template <>
struct Fields<CavitationResult> {
  static constexpr auto list = std::make_tuple(
      field("stroke", &CavitationResult::stroke), field("chamber", &CavitationResult::chamber),
      field("release_pressure", &CavitationResult::release_pressure),
      field("working_speed", &CavitationResult::working_speed),
      field("margin_at_working_speed", &CavitationResult::margin_at_working_speed),
      field("top_speed", &CavitationResult::top_speed),
      field("margin_at_top_speed", &CavitationResult::margin_at_top_speed),
      field("speed_lost", &CavitationResult::speed_lost), field("stiffen", &CavitationResult::stiffen),
      field("missing_drop", &CavitationResult::missing_drop),
      field("margin_wanted", &CavitationResult::margin_wanted),
      field("foot_drop", &CavitationResult::foot_drop), field("piston_drop", &CavitationResult::piston_drop),
      field("needed_reservoir_pressure", &CavitationResult::needed_reservoir_pressure),
      field("advice", &CavitationResult::advice));
};

template <>
struct Fields<KeyForce> {
  static constexpr auto list = std::make_tuple(
      field("speed", &KeyForce::speed), field("compression", &KeyForce::compression),
      field("rebound", &KeyForce::rebound), field("compression_cavitated", &KeyForce::compression_cavitated),
      field("rebound_cavitated", &KeyForce::rebound_cavitated));
};

template <>
struct Fields<ForceResult> {
  static constexpr auto list = std::make_tuple(
      field("temperature", &ForceResult::temperature),
      field("static_rod_force", &ForceResult::static_rod_force),
      field("seal_friction", &ForceResult::seal_friction), field("curves", &ForceResult::curves),
      field("families", &ForceResult::families), field("cavitation", &ForceResult::cavitation),
      field("key_forces", &ForceResult::key_forces), field("outcome", &ForceResult::outcome));
};

}  // namespace shimwright::job::internal
