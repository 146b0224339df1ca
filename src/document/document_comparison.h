#pragma once
#include <optional>
#include <string>
#include <vector>

#include "document/document_finding.h"
#include "document/document_value.h"

// What each struct and each member means: document_describe_whole.cc

namespace shimwright::document {

struct KeyDifference {
  std::string path;
  std::string first;
  std::string second;
};

struct NumberPair {
  std::string unit;
  std::string name;
  units::Kind kind = units::Kind::Number;
  std::optional<double> first;
  std::optional<double> second;
};

struct Comparison {
  std::string first_title;
  std::string second_title;
  std::vector<KeyDifference> keys;
  std::vector<NumberPair> forces;
  std::vector<NumberPair> margins;
  std::vector<NumberPair> springs;
  std::vector<NumberPair> oils;
  std::vector<Finding> gone;
  std::vector<Finding> come;
};

}  // namespace shimwright::document
