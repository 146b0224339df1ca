#pragma once
#include "job/document_comparison.h"
#include "job/run.h"
#include "job/spec.h"

namespace shimwright::job {

/// What differs between two jobs, and what that does.
///
/// Model:  keys are compared as SI values where they have a unit ("0.15 mm" equals "150 um"), else as text;
/// units are
///         paired by name, then by order. Findings are paired by code and place.
/// Tested: compare_test.cc
Comparison compare_jobs(const JobSpec& first_spec, const ResultDocument& first, const JobSpec& second_spec,
                        const ResultDocument& second);

}  // namespace shimwright::job
