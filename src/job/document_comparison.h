#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/document_finding.h"
#include "job/document_value.h"

namespace shimwright::job {

/// One key that is not the same in two jobs.
struct KeyDifference {
  std::string path;    // "unit[0].foot_valve.compression.stack"
  std::string first;   // as typed; empty: not there
  std::string second;  // as typed; empty: not there
};

/// One computed number in both.
struct NumberPair {
  std::string unit;  // "fork leg"
  std::string name;  // "compression force at 0.5 m/s"
  units::Kind kind = units::Kind::Number;
  std::optional<double> first;  // [SI]; empty: that document has none
  std::optional<double> second;
};

/// Two documents side by side.
struct Comparison {
  std::string first_title;
  std::string second_title;
  std::vector<KeyDifference> keys;
  std::vector<NumberPair> forces;   // both strokes at key speeds
  std::vector<NumberPair> margins;  // cavitation, stress, thread
  std::vector<NumberPair> springs;  // force over travel, sag
  std::vector<NumberPair> oils;
  std::vector<Finding> gone;  // in the first, not in the second
  std::vector<Finding> come;  // in the second, not in the first
};

}  // namespace shimwright::job
