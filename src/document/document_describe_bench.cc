#include "document/document_bench.h"
#include "document/document_describe_list.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<BenchLoop>() {
  static constexpr FieldInfo fields[] = {
      field<&BenchLoop::time>("time", Kind::Time, "Time from the start of the run."),
      field<&BenchLoop::travel>("travel", Kind::Length, "Travel of the rod."),
      field<&BenchLoop::speed>("speed", Kind::Speed, "Speed of the rod, positive in compression."),
      field<&BenchLoop::force>("force", Kind::Force, "All parts together."),
      field<&BenchLoop::friction>("friction", Kind::Force, "Friction of the seals, part of `force`."),
      field<&BenchLoop::lock>("lock", Kind::Force, "Oil locks and cones, part of `force`."),
      field<&BenchLoop::springs>("springs", Kind::Force,
                                 "Main spring, air spring and stops, part of `force`; 0 where they are out."),
      field<&BenchLoop::compression_pressure>("compression_pressure", kAbsolute,
                                              "Pressure in the compression chamber."),
      field<&BenchLoop::rod_pressure>("rod_pressure", kAbsolute, "Pressure in the rod chamber."),
      field<&BenchLoop::reservoir_pressure>("reservoir_pressure", kAbsolute, "Pressure in the reservoir."),
      field<&BenchLoop::released_air>("released_air", Kind::Volume,
                                      "Air out of solution, at one atmosphere."),
      field<&BenchLoop::piston_travel>("piston_travel", Kind::Length, "Travel of the free piston."),
      field<&BenchLoop::temperature>("temperature", Kind::Temperature, "Temperature of the oil."),
  };
  static constexpr auto info =
      structure<BenchLoop>("BenchLoop",
                           "The last finished cycle of a run, evenly spaced in time. Forces push the rod out "
                           "when positive. All lists are as long as `time`.",
                           fields);
  return info;
}

template <>
const StructInfo& describe<BenchCycle>() {
  static constexpr FieldInfo fields[] = {
      field<&BenchCycle::number>("number", "Number of the cycle, from 1."),
      field<&BenchCycle::energy_in>("energy_in", Kind::Energy, "Work of the drive: the area of the loop."),
      field<&BenchCycle::heat>("heat", Kind::Energy, "Heat in this cycle."),
      field<&BenchCycle::stored_change>("stored_change", Kind::Energy,
                                        "Change of what oil, air, walls and springs store."),
      field<&BenchCycle::energy_error>("energy_error", Kind::Fraction,
                                       "Error in the balance of these three, relative."),
      field<&BenchCycle::compression_force>("compression_force", Kind::Force, "Largest force."),
      field<&BenchCycle::compression_travel>("compression_travel", Kind::Length, "Travel at that force."),
      field<&BenchCycle::rebound_force>("rebound_force", Kind::Force, "Most negative force."),
      field<&BenchCycle::rebound_travel>("rebound_travel", Kind::Length, "Travel at that force."),
      field<&BenchCycle::damper_compression_force>("damper_compression_force", Kind::Force,
                                                   "Largest force of the damper alone, springs taken off."),
      field<&BenchCycle::damper_rebound_force>("damper_rebound_force", Kind::Force,
                                               "Most negative force of the damper alone."),
      field<&BenchCycle::compression_speed>("compression_speed", Kind::Speed, "Largest speed inwards."),
      field<&BenchCycle::rebound_speed>("rebound_speed", Kind::Speed, "Largest speed outwards, negative."),
      field<&BenchCycle::phase_lag>("phase_lag", Kind::Angle,
                                    "How far the first harmonic of the damper's force lags behind that of "
                                    "the speed: 0 is a damper, pi/2 a spring."),
      field<&BenchCycle::lowest_pressure>("lowest_pressure", kAbsolute, "Lowest pressure of an oil chamber."),
      field<&BenchCycle::lowest_chamber>("lowest_chamber", "Chamber of that pressure."),
      field<&BenchCycle::lowest_travel>("lowest_travel", Kind::Length, "Travel at that pressure."),
      field<&BenchCycle::lowest_speed>("lowest_speed", Kind::Speed, "Speed at that pressure."),
      field<&BenchCycle::released_air>("released_air", Kind::Volume,
                                       "Most air out of solution at once, at one atmosphere."),
      field<&BenchCycle::piston_travel_least>("piston_travel_least", Kind::Length,
                                              "Least travel of the free piston."),
      field<&BenchCycle::piston_travel_most>("piston_travel_most", Kind::Length,
                                             "Largest travel of the free piston."),
      field<&BenchCycle::lock_pressure>("lock_pressure", kAbsolute,
                                        "Highest pressure in an oil lock; 0 without one."),
      field<&BenchCycle::oil_lost>("oil_lost", Kind::Volume, "Oil that left through the relief port."),
      field<&BenchCycle::temperature_end>("temperature_end", Kind::Temperature,
                                          "Temperature of the oil at the end."),
  };
  static constexpr auto info = structure<BenchCycle>("BenchCycle", "One cycle in figures.", fields);
  return info;
}

