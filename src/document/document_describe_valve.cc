#include "document/document_describe_list.h"
#include "document/document_force.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<LawPoint>() {
  static constexpr FieldInfo fields[] = {
      field<&LawPoint::flow>("flow", Kind::VolumeRate, "Flow in the valve's own direction."),
      field<&LawPoint::drop>("drop", Kind::PressureDifference, "Pressure drop over the valve."),
      field<&LawPoint::speed>("speed", Kind::Speed, "Damper speed at which the valve passes this flow."),
      field<&LawPoint::lift_at_seat>("lift_at_seat", Kind::Length, "Lift of the stack at the seat."),
      field<&LawPoint::bleed_flow>("bleed_flow", Kind::VolumeRate, "Flow through bleeds and leakage."),
      field<&LawPoint::stack_flow>("stack_flow", Kind::VolumeRate, "Flow under the stack."),
      field<&LawPoint::port_drop>("port_drop", Kind::PressureDifference,
                                  "Pressure lost in the ports, part of `drop`."),
      field<&LawPoint::beyond_table>(
          "beyond_table", "Past the end of what was solved: the law goes on as an open orifice would."),
      field<&LawPoint::carrier>("carrier",
                                "What carries most of the flow or holds back most of the pressure."),
  };
  static constexpr auto info =
      structure<LawPoint>("LawPoint", "One point of a valve's law in one direction.", fields);
  return info;
}

template <>
const StructInfo& describe<DirectionResult>() {
  static constexpr FieldInfo fields[] = {
      field<&DirectionResult::stroke>("stroke", "Stroke that drives oil this way."),
      field<&DirectionResult::check>("check", "A plate that only refills: light spring, no damping wanted."),
      field<&DirectionResult::stack>("stack", "The stack; absent: this direction has only bleeds."),
      field<&DirectionResult::law>("law", "Drop over flow, ascending in flow."),
      field<&DirectionResult::bleed_area>("bleed_area", Kind::Area,
                                          "Area that is open at rest in this direction."),
      field<&DirectionResult::port_area>("port_area", Kind::Area, "Area of all ports together."),
      field<&DirectionResult::opening_speed>("opening_speed", Kind::Speed,
                                             "Damper speed at which the stack begins to lift."),
      field<&DirectionResult::choking_speed>(
          "choking_speed", Kind::Speed, "Damper speed at which the ports hold back more than the stack."),
      field<&DirectionResult::outcome>("outcome", "How the law was solved."),
  };
  static constexpr auto info =
      structure<DirectionResult>("DirectionResult", "One direction of a valve.", fields);
  return info;
}

template <>
const StructInfo& describe<BleedResult>() {
  static constexpr FieldInfo fields[] = {
      field<&BleedResult::name>("name", "For example \"rebound needle\"."),
      field<&BleedResult::kind>("kind", "\"needle\", \"bored\", \"notch\" or \"leakage\"."),
      field<&BleedResult::acts_in_compression>("acts_in_compression", "It passes oil in compression."),
      field<&BleedResult::acts_in_rebound>("acts_in_rebound", "It passes oil in rebound."),
      field<&BleedResult::clicks>("clicks", "Clicks out from seated; absent: not adjustable."),
      field<&BleedResult::clicks_max>("clicks_max", "Most clicks, as stated."),
      field<&BleedResult::area>("area", Kind::Area, "Open area at the present setting."),
      field<&BleedResult::area_by_click>("area_by_click", Kind::Area,
                                         "Open area at each click, from 0; empty when not adjustable."),
      field<&BleedResult::full_area_clicks>(
          "full_area_clicks", Kind::Number,
          "Beyond these clicks the bore is all there is; absent: no needle."),
  };
  static constexpr auto info = structure<BleedResult>("BleedResult", "One bleed with its setting.", fields);
  return info;
}

template <>
const StructInfo& describe<ValveResult>() {
  static constexpr FieldInfo fields[] = {
      field<&ValveResult::place>("place", "Which valve."),
      field<&ValveResult::directions>("directions", "Compression first."),
      field<&ValveResult::bleeds>("bleeds", "All bleeds and leakage."),
      field<&ValveResult::post>("post", "The post; absent: none is stated."),
  };
  static constexpr auto info = structure<ValveResult>(
      "ValveResult", "One valve: both directions, its bleeds, and the post it sits on.", fields);
  return info;
}

