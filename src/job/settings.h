#pragma once
#include <vector>

#include "job/document.h"
#include "job/document_phrase.h"
#include "job/run_sag.h"
#include "job/run_unit.h"
#include "job/spec.h"

namespace shimwright::job {

/// What the rider's guide is made from, beside the unit's own models.
struct SettingsRun {
  Phrase phrase;
  Conditions conditions;
  const EndModel* end = nullptr;  // of this unit's end of the machine; null when not known
};

/// What is set, what to turn for which feel with its computed effect, and what other weather, height and
/// weight ask for. Tested: settings_test.cc
SettingsGuide settings_guide(const JobSpec& job, const UnitModels& models, const UnitResult& unit,
                             const SettingsRun& run);

}  // namespace shimwright::job
