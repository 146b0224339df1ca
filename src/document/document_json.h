#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "document/document.h"
#include "document/document_bench.h"
#include "document/document_walk.h"

namespace shimwright::document {

/// The document as JSON of the schema kResultSchema: docs/result-document.md says every key and its unit.
///
/// Numbers are SI and read back to the same bits. An absent optional has no key. A number that is not finite
/// (non_finite_paths() finds it beforehand) becomes null, never NaN or Infinity.
/// Tested: document_json_test.cc
std::string to_json(const ResultDocument& document, int indent = 2);
std::string to_json(const Comparison& comparison, int indent = 2);
std::string to_json(const BenchDocument& document, int indent = 2);

/// Reads what to_json wrote; unknown keys are passed over, so that an older program reads a newer minor
/// change.
Result<ResultDocument, DocumentFault> from_json(std::string_view text);
Result<BenchDocument, DocumentFault> bench_from_json(std::string_view text);

/// Paths of all numbers in the document that are not finite. Empty for every document that run_job returns.
std::vector<std::string> non_finite_paths(const ResultDocument& document);
std::vector<std::string> non_finite_paths(const BenchDocument& document);

}  // namespace shimwright::document
