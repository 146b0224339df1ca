#pragma once
#include "document/document.h"
#include "document/document_phrase.h"
#include "document/document_plan.h"
#include "file/spec.h"
#include "units/format.h"

namespace shimwright::job {

/// The ordered work on one unit with this build's own numbers. Steps are numbered from 1 without a break over
/// all sections; a caution comes before its step.
///
/// Source: order and checks are common practice, no source; numbers are those of `unit`.
/// Tested: build_plan_test.cc
document::BuildPlan build_plan(const file::UnitSpec& spec, const document::UnitResult& unit,
                               const document::ConditionSummary& conditions, const document::Phrase& phrase);

/// The oil of a unit by its name; "oil" where the job names none.
std::string oil_words(const document::UnitResult& unit);

/// Every part that the build takes out of the drawer, over all equal units: shims, spacers as chosen, nuts,
/// springs, oil. Equal parts of one stack are one line; what is in hand is compared over all lines of the
/// same part. Tested: pick_list_test.cc
document::PickList pick_list(const file::JobSpec& job, const document::ResultDocument& document,
                             units::System system = units::System::Metric);

}  // namespace shimwright::job