template <>
const StructInfo& describe<ForcePoint>() {
  static constexpr FieldInfo fields[] = {
      field<&ForcePoint::speed>("speed", Kind::Speed, "Magnitude of the damper speed."),
      field<&ForcePoint::force>("force", Kind::Force, "Damping and friction together."),
      field<&ForcePoint::damping>("damping", Kind::Force, "Force of the oil alone."),
      field<&ForcePoint::friction>("friction", Kind::Force, "Force of the seals."),
      field<&ForcePoint::compression_pressure>("compression_pressure", kAbsolute,
                                               "Pressure in the compression chamber."),
      field<&ForcePoint::rod_pressure>("rod_pressure", kAbsolute, "Pressure in the rod chamber."),
      field<&ForcePoint::reservoir_pressure>("reservoir_pressure", kAbsolute, "Pressure in the reservoir."),
      field<&ForcePoint::piston_flow>("piston_flow", Kind::VolumeRate, "Flow through the piston valve."),
      field<&ForcePoint::foot_flow>("foot_flow", Kind::VolumeRate, "Flow through the foot valve."),
      field<&ForcePoint::margin>(
          "margin", Kind::PressureDifference,
          "Pressure of the chamber at risk above the air-release pressure; negative: lost by so much."),
      field<&ForcePoint::cavitated>("cavitated",
                                    "The chamber is held at its release pressure: draw this part dotted."),
      field<&ForcePoint::piston_carrier>("piston_carrier",
                                         "What carries the flow or the pressure in the piston valve."),
      field<&ForcePoint::foot_carrier>("foot_carrier",
                                       "What carries the flow or the pressure in the foot valve."),
  };
  static constexpr auto info = structure<ForcePoint>("ForcePoint",
                                                     "The damper at one steady speed in one stroke. Forces "
                                                     "are against the motion, without the static rod force.",
                                                     fields);
  return info;
}

template <>
const StructInfo& describe<ForceCurve>() {
  static constexpr FieldInfo fields[] = {
      field<&ForceCurve::stroke>("stroke", "The stroke."),
      field<&ForceCurve::points>("points", "Ascending in speed, from the lowest asked."),
      field<&ForceCurve::outcome>("outcome", "How the curve was solved."),
  };
  static constexpr auto info = structure<ForceCurve>(
      "ForceCurve", "Force over speed in one stroke at one setting of the clickers.", fields);
  return info;
}

template <>
const StructInfo& describe<FamilyMember>() {
  static constexpr FieldInfo fields[] = {
      field<&FamilyMember::clicks>("clicks", "Clicks out from seated."),
      field<&FamilyMember::present>("present", "This is the setting of the job."),
      field<&FamilyMember::force>("force", Kind::Force, "Force at each speed of the family."),
      field<&FamilyMember::cavitated>(
          "cavitated", "At each speed of the family: a chamber is held at its release pressure."),
  };
  static constexpr auto info = structure<FamilyMember>(
      "FamilyMember", "Forces of one stroke at one setting of one adjuster, the others as set.", fields);
  return info;
}

template <>
const StructInfo& describe<ClickFamily>() {
  static constexpr FieldInfo fields[] = {
      field<&ClickFamily::adjuster>("adjuster", "For example \"compression needle\"."),
      field<&ClickFamily::place>("place", "Valve of the adjuster."),
      field<&ClickFamily::stroke>("stroke", "Stroke of the forces."),
      field<&ClickFamily::speed>("speed", Kind::Speed, "Speeds that all members share."),
      field<&ClickFamily::members>("members", "Ascending in clicks."),
  };
  static constexpr auto info =
      structure<ClickFamily>("ClickFamily", "The fan of curves over one adjuster's clicks.", fields);
  return info;
}

