#pragma once
#include <vector>

#include "file/spec_unit.h"

namespace shimwright::file {

/// Speeds at which a unit of this kind is judged: the four-speed table, and up to where the margins must
/// hold. Common practice, no source.
struct JudgedSpeeds {
  std::vector<double> key;         // four [m/s]
  double working_compression = 0;  // [m/s]
  double working_rebound = 0;      // [m/s]
  double top = 0;                  // end of the curves [m/s]
};
JudgedSpeeds judged_speeds(UnitKind kind);

}  // namespace shimwright::file
