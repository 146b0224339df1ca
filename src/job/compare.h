#pragma once
#include "document/document_comparison.h"
#include "file/spec.h"
#include "job/run.h"

namespace shimwright::job {

/// What differs between two jobs, and what that does.
///
/// Model:  keys are compared as SI values where they have a unit ("0.15 mm" equals "150 um"), else as text;
/// units are
///         paired by name, then by order. Findings are paired by code and place.
/// Tested: compare_test.cc
document::Comparison compare_jobs(const file::JobSpec& first_spec, const document::ResultDocument& first,
                                  const file::JobSpec& second_spec, const document::ResultDocument& second);

}  // namespace shimwright::job