template <>
const StructInfo& describe<BenchEvent>() {
  static constexpr FieldInfo fields[] = {
      field<&BenchEvent::time>("time", Kind::Time, "Time from the start of the run."),
      field<&BenchEvent::travel>("travel", Kind::Length, "Travel of the rod."),
      field<&BenchEvent::force>("force", Kind::Force, "All parts together."),
      field<&BenchEvent::what>("what", "For example \"the rod chamber falls below the release pressure\"."),
  };
  static constexpr auto info =
      structure<BenchEvent>("BenchEvent", "Something that happened in a run.", fields);
  return info;
}

template <>
const StructInfo& describe<TurnLag>() {
  static constexpr FieldInfo fields[] = {
      field<&TurnLag::stroke>("stroke", "Stroke that begins there."),
      field<&TurnLag::travel>("travel", Kind::Length, "How far the rod moves."),
      field<&TurnLag::clean>("clean", Kind::Length,
                             "The same without air; absent: there is no air in this run."),
  };
  static constexpr auto info = structure<TurnLag>(
      "TurnLag",
      "How far the rod moves after it turns until half of the damper's force of that stroke is there.",
      fields);
  return info;
}

template <>
const StructInfo& describe<AirReading>() {
  static constexpr FieldInfo fields[] = {
      field<&AirReading::chamber>("chamber", "Where the air is."),
      field<&AirReading::air>("air", Kind::Volume,
                              "Air at one atmosphere; 0: no air explains the loop best."),
      field<&AirReading::uncertainty>("uncertainty", Kind::Volume, "Standard error of that air."),
      field<&AirReading::significant>(
          "significant", "The air is more than two standard errors: the loop cannot do without it."),
      field<&AirReading::stiffness>("stiffness", Kind::SpringRate,
                                    "Stiffness of all that the travel was measured through; absent: nothing "
                                    "gives."),
      field<&AirReading::stiffness_fitted>("stiffness_fitted", "It was found from the loop, not stated."),
      field<&AirReading::misfit>(
          "misfit", Kind::Fraction,
          "Root mean square error of the force with that air, over half the height of the loop."),
      field<&AirReading::misfit_clean>("misfit_clean", Kind::Fraction, "The same without air."),
      field<&AirReading::outcome>("outcome", "How the reading ended."),
  };
  static constexpr auto info = structure<AirReading>("AirReading", "The air that a loop points at.", fields);
  return info;
}

template <>
const StructInfo& describe<MeasuredLoop>() {
  static constexpr FieldInfo fields[] = {
      field<&MeasuredLoop::time>("time", Kind::Time, "Time, evenly spaced."),
      field<&MeasuredLoop::travel>("travel", Kind::Length, "Travel of the rod."),
      field<&MeasuredLoop::force>("force", Kind::Force, "Measured force."),
      field<&MeasuredLoop::computed>("computed", Kind::Force, "Computed force."),
  };
  static constexpr auto info = structure<MeasuredLoop>(
      "MeasuredLoop",
      "A measured force beside the computed one, over the record. All lists are as long as `time`.", fields);
  return info;
}

