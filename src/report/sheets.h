#pragma once
#include "document/document.h"
#include "document/document_bench.h"
#include "report/article.h"
#include "units/format.h"

namespace shimwright::report {

/// The sheet above the vice: what to pick, in which order to work, where to stop and measure, how to fill,
/// bleed and accept. `width` is that of its figures [pt].
Article build_sheet(const document::ResultDocument& document, units::System system, double width);

/// Job, revision and date as every foot shows them.
Foot foot_of(const document::ResultDocument& document);

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

/// The damper in motion, for the packet: findings, what each run gave, its plots, and the try by hand.
Article bench_sheet(const document::BenchDocument& document, units::System system, double width);

}  // namespace shimwright::report
