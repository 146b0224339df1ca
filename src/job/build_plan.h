#pragma once
#include "job/document.h"
#include "job/document_phrase.h"
#include "job/spec.h"

namespace shimwright::job {

/// The ordered work on one unit with this build's own numbers. Steps are numbered from 1 without a break over
/// all sections; a caution stands before the step it belongs to.
///
/// Source: order and checks are common practice, no source; numbers are those of `unit`.
/// Tested: build_plan_test.cc
BuildPlan build_plan(const UnitSpec& spec, const UnitResult& unit, const ConditionSummary& conditions,
                     const Phrase& phrase);

}  // namespace shimwright::job
