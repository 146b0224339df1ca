#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "report/scene.h"

namespace shimwright::report {

/// Width of one line in the program's own typeface, tabular figures on [pt].
double text_width(std::string_view text, double size, Weight weight = Weight::Regular);

/// As much of the start of one line as is no wider than `width` [pt], in whole characters.
std::string fitting_start(std::string_view text, double width, double size, Weight weight = Weight::Regular);

/// The text broken at spaces so that no line is wider than `width` [pt]; a single longer word is cut.
std::vector<std::string> wrapped(std::string_view text, double width, double size,
                                 Weight weight = Weight::Regular);

/// The characters of `text` for which neither the program's typeface nor one of this machine has a shape:
/// they would print as empty boxes. Empty when all is well.
std::string missing_glyphs(std::string_view text);

}  // namespace shimwright::report
