#pragma once
#include "document/document_bench.h"
#include "report/article.h"
#include "units/format.h"

namespace shimwright::report {

/// The damper in motion, for the packet: findings, what each run gave, its plots, and the try by hand.
Article bench_sheet(const document::BenchDocument& document, units::System system, double width);

}  // namespace shimwright::report
