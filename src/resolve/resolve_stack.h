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

/// Where the discs sit when the file does not say their bore: on this diameter, of the post or of the collar
/// that a floating stack slides on [m]; 0 when neither is stated.
struct StackContext {
  std::string name;
  double post_diameter = 0.0;
};

/// Width of the flat face that the oil presses on past the pocket: to the seat and over its land [m].
///
/// Model:  the pressure over it falls with the logarithm of the radius: laminar radial flow between parallel
/// flat
///         faces, inertia left out, as in a hydrostatic bearing with a flat pad. What that film takes of the
///         drop itself counts over the stated land only.
/// Source: [hamrock2004] ch. 13, circular step pad bearing (from memory). Tested: resolve_test.cc
double seat_face_width(const file::DirectionSpec& spec);

/// The stack of one direction; none when `report` takes a fault or something missing.
/// Tested: resolve_test.cc
std::optional<StackModel> resolve_stack(const file::JobSpec& job, const file::DirectionSpec& spec,
                                        const StackContext& context, ResolveReport& report);

}  // namespace shimwright::resolve
