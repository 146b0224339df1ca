#pragma once
#include <vector>

#include "document/document_bench.h"
#include "document/document_phrase.h"
#include "file/spec.h"

namespace shimwright::judge {

/// What is worth saying about a bench document: stop first, then look, then fine.
///
/// Tested: findings_bench_test.cc, one case that triggers and one that does not for each code
std::vector<document::Finding> judge_bench(const file::JobSpec& job, const document::BenchDocument& document,
                                           const document::Phrase& phrase);

}  // namespace shimwright::judge
