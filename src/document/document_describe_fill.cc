#include "document/document_describe_list.h"
#include "document/document_fill.h"
#include "document/document_reservoir.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<ReleaseCase>() {
  static constexpr FieldInfo fields[] = {
      field<&ReleaseCase::name>("name", "For example \"no air\", \"2 mL of air\", \"dragging seal\"."),
      field<&ReleaseCase::air>("air", Kind::Volume, "Air left in the unit, at one atmosphere."),
      field<&ReleaseCase::seal_friction>("seal_friction", Kind::Force, "Friction of the seals."),
      field<&ReleaseCase::push_force>("push_force", Kind::Force, "Force that holds the rod in."),
      field<&ReleaseCase::fully_out>("fully_out", "The rod comes fully out, if you give it time."),
      field<&ReleaseCase::rest_travel>(
          "rest_travel", Kind::Length,
          "Where the rod stops, from fully out: there its push equals the friction of the seals."),
      field<&ReleaseCase::arrived>("arrived", "It is there, within 0.5 mm, before the time is up."),
      field<&ReleaseCase::end_travel>("end_travel", Kind::Length, "Where it is at that time."),
      field<&ReleaseCase::time>("time", Kind::Time,
                                "Time until it is there; or the longest time that anybody waits."),
      field<&ReleaseCase::half_time>("half_time", Kind::Time,
                                     "Time until half of the push has come back; 0: it never does."),
      field<&ReleaseCase::top_speed>("top_speed", Kind::Speed, "Highest speed on the way."),
      field<&ReleaseCase::reads_as>("reads_as", Kind::Volume,
                                    "Air or missing oil with which a unit with the stated friction stops "
                                    "there; absent: it comes fully out, or no air explains it."),
      field<&ReleaseCase::outcome>("outcome", "How the motion was solved."),
  };
  static constexpr auto info =
      structure<ReleaseCase>("ReleaseCase", "Push the rod in, let go: one state of the unit.", fields);
  return info;
}

template <>
const StructInfo& describe<ReleaseTest>() {
  static constexpr FieldInfo fields[] = {
      field<&ReleaseTest::pushed_to>("pushed_to", Kind::Length, "How far the rod is pushed in."),
      field<&ReleaseTest::moving_mass>("moving_mass", Kind::Mass, "Mass that moves with the rod."),
      field<&ReleaseTest::rod_area>("rod_area", Kind::Area, "Area of the rod."),
      field<&ReleaseTest::springs_in>("springs_in", "Main spring, air spring and stops push too."),
      field<&ReleaseTest::balance_travel>(
          "balance_travel", Kind::Length,
          "Where springs that pull near fully out hold the rod; 0: fully out."),
      field<&ReleaseTest::cases>("cases", "States of the unit, the good one first."),
      field<&ReleaseTest::words>("words", "What to see, in one or two sentences."),
      field<&ReleaseTest::outcome>("outcome", "The worst of all cases."),
  };
  static constexpr auto info = structure<ReleaseTest>(
      "ReleaseTest", "The test by hand of a finished unit: push the rod in, let go.", fields);
  return info;
}

template <>
const StructInfo& describe<StopReading>() {
  static constexpr FieldInfo fields[] = {
      field<&StopReading::pushed_out>("pushed_out",
                                      "Something pushes the rod out harder than its seals rub when it is "
                                      "pushed in."),
      field<&StopReading::well_bled>("well_bled", Kind::Length,
                                     "Where the rod of a well-bled unit stops, from fully out."),
      field<&StopReading::accepted>("accepted", Kind::Length,
                                    "A rod that stops no further from fully out is accepted."),
      field<&StopReading::hidden_air>("hidden_air", Kind::Volume,
                                      "Most air or missing oil with which the rod is still accepted; absent: "
                                      "no amount shows in this test."),
      field<&StopReading::short_stop>("short_stop", Kind::Length,
                                      "A stop that shows: 10 mm further in than a well-bled unit."),
      field<&StopReading::short_stop_air>("short_stop_air", Kind::Volume,
                                          "Air or missing oil with which the rod stops there; absent: no "
                                          "amount holds it there."),
  };
  static constexpr auto info = structure<StopReading>(
      "StopReading", "What a rod that stops short says of this unit, by the balance of forces.", fields);
  return info;
}

template <>
const StructInfo& describe<FillChamber>() {
  static constexpr FieldInfo fields[] = {
      field<&FillChamber::room>("name", "Where the oil is poured."),
      field<&FillChamber::stated>("stated", "What the job says to pour."),
      field<&FillChamber::volume>("volume", Kind::Volume,
                                  "Volume from the geometry at the stated rod position."),
      field<&FillChamber::pour>("pour", Kind::Volume,
                                "What is poured here: what is stated, else the volume; of the cartridge "
                                "without what goes into the reservoir."),
      field<&FillChamber::growth>("growth", Kind::Volume,
                                  "How much the oil poured here grows from filling to working temperature."),
      field<&FillChamber::purge>("purge", Kind::Volume, "What the last stroke should push out."),
  };
  static constexpr auto info = structure<FillChamber>("FillChamber", "The oil of one chamber.", fields);
  return info;
}

