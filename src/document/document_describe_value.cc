#include "document/document_describe_list.h"
#include "document/document_finding.h"

namespace shimwright::document {

template <>
const StructInfo& describe<Outcome>() {
  static constexpr FieldInfo fields[] = {
      field<&Outcome::status>(
          "status",
          "\"converged\" is solved and within the range of the model, \"out of range\" is solved but outside "
          "it, \"stalled\" is not solved: the number is the best so far."),
      field<&Outcome::iterations>("iterations", "Iterations of the outermost loop."),
      field<&Outcome::residual>("residual", kNoUnit, "How far from solved, relative."),
      field<&Outcome::note>("note", "One sentence; empty when converged."),
  };
  static constexpr auto info = structure<Outcome>(
      "Outcome", "How a computation ended. Every face shows anything but \"converged\" beside the number.",
      fields);
  return info;
}

template <>
const StructInfo& describe<Value>() {
  static constexpr FieldInfo fields[] = {
      field<&Value::si>("si", Unit("of its kind"), "The number in the SI unit of its kind."),
      field<&Value::kind>("kind", "What is measured; it decides the unit and the digits."),
      field<&Value::reference>(
          "reference", "How to print a pressure; with \"gauge\" the number counts from the air outside."),
      field<&Value::counted>("counted",
                             "What a plain number counts: \"clicks\", \"turns\"; empty otherwise."),
      field<&Value::typed>("typed", "As written in the job file, \"0.20 mm\"; empty when it was computed."),
  };
  static constexpr auto info = structure<Value>("Value",
                                                "One number that a person reads: in SI, with the kind that "
                                                "says how to print it, and as the technician typed it.",
                                                fields);
  return info;
}

template <>
const StructInfo& describe<NamedValue>() {
  static constexpr FieldInfo fields[] = {
      field<&NamedValue::name>("name", "For example \"engaged turns\", \"force\"."),
      field<&NamedValue::value>("value", "The number."),
  };
  static constexpr auto info =
      structure<NamedValue>("NamedValue", "A number with its name, beside a sentence.", fields);
  return info;
}

template <>
const StructInfo& describe<Place>() {
  static constexpr FieldInfo fields[] = {
      field<&Place::unit>("unit", "For example \"fork leg\"; empty when the finding concerns the whole job."),
      field<&Place::valve>("valve", "For example \"piston valve\"; empty for no valve."),
      field<&Place::stroke>("stroke", "\"compression\" or \"rebound\"; empty for neither."),
      field<&Place::path>("path", "Path of the key in the job file, \"unit[0].piston_valve.nut.torque\"."),
      field<&Place::file>("file", "File that holds the key."),
      field<&Place::line>("line", "Line of the key, from 1; 0 when the file does not hold the key."),
  };
  static constexpr auto info =
      structure<Place>("Place", "Where a finding belongs: in the machine and in the file.", fields);
  return info;
}

template <>
const StructInfo& describe<Finding>() {
  static constexpr FieldInfo fields[] = {
      field<&Finding::code>("code", "Stable code, \"F101\"."),
      field<&Finding::severity>(
          "severity",
          "\"stop\" means do not build this, \"look\" means check this first, \"fine\" is good to know."),
      field<&Finding::place>("place", "Where it belongs."),
      field<&Finding::station>("station", "Station of the work where it is looked at and put right."),
      field<&Finding::title>("title", "One sentence: what is so."),
      field<&Finding::numbers>("numbers", "The numbers that the judgement rests on."),
      field<&Finding::rule>("rule", "One sentence: what is demanded."),
      field<&Finding::source>(
          "source", "Where the rule comes from; \"common practice, no source\" where that is all there is."),
      field<&Finding::remedy>("remedy", "What to do, then why."),
      field<&Finding::in_file>("in_file", "What to write in the job file; empty: nothing."),
      field<&Finding::cures>("cures", "The changes that the remedy names with numbers. Each helps alone."),
  };
  static constexpr auto info =
      structure<Finding>("Finding",
                         "One judgement on the job: what is so, by which numbers and which rule, and what to "
                         "do. docs/findings.md lists the codes.",
                         fields);
  return info;
}

}  // namespace shimwright::document
