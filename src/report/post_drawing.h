#pragma once
#include "document/document_post.h"
#include "report/scene.h"
#include "units/format.h"

namespace shimwright::report {

/// The post with all that is on it, in half section along its axis: to scale in height, shoulder at the left,
/// the thread, the nut and what protrudes; each piece named outside with its height. `width` in [pt].
Scene post_scene(const document::PostResult& post, double width, units::System system);

}  // namespace shimwright::report