template <>
const StructInfo& describe<ReservoirState>() {
  static constexpr FieldInfo fields[] = {
      field<&ReservoirState::rod_at>("rod_at", "Where the rod stands."),
      field<&ReservoirState::temperature>("temperature", Kind::Temperature, "Temperature of oil and gas."),
      field<&ReservoirState::pressure>("pressure", kAbsolute, "Pressure at rest."),
      field<&ReservoirState::gas_volume>("gas_volume", Kind::Volume, "Gas that is left; absent: no gas."),
      field<&ReservoirState::rod_force>("rod_force", Kind::Force,
                                        "What this pressure pushes the rod out with."),
      field<&ReservoirState::room_left>("room_left", Kind::Volume,
                                        "Oil that it could still take; below zero: it locks or vents."),
      field<&ReservoirState::locked>("locked",
                                     "Next to no gas is left: the pressure is more than the number says."),
  };
  static constexpr auto info = structure<ReservoirState>(
      "ReservoirState", "The reservoir at rest, at one position of the rod and one temperature.", fields);
  return info;
}

template <>
const StructInfo& describe<ReservoirResult>() {
  static constexpr FieldInfo fields[] = {
      field<&ReservoirResult::oil_volume>("oil_volume", Kind::Volume,
                                          "Oil that grows when it gets warm; 0: not counted."),
      field<&ReservoirResult::oil_assumed>("oil_assumed", "The job does not give this oil volume."),
      field<&ReservoirResult::gas_assumed>("gas_assumed", "The job does not give the gas volume."),
      field<&ReservoirResult::rod_volume>("rod_volume", Kind::Volume,
                                          "Oil that the rod pushes out over the whole travel."),
      field<&ReservoirResult::growth>("growth", Kind::Volume,
                                      "What the oil grows by from filling to work, beyond its body."),
      field<&ReservoirResult::room_known>("room_known", "The job gives gas, stroke or capacity."),
      field<&ReservoirResult::states>("states",
                                      "Cold with the rod out and in, then warm with the rod out and in."),
  };
  static constexpr auto info = structure<ReservoirResult>(
      "ReservoirResult", "What makes room for the oil of the rod and of the heat, and the pressures in it.",
      fields);
  return info;
}

template <>
const StructInfo& describe<LikelyCause>() {
  static constexpr FieldInfo fields[] = {
      field<&LikelyCause::cause>("cause", "For example \"air left in the cartridge\"."),
      field<&LikelyCause::evidence>("evidence", "What speaks for it and against it."),
      field<&LikelyCause::remedy>("remedy", "One sentence: what to do."),
      field<&LikelyCause::volume>("volume", Kind::Volume, "Air or missing oil that it stands for."),
  };
  static constexpr auto info =
      structure<LikelyCause>("LikelyCause", "One likely reason for a failed acceptance test.", fields);
  return info;
}

template <>
const StructInfo& describe<Symptom>() {
  static constexpr FieldInfo fields[] = {
      field<&Symptom::seen>("seen", "For example \"the rod stops 12 mm short\"."),
      field<&Symptom::observed>("observed", "The job says that this was seen."),
      field<&Symptom::causes>("causes", "Likely reasons, likeliest first."),
  };
  static constexpr auto info = structure<Symptom>(
      "Symptom", "The acceptance test read backwards: what is seen, and why that would be, likeliest first.",
      fields);
  return info;
}

template <>
const StructInfo& describe<FillResult>() {
  static constexpr FieldInfo fields[] = {
      field<&FillResult::rod_at>("rod_at", "Where the rod stands while filling: \"fully out\"."),
      field<&FillResult::fill_temperature>("fill_temperature", Kind::Temperature,
                                           "Temperature of the oil while filling."),
      field<&FillResult::working_temperature>("working_temperature", Kind::Temperature,
                                              "Temperature of the oil at work."),
      field<&FillResult::chambers>("chambers", "What each chamber takes."),
      field<&FillResult::level>("level", Kind::Length, "Level of the outer oil below the rim."),
      field<&FillResult::comes_out>("comes_out", "Gas or a spring pushes the rod out by itself."),
      field<&FillResult::purge_port>("purge_port", "The compensator has a port that lets too much oil out."),
      field<&FillResult::accepted>("accepted",
                                   "The hand test that the job describes passes; absent: none is described."),
      field<&FillResult::bleed_stroke_low>("bleed_stroke_low", Kind::Length, "Stroke for bleeding, from."),
      field<&FillResult::bleed_stroke_high>("bleed_stroke_high", Kind::Length, "Stroke for bleeding, up to."),
      field<&FillResult::bleed_time_low>("bleed_time_low", Kind::Time,
                                         "How long to stroke the air out, from."),
      field<&FillResult::bleed_time_high>("bleed_time_high", Kind::Time,
                                          "How long to stroke the air out, up to."),
      field<&FillResult::purge_accepted>("purge_accepted", Kind::Volume,
                                         "A correct fill pushes out no more in its last full stroke."),
      field<&FillResult::rod_area>("rod_area", Kind::Area, "Area of the rod."),
      field<&FillResult::stop>("stop",
                               "What a rod that stops short says; absent: the damper is not known or has no "
                               "travel."),
      field<&FillResult::symptoms>("symptoms", "What may be seen, and why that would be."),
      field<&FillResult::release>("release",
                                  "The test by hand; absent: the damper is not known or has no travel."),
  };
  static constexpr auto info =
      structure<FillResult>("FillResult", "How one unit is filled, bled and tested.", fields);
  return info;
}

}  // namespace shimwright::document
