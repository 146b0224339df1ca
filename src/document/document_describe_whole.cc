#include "document/document.h"
#include "document/document_describe_list.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<FileHash>() {
  static constexpr FieldInfo fields[] = {
      field<&FileHash::name>("name", "As the user named it."),
      field<&FileHash::hash>("hash", "Hash of its bytes, 16 hex digits."),
  };
  static constexpr auto info = structure<FileHash>("FileHash", "A file that the result rests on.", fields);
  return info;
}

template <>
const StructInfo& describe<Header>() {
  static constexpr FieldInfo fields[] = {
      field<&Header::program_version>("program_version", "Version of the program."),
      field<&Header::job_hash>("job_hash", "Hash of the job file and all its parts files, 16 hex digits."),
      field<&Header::files>("files", "All files, the job file first."),
      field<&Header::title>("title", "Title of the job."),
      field<&Header::scenario>("scenario", "For example \"Invented for the manual\"; empty for a real job."),
      field<&Header::revision>("revision", "Revision of the job, as typed."),
      field<&Header::date>("date", "Date of the job, as typed."),
      field<&Header::theory>("theory", "Plate theory of the stacks."),
      field<&Header::outcome>("outcome", "The worst of everything in the document."),
      field<&Header::warnings>("warnings", "One sentence each: what was not computed and why."),
  };
  static constexpr auto info =
      structure<Header>("Header", "Whose numbers these are, and how far to trust them.", fields);
  return info;
}

template <>
const StructInfo& describe<RiderSummary>() {
  static constexpr FieldInfo fields[] = {
      field<&RiderSummary::name>("name", "Name of the rider."),
      field<&RiderSummary::mass>("mass", "Mass in riding gear."),
      field<&RiderSummary::pace>("pace", "How fast the rider rides."),
      field<&RiderSummary::terrain>("terrain", "Where the rider rides."),
      field<&RiderSummary::complaints>("complaints", "What the rider complains of."),
  };
  static constexpr auto info = structure<RiderSummary>("RiderSummary", "The rider, as the job says.", fields);
  return info;
}

template <>
const StructInfo& describe<MachineSummary>() {
  static constexpr FieldInfo fields[] = {
      field<&MachineSummary::name>("name", "Name of the machine."),
      field<&MachineSummary::values>("values", "Masses, shares, head angle, as typed."),
  };
  static constexpr auto info =
      structure<MachineSummary>("MachineSummary", "The machine, as the job says.", fields);
  return info;
}

template <>
const StructInfo& describe<ConditionSummary>() {
  static constexpr FieldInfo fields[] = {
      field<&ConditionSummary::oil_temperature>("oil_temperature", "Temperature of the oil at work."),
      field<&ConditionSummary::fill_temperature>("fill_temperature", "Temperature of the oil while filling."),
      field<&ConditionSummary::air_temperature>("air_temperature", "Temperature of the air springs at work."),
      field<&ConditionSummary::altitude>("altitude", "Height above the sea."),
      field<&ConditionSummary::ambient_pressure>("ambient_pressure", kAbsolute,
                                                 "Air pressure of the standard atmosphere at that altitude."),
  };
  static constexpr auto info =
      structure<ConditionSummary>("ConditionSummary", "The conditions that the job is computed for.", fields);
  return info;
}

template <>
const StructInfo& describe<UnitResult>() {
  static constexpr FieldInfo fields[] = {
      field<&UnitResult::name>("name", "For example \"fork leg\"."),
      field<&UnitResult::kind>("kind", "\"fork leg\" or \"shock\"."),
      field<&UnitResult::layout>("layout", "\"closed cartridge\", \"open bath\" or \"reservoir shock\"."),
      field<&UnitResult::count>("count", "How many alike units the machine has."),
      field<&UnitResult::travel>("travel", Kind::Length, "Full travel."),
      field<&UnitResult::piston_radius>("piston_radius", Kind::Length,
                                        "Radius of the piston; 0: no damper is stated."),
      field<&UnitResult::rod_radius>("rod_radius", Kind::Length, "Radius of the rod."),
      field<&UnitResult::oil>("oil", "Name of its oil."),
      field<&UnitResult::valves>("valves", "Piston valve, foot valve."),
      field<&UnitResult::force>("force", "Force of the damper over speed."),
      field<&UnitResult::springs>("springs", "The springs and the sag."),
      field<&UnitResult::reservoir>("reservoir",
                                    "What takes the oil of the rod, and its pressures; absent: not known."),
      field<&UnitResult::fill>("fill", "How it is filled, bled and tested."),
      field<&UnitResult::plan>("plan", "The work at the vice."),
      field<&UnitResult::settings>("settings", "What is set and what may be turned."),
      field<&UnitResult::key_figures>("key_figures",
                                      "The few numbers to keep in view; absent: nothing was judged."),
      field<&UnitResult::plots>("plots",
                                "Force, pressures in each stroke and springs, as far as they are here."),
  };
  static constexpr auto info = structure<UnitResult>("UnitResult", "One leg or shock.", fields);
  return info;
}

