#pragma once
#include <vector>

#include "job/document.h"
#include "job/document_phrase.h"
#include "job/spec.h"

namespace shimwright::job {

/// Everything worth saying about a job, from its computed document: stop first, then look, then fine, each in
/// the order of the codes. docs/findings.md lists all codes with their rules.
///
/// Tested: findings_test.cc, one case that triggers and one that does not for each code
std::vector<Finding> judge(const JobSpec& job, const ResultDocument& document,
                           const std::vector<Missing>& missing, const Phrase& phrase);

/// A code with its rule in one sentence, for the table of codes.
struct FindingCode {
  const char* code;
  Severity worst;    // that it is given with
  const char* rule;  // what is demanded
  const char* source;
};

/// All codes, ascending.
const std::vector<FindingCode>& finding_codes();

}  // namespace shimwright::job
