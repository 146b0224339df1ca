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

}  // namespace shimwright::document
