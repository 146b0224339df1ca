#pragma once
#include <string>
#include <vector>

#include "base/outcome.h"
#include "base/terms.h"
#include "units/quantity.h"

namespace shimwright::job {

/// One number that a person reads: in SI, of a kind that says how a face prints it, and as the technician
/// typed it.
struct Value {
  double si = 0.0;
  units::Kind kind = units::Kind::Number;
  units::Reference reference =
      units::Reference::None;  // of a pressure: how to print it; Gauge means si is gauge
  std::string counted{};       // behind a plain number: "clicks", "turns"; empty otherwise
  std::string typed{};         // "0.20 mm" as written in the job file; empty when it was computed
};

/// A named number beside a sentence: {"force", 412 N}.
struct NamedValue {
  std::string name;  // "engaged turns"
  Value value;
};

}  // namespace shimwright::job