template <>
const StructInfo& describe<BenchRun>() {
  static constexpr FieldInfo fields[] = {
      field<&BenchRun::name>("name", "For example \"sine 50 mm, 1.6 Hz\"."),
      field<&BenchRun::kind>("kind", "How the rod is moved."),
      field<&BenchRun::stroke>("stroke", Kind::Length, "Stroke from end to end."),
      field<&BenchRun::middle>("middle", Kind::Length, "Travel at the middle of the stroke."),
      field<&BenchRun::frequency>("frequency", Kind::Frequency, "Frequency; 0 for a step or a record."),
      field<&BenchRun::top_speed>("top_speed", Kind::Speed, "Highest speed of the drive."),
      field<&BenchRun::n_cycles>("n_cycles", "Cycles asked for."),
      field<&BenchRun::finished>("finished",
                                 "False: stopped on the way; it holds the cycles that were done."),
      field<&BenchRun::loop>("loop", "The last finished cycle."),
      field<&BenchRun::cycles>("cycles", "All finished cycles."),
      field<&BenchRun::events>("events",
                               "What valves do only of a step: in other runs they turn at each stroke."),
      field<&BenchRun::turns>("turns", "How the force comes up after each turn, of a sine or triangle."),
      field<&BenchRun::air>("air", "The air that the loop points at."),
      field<&BenchRun::measured>("measured", "The measured loop beside the computed one."),
      field<&BenchRun::fade>("fade", Kind::Fraction,
                             "How much less the last cycle takes up than the second."),
      field<&BenchRun::settled>("settled", Kind::Fraction,
                                "Change of the area of the loop from the last cycle but one, relative."),
      field<&BenchRun::n_steps>("n_steps", "Steps in time."),
      field<&BenchRun::outcome>("outcome", "How the run ended."),
  };
  static constexpr auto info = structure<BenchRun>("BenchRun", "One motion of the rod, from rest.", fields);
  return info;
}

template <>
const StructInfo& describe<BenchSprings>() {
  static constexpr FieldInfo fields[] = {
      field<&BenchSprings::in>("in", "They are in the force of every run."),
      field<&BenchSprings::names>("names", "Those that are in, or would be: \"coil\", \"air\", \"top-out\"."),
      field<&BenchSprings::force_out>("force_out", Kind::Force, "Force of all of them, rod fully out."),
      field<&BenchSprings::force_in>("force_in", Kind::Force, "Force of all of them, rod fully in."),
      field<&BenchSprings::words>("words", "What the force of the runs holds, in one or two sentences."),
  };
  static constexpr auto info = structure<BenchSprings>(
      "BenchSprings", "Which of the unit's springs are on the bench with the damper.", fields);
  return info;
}

template <>
const StructInfo& describe<ReleaseTrace>() {
  static constexpr FieldInfo fields[] = {
      field<&ReleaseTrace::name>("name", "Name of its case."),
      field<&ReleaseTrace::time>("time", Kind::Time, "Time since it was let go."),
      field<&ReleaseTrace::travel>("travel", Kind::Length, "Travel of the rod."),
      field<&ReleaseTrace::speed>("speed", Kind::Speed, "Speed of the rod, positive in compression."),
      field<&ReleaseTrace::force>("force", Kind::Force,
                                  "Force that speeds the rod up outwards: all parts together."),
      field<&ReleaseTrace::springs>("springs", Kind::Force,
                                    "Springs, part of `force`; 0 where they are out."),
      field<&ReleaseTrace::compression_pressure>("compression_pressure", kAbsolute,
                                                 "Pressure in the compression chamber."),
      field<&ReleaseTrace::rod_pressure>("rod_pressure", kAbsolute, "Pressure in the rod chamber."),
      field<&ReleaseTrace::events>("events", "What happened on the way."),
  };
  static constexpr auto info =
      structure<ReleaseTrace>("ReleaseTrace",
                              "The rod let go, over time: one state of the test by hand. Samples are denser "
                              "at the beginning; all lists are as long as `time`.",
                              fields);
  return info;
}

template <>
const StructInfo& describe<ReservoirAdvice>() {
  static constexpr FieldInfo fields[] = {
      field<&ReservoirAdvice::run>("run", "Run that needs it most."),
      field<&ReservoirAdvice::lowest>("lowest", kAbsolute, "Lowest pressure met now."),
      field<&ReservoirAdvice::margin>("margin", Kind::PressureDifference,
                                      "Margin wanted above the release pressure."),
      field<&ReservoirAdvice::raise_by>("raise_by", Kind::PressureDifference,
                                        "How much to raise the pressure."),
      field<&ReservoirAdvice::pressure>("pressure", kAbsolute, "Pressure to set with the rod fully out."),
      field<&ReservoirAdvice::outcome>("outcome", "How the advice was computed."),
  };
  static constexpr auto info = structure<ReservoirAdvice>(
      "ReservoirAdvice", "The reservoir pressure that keeps all chambers above the release pressure.",
      fields);
  return info;
}

