#pragma once
#include "document/document.h"
#include "report/article.h"
#include "units/format.h"

namespace shimwright::report {

/// What the guide may take of its page.
struct GuideRoom {
  double figure_height = 160.0;  // of each spring curve [pt]; 0: none
  double gap_scale = 1.0;        // of the white between blocks
  bool per_click = true;         // the table of what one click does
  bool headings = true;          // over the tables, whose columns say the same
};

/// The rider's page: what is set, what to turn for which feel and what that does, other weather, height and
/// weight. `width` is that of its figures [pt].
Article settings_guide(const document::ResultDocument& document, units::System system, double width,
                       const GuideRoom& room = {});

/// The same with as large a figure as leaves it on one page.
Article one_page_guide(const document::ResultDocument& document, units::System system, Paper paper);

}  // namespace shimwright::report
