#pragma once
#include <vector>

#include "document/document.h"
#include "document/document_phrase.h"
#include "file/spec.h"
#include "job/run_spring.h"
#include "job/run_unit.h"

namespace shimwright::job {

/// What the rider's guide is made from, beside the unit's own models.
struct SettingsRun {
  document::Phrase phrase;
  resolve::Conditions conditions;
  const EndModel* end = nullptr;  // of this unit's end of the machine; null when not known
};

/// What is set, what to turn for which feel with its computed effect, and what other weather, height and
/// weight ask for. Tested: settings_test.cc
document::SettingsGuide settings_guide(const file::JobSpec& job, const UnitModels& models,
                                       const document::UnitResult& unit, const SettingsRun& run);

}  // namespace shimwright::job
