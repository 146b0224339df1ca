#pragma once
#include <string>
#include <vector>

namespace shimwright {

/// What a physics module says of a model that cannot be: by field and in SI. `job` finds the place in the
/// file and the user's unit; nothing below `job` knows of either.
struct Problem {
  std::string field;    // path inside the model, "discs[3].outer_radius"
  double got = 0.0;     // SI
  double limit = 0.0;   // SI, the bound that was passed
  std::string allowed;  // in words, "larger than the clamp radius"
};

using Problems = std::vector<Problem>;

}  // namespace shimwright
