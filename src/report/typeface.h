#pragma once
#include <pangomm.h>

#include "report/scene.h"

namespace shimwright::report::internal {

/// A layout of one line in the embedded typeface. For paint.cc and text_metrics.cc only: no other header of
/// this module may know of a third-party library.
Glib::RefPtr<Pango::Layout> text_layout(std::string_view text, double size, Weight weight);

}  // namespace shimwright::report::internal
