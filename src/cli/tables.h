#pragma once
#include <string>
#include <vector>
#include "document/document_bench.h"

#include "cli/asked.h"
#include "cli/table.h"
#include "document/document.h"
#include "document/document_comparison.h"
#include "units/format.h"

namespace shimwright::cli {

/// What each verb shows, as tables. They only choose and format; every number is in the document.
std::vector<Table> key_figure_tables(const document::ResultDocument& document, units::System system);
std::vector<Table> stack_tables(const document::ResultDocument& document, units::System system);
std::vector<Table> force_tables(const document::ResultDocument& document, units::System system);
std::vector<Table> spring_tables(const document::ResultDocument& document, units::System system);
std::vector<Table> oil_tables(const document::ResultDocument& document, units::System system);
std::vector<Table> assembly_tables(const document::ResultDocument& document, units::System system);
std::vector<Table> comparison_tables(const document::Comparison& comparison, units::System system);

/// The tables as they were asked for: as text, as CSV with an empty line between, or the one with that name.
/// False when there is none of that name, after a list of the names.
bool print_tables(const Streams& s, const std::vector<Table>& tables, const Asked& asked);

/// Findings as a person reads them: the word, the sentence, the numbers, the rule with its source, what to
/// do.
std::string findings_text(const document::ResultDocument& document, units::System system);
std::string findings_text(const std::vector<document::Finding>& findings, units::System system);

/// Whose numbers these are: title, revision, theory, and every status that is not converged.
std::string heading_text(const document::ResultDocument& document);
std::string heading_text(const document::Header& header);

/// A value for a terminal: with its unit, or with what it counts.
std::string value_text(const document::Value& value, units::System system);

// bench: the damper in motion

/// Runs in figures, pressures and heat, what the turns show, the try by hand; with `loops` (for a CSV) also
/// every loop point by point.
std::vector<Table> bench_tables(const document::BenchDocument& document, units::System system, bool loops);

/// The try by hand.
Table release_table(const std::string& unit, const document::ReleaseTest& test, units::System system);

}  // namespace shimwright::cli