template <>
const StructInfo& describe<CavitationResult>() {
  static constexpr FieldInfo fields[] = {
      field<&CavitationResult::stroke>("stroke", "The stroke."),
      field<&CavitationResult::chamber>("chamber",
                                        "Chamber at risk: \"rod chamber\" or \"compression chamber\"."),
      field<&CavitationResult::release_pressure>("release_pressure", kAbsolute,
                                                 "Pressure at which air comes out of the oil."),
      field<&CavitationResult::working_speed>("working_speed", Kind::Speed,
                                              "Speed up to which the margin is demanded."),
      field<&CavitationResult::margin_at_working_speed>("margin_at_working_speed", Kind::PressureDifference,
                                                        "Margin at that speed; negative: lost by so much."),
      field<&CavitationResult::top_speed>("top_speed", Kind::Speed, "Highest speed computed."),
      field<&CavitationResult::margin_at_top_speed>("margin_at_top_speed", Kind::PressureDifference,
                                                    "Margin at that speed; negative: lost by so much."),
      field<&CavitationResult::speed_lost>(
          "speed_lost", Kind::Speed, "Speed at which the margin is lost; absent: kept over the whole range."),
      field<&CavitationResult::stiffen>(
          "stiffen", "The valve to stiffen; absent: none helps, raise the reservoir pressure."),
      field<&CavitationResult::missing_drop>(
          "missing_drop", Kind::PressureDifference,
          "Pressure drop that the foot valve lacks at the working speed, in compression only."),
      field<&CavitationResult::margin_wanted>("margin_wanted", Kind::PressureDifference,
                                              "Margin demanded at the working speed."),
      field<&CavitationResult::foot_drop>("foot_drop", Kind::PressureDifference,
                                          "Drop over the foot valve at the working speed."),
      field<&CavitationResult::piston_drop>("piston_drop", Kind::PressureDifference,
                                            "Drop over the piston valve at the working speed."),
      field<&CavitationResult::needed_reservoir_pressure>(
          "needed_reservoir_pressure", kAbsolute, "Reservoir pressure that alone would keep the margin."),
      field<&CavitationResult::advice>("advice", "What to change; empty while the margin is kept."),
      field<&CavitationResult::cures>(
          "cures", "The changes of the advice that are numbers. Each restores the margin alone."),
  };
  static constexpr auto info = structure<CavitationResult>(
      "CavitationResult", "How far one stroke is from drawing air out of the oil.", fields);
  return info;
}

template <>
const StructInfo& describe<KeyForce>() {
  static constexpr FieldInfo fields[] = {
      field<&KeyForce::speed>("speed", Kind::Speed, "Damper speed."),
      field<&KeyForce::compression>("compression", Kind::Force, "Force in compression."),
      field<&KeyForce::rebound>("rebound", Kind::Force, "Force in rebound."),
      field<&KeyForce::compression_cavitated>("compression_cavitated",
                                              "In compression a chamber is held at its release pressure."),
      field<&KeyForce::rebound_cavitated>("rebound_cavitated",
                                          "In rebound a chamber is held at its release pressure."),
  };
  static constexpr auto info = structure<KeyForce>(
      "KeyForce", "One line of the four-speed table that every face shows first.", fields);
  return info;
}

template <>
const StructInfo& describe<ForceResult>() {
  static constexpr FieldInfo fields[] = {
      field<&ForceResult::temperature>("temperature", Kind::Temperature, "Temperature of the oil."),
      field<&ForceResult::static_rod_force>(
          "static_rod_force", Kind::Force,
          "Reservoir pressure on the rod, pushing out, at rest with the rod out."),
      field<&ForceResult::seal_friction>("seal_friction", Kind::Force,
                                         "Friction of the seals, part of every force here."),
      field<&ForceResult::curves>(
          "curves",
          "Compression, then rebound, at the present clicks; without points in what the page holds."),
      field<&ForceResult::families>("families",
                                    "The fan of curves of each adjuster; empty in what the page holds."),
      field<&ForceResult::cavitation>("cavitation", "Compression, then rebound."),
      field<&ForceResult::key_forces>("key_forces", "Forces at four speeds."),
      field<&ForceResult::outcome>("outcome", "The worst of all curves."),
  };
  static constexpr auto info =
      structure<ForceResult>("ForceResult", "Force of one unit's damper over speed.", fields);
  return info;
}

}  // namespace shimwright::document