template <>
const StructInfo& describe<ResultDocument>() {
  static constexpr FieldInfo fields[] = {
      field<&ResultDocument::header>("header", "Whose numbers these are."),
      field<&ResultDocument::rider>("rider", "The rider; absent: the job names none."),
      field<&ResultDocument::machine>("machine", "The machine; absent: the job states none."),
      field<&ResultDocument::conditions>("conditions", "What it is computed for."),
      field<&ResultDocument::findings>("findings", "The judgements: stop first, then look, then fine."),
      field<&ResultDocument::units>("units", "Each leg or shock."),
      field<&ResultDocument::stack>("stack", "The lone stack of a file, beside its units."),
      field<&ResultDocument::key_figures>("key_figures",
                                          "Of the lone stack, the few numbers to keep in view."),
      field<&ResultDocument::oils>("oils", "The oils over temperature."),
      field<&ResultDocument::oil_swaps>("oil_swaps", "Each unit with each other oil of the parts files."),
      field<&ResultDocument::pick_list>("pick_list", "What to lay out."),
  };
  static constexpr auto info = structure<ResultDocument>(
      "ResultDocument",
      "Everything that one job gives. Tables, JSON, packet and page show parts of it and compute no physics. "
      "What is absent was not asked for or could not be computed; `header.warnings` says which.",
      fields, kResultSchema);
  return info;
}

template <>
const StructInfo& describe<KeyDifference>() {
  static constexpr FieldInfo fields[] = {
      field<&KeyDifference::path>("path", "For example \"unit[0].foot_valve.compression.stack\"."),
      field<&KeyDifference::first>("first", "As typed in the first job; empty: not there."),
      field<&KeyDifference::second>("second", "As typed in the second job; empty: not there."),
  };
  static constexpr auto info =
      structure<KeyDifference>("KeyDifference", "One key that differs between two jobs.", fields);
  return info;
}

template <>
const StructInfo& describe<NumberPair>() {
  static constexpr FieldInfo fields[] = {
      field<&NumberPair::unit>("unit", "For example \"fork leg\"."),
      field<&NumberPair::name>("name", "For example \"compression force at 0.5 m/s\"."),
      field<&NumberPair::kind>("kind", "What is measured."),
      field<&NumberPair::first>("first", Unit("of `kind`"),
                                "Of the first job; absent: that document has none."),
      field<&NumberPair::second>("second", Unit("of `kind`"),
                                 "Of the second job; absent: that document has none."),
  };
  static constexpr auto info =
      structure<NumberPair>("NumberPair", "One computed number of both jobs.", fields);
  return info;
}

template <>
const StructInfo& describe<Comparison>() {
  static constexpr FieldInfo fields[] = {
      field<&Comparison::first_title>("first_title", "Title of the first job."),
      field<&Comparison::second_title>("second_title", "Title of the second job."),
      field<&Comparison::keys>("keys", "Keys that differ."),
      field<&Comparison::forces>("forces", "Both strokes at key speeds."),
      field<&Comparison::margins>("margins", "Cavitation, stress, thread."),
      field<&Comparison::springs>("springs", "Force over travel, sag."),
      field<&Comparison::oils>("oils", "Viscosity and density at the working temperature, viscosity index."),
      field<&Comparison::gone>("gone", "Findings of the first job that the second has not."),
      field<&Comparison::come>("come", "Findings of the second job that the first has not."),
  };
  static constexpr auto info =
      structure<Comparison>("Comparison", "Two documents side by side.", fields, kComparisonSchema);
  return info;
}

}  // namespace shimwright::document
