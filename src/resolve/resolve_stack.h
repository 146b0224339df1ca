#pragma once
#include <optional>
#include <string>
#include <vector>

#include "file/spec.h"
#include "plate/stack.h"
#include "resolve/resolve_places.h"
#include "resolve/resolve_report.h"

namespace shimwright::resolve {

/// A stack ready to be computed, with what a face calls its discs.
struct StackModel {
  std::string name;  // "fork leg, piston valve, compression"
  plate::Stack stack;
  std::vector<std::string> labels;  // of each disc, "21 x 0.10 mm" (as stack.discs)
  std::vector<int> entry;           // index into DirectionSpec::stack of each disc
  FieldPlaces places;
  file::Origin origin;
};

/// Where the discs sit when the file does not say their bore: on this diameter [m]; 0 when no post is stated.
struct StackContext {
  std::string name;
  double post_diameter = 0.0;
};

/// The stack of one direction; none when `report` takes a fault or something missing.
/// Tested: resolve_test.cc
std::optional<StackModel> resolve_stack(const file::JobSpec& job, const file::DirectionSpec& spec,
                                        const StackContext& context, ResolveReport& report);

}  // namespace shimwright::resolve
