#pragma once
#include "document/document_post.h"
#include "document/document_stack.h"
#include "report/scene.h"
#include "units/format.h"

namespace shimwright::report {

struct StackDrawingOptions {
  double width = 420.0;   // [pt]
  double height = 230.0;  // at most [pt]; the exaggeration follows from it
  const document::StackShape* bent =
      nullptr;  // drawn over the flat stack in ghost line; null: the stack at rest
  const document::StackPoint* point =
      nullptr;  // its contacts become ticks, its worst disc is named; may be null
  units::System system = units::System::Metric;
};

/// Half section of a stack on its seat: radius to scale, thickness and lift in one stated exaggeration, equal
/// shims bracketed with their count, labels outside, the flow as an arrow under the face shim.
Scene stack_scene(const document::StackResult& stack, const StackDrawingOptions& options);

/// How much larger than the radius the thickness is drawn: the largest of 1, 2, 4, 8, 16, 32 that fits.
int exaggeration(const document::StackGeometry& geometry, double extra_lift, double points_per_metre,
                 double height);

/// The post with all that is on it, in half section along its axis: to scale in height, shoulder at the left,
/// the thread, the nut and what protrudes; each piece named outside with its height. `width` in [pt].
Scene post_scene(const document::PostResult& post, double width, units::System system);

}  // namespace shimwright::report
