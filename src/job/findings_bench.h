#pragma once
#include <vector>

#include "job/document_bench.h"
#include "job/document_phrase.h"
#include "job/spec.h"

namespace shimwright::job {

/// What is worth saying about a bench document: stop first, then look, then fine.
///
/// Tested: findings_bench_test.cc, one case that triggers and one that does not for each code
std::vector<Finding> judge_bench(const JobSpec& job, const BenchDocument& document, const Phrase& phrase);

}  // namespace shimwright::job
