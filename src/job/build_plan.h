#pragma once
#include "document/document.h"
#include "document/document_phrase.h"
#include "file/spec.h"

namespace shimwright::job {

/// The ordered work on one unit with this build's own numbers. Steps are numbered from 1 without a break over
/// all sections; a caution stands before the step it belongs to.
///
/// Source: order and checks are common practice, no source; numbers are those of `unit`.
/// Tested: build_plan_test.cc
document::BuildPlan build_plan(const file::UnitSpec& spec, const document::UnitResult& unit,
                               const document::ConditionSummary& conditions, const document::Phrase& phrase);

}  // namespace shimwright::job
