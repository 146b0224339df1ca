#pragma once
#include <vector>

#include "document/document.h"
#include "document/document_bench.h"
#include "document/document_phrase.h"
#include "file/spec.h"

namespace shimwright::judge {

/// Everything worth saying about a job, from its computed document: stop first, then look, then fine, each in
/// the order of the codes. docs/findings.md lists all codes with their rules.
///
/// Tested: findings_test.cc, one case that triggers and one that does not for each code
std::vector<document::Finding> judge(const file::JobSpec& job, const document::ResultDocument& document,
                                     const std::vector<file::Missing>& missing,
                                     const document::Phrase& phrase);

/// A code with its rule in one sentence, for the table of codes.
struct FindingCode {
  const char* code;
  Severity worst;    // that it is given with
  Station station;   // where it is looked at, unless it is about one key of the file
  const char* rule;  // what is demanded
  const char* source;
};

/// All codes, ascending.
const std::vector<FindingCode>& finding_codes();

/// What is worth saying about a bench document: stop first, then look, then fine.
///
/// Tested: findings_bench_test.cc, one case that triggers and one that does not for each code
std::vector<document::Finding> judge_bench(const file::JobSpec& job, const document::BenchDocument& document,
                                           const document::Phrase& phrase);

}  // namespace shimwright::judge
