#pragma once
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "job/document_value.h"

namespace shimwright::job {

/// Where a finding belongs: in the machine, and in the file.
struct Place {
  std::string unit;    // "fork leg"; empty when it concerns the whole job
  std::string valve;   // "piston valve" or empty
  std::string stroke;  // "compression", "rebound" or empty
  std::string path;    // key path in the job file, "unit[0].piston_valve.nut.torque"
  std::string file;    // file of that key
  int line = 0;        // 1-based; 0 when the file does not hold the key
};

/// One judgement on the job, worth acting on: what is so, by which numbers and which rule, and what to do.
/// Severity::Note is shown as "fine", Look as "look", Stop as "stop"; docs/findings.md lists the codes.
struct Finding {
  std::string code;  // stable, "F101"
  Severity severity = Severity::Note;
  Place place;

  std::string title;                // one sentence, what is so
  std::vector<NamedValue> numbers;  // those the judgement rests on
  std::string rule;                 // one sentence, what is demanded
  std::string source;  // where the rule comes from; "common practice, no source" where that is all there is
  std::string remedy;  // what to do, then why
};

}  // namespace shimwright::job
