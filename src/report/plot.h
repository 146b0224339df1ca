#pragma once
#include <string>
#include <vector>

#include "document/document_plot.h"
#include "report/scene.h"
#include "units/format.h"

namespace shimwright::report {

struct PlotSize {
  double width = 420, height = 260;  // [pt]
};

/// A plot of the document as a drawing: what it shows is decided there. Ticks at 1-2-5, zero line in ink,
/// faint grid; a line's name at its end, a loop's on the loop itself, none over another. Pieces with a value
/// that is not finite, and lines that are drawn only on request, are left out.
Scene plot_scene(const document::PlotSpec& plot, units::System system, PlotSize size = {});

/// Ticks at 1, 2 or 5 times a power of ten that cover [min, max] with about `wanted` steps.
std::vector<double> ticks_125(double min, double max, int wanted);

/// A number at a tick, with just the digits that its step needs and U+2212 for minus.
std::string tick_text(double value, double step);

}  // namespace shimwright::report
