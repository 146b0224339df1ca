#pragma once
#include <vector>

#include "cli/table.h"
#include "document/document_bench.h"
#include "units/format.h"

namespace shimwright::cli {

/// Runs in figures, pressures and heat, what the turns show, the try by hand; with `loops` (for a CSV) also
/// every loop point by point.
std::vector<Table> bench_tables(const document::BenchDocument& document, units::System system, bool loops);

/// The try by hand.
Table release_table(const std::string& unit, const document::ReleaseTest& test, units::System system);

}  // namespace shimwright::cli