template <>
const StructInfo& describe<BenchUnit>() {
  static constexpr FieldInfo fields[] = {
      field<&BenchUnit::name>("name", "For example \"fork leg\"."),
      field<&BenchUnit::kind>("kind", "\"fork leg\" or \"shock\"."),
      field<&BenchUnit::layout>("layout", "\"closed cartridge\", \"open bath\" or \"reservoir shock\"."),
      field<&BenchUnit::oil>("oil", "Name of its oil."),
      field<&BenchUnit::travel>("travel", Kind::Length, "Full travel."),
      field<&BenchUnit::piston_area>("piston_area", Kind::Area, "Area of the piston."),
      field<&BenchUnit::rod_area>("rod_area", Kind::Area, "Area of the rod."),
      field<&BenchUnit::oil_temperature>("oil_temperature", Kind::Temperature,
                                         "Temperature of the oil at the start."),
      field<&BenchUnit::reservoir_pressure>("reservoir_pressure", kAbsolute,
                                            "Pressure in the reservoir, rod fully out."),
      field<&BenchUnit::release_pressure>("release_pressure", kAbsolute,
                                          "Pressure at which air comes out of the oil."),
      field<&BenchUnit::compression_volume>("compression_volume", Kind::Volume,
                                            "Volume of the compression chamber, rod fully out."),
      field<&BenchUnit::rod_volume>("rod_volume", Kind::Volume, "Volume of the rod chamber, rod fully out."),
      field<&BenchUnit::air_compression>(
          "air_compression", Kind::Volume,
          "Air that the bleed left in the compression chamber, at one atmosphere."),
      field<&BenchUnit::air_rod>("air_rod", Kind::Volume,
                                 "Air that the bleed left in the rod chamber, at one atmosphere."),
      field<&BenchUnit::air_reservoir>(
          "air_reservoir", Kind::Volume,
          "Air that the bleed left in the oil of the reservoir, at one atmosphere."),
      field<&BenchUnit::heat_capacity>("heat_capacity", Unit("J/K"),
                                       "Heat that warms the unit by one kelvin; 0: the temperature stays."),
      field<&BenchUnit::piston_travel_in>("piston_travel_in", Kind::Length,
                                          "Travel of the free piston to its inner stop; 0: no free piston."),
      field<&BenchUnit::piston_travel_out>("piston_travel_out", Kind::Length,
                                           "Travel of the free piston to its outer stop."),
      field<&BenchUnit::assumptions>("assumptions", "What was assumed where the job does not say."),
      field<&BenchUnit::springs>("springs", "Which springs are on the bench."),
      field<&BenchUnit::runs>("runs", "All runs."),
      field<&BenchUnit::reservoir>("reservoir",
                                   "Advice on the reservoir pressure; absent: the margin holds."),
      field<&BenchUnit::release>("release", "The test by hand."),
      field<&BenchUnit::release_traces>("release_traces",
                                        "The motion of each case of `release`, in their order."),
      field<&BenchUnit::plots>("plots", "Loops, pressures, heat, records, steps and the rod let go."),
  };
  static constexpr auto info = structure<BenchUnit>("BenchUnit", "One unit on the bench.", fields);
  return info;
}

template <>
const StructInfo& describe<BenchDocument>() {
  static constexpr FieldInfo fields[] = {
      field<&BenchDocument::header>("header", "Whose numbers these are."),
      field<&BenchDocument::conditions>("conditions", "What it is computed for."),
      field<&BenchDocument::tolerance>("tolerance", Kind::Fraction,
                                       "Tolerance of each step in time, relative."),
      field<&BenchDocument::n_runs>("n_runs", "Runs asked for."),
      field<&BenchDocument::n_finished>("n_finished", "Runs that are finished."),
      field<&BenchDocument::stopped>("stopped", "Stopped by the user: what was finished is here."),
      field<&BenchDocument::findings>("findings", "The judgements: stop first, then look, then fine."),
      field<&BenchDocument::units>("units", "Each unit on the bench."),
  };
  static constexpr auto info = structure<BenchDocument>(
      "BenchDocument",
      "Everything that one bench job gives. The faces show parts of it and compute no physics.", fields,
      kBenchSchema);
  return info;
}

}  // namespace shimwright::document
