#pragma once
#include <string>
#include <vector>

#include "base/outcome.h"
#include "base/terms.h"
#include "units/quantity.h"

// What each struct and each member means: document_describe_value.cc

namespace shimwright::document {

struct Value {
  double si = 0.0;
  units::Kind kind = units::Kind::Number;
  units::Reference reference = units::Reference::None;
  std::string counted{};
  std::string typed{};
};

struct NamedValue {
  std::string name;
  Value value;
};

/// Empty when all is well; else what went wrong and why, to stand wherever the number stands.
std::string status_words(const Outcome& outcome);

}  // namespace shimwright::document
