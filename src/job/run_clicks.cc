#include "job/run_header.h"

namespace shimwright::job {

void set_clicks(file::JobSpec& job, const std::vector<ClickSetting>& settings, Diagnostics& diagnostics) {
  for (const ClickSetting& setting : settings) {
    std::vector<std::string> known;
    bool found = false;
    for (file::UnitSpec& unit : job.units) {
      for (auto* valve : {&unit.piston_valve, &unit.foot_valve}) {
        if (!*valve) continue;
        for (file::BleedSpec& bleed : (*valve)->bleeds) {
          if (bleed.kind.value_or(file::BleedKind::Bored) != file::BleedKind::Needle) continue;
          known.push_back(bleed.name.value);
          if (bleed.name.value != setting.adjuster) continue;
          bleed.clicks.value = setting.clicks;
          bleed.clicks.given = true;
          found = true;
        }
      }
    }
    if (found) continue;
    Diagnostic diagnostic;
    diagnostic.code = "E0904";
    diagnostic.what = "no adjuster of this job has this name";
    diagnostic.got = setting.adjuster;
    std::string names;
    for (const std::string& name : known) names += (names.empty() ? "" : ", ") + ("\"" + name + "\"");
    diagnostic.expected = names.empty() ? "the job has no needle" : names;
    const std::string nearest = nearest_name(setting.adjuster, known);
    diagnostic.remedy = nearest.empty() ? "Write one of these names." : "Write \"" + nearest + "\".";
    diagnostics.push_back(std::move(diagnostic));
  }
}

}  // namespace shimwright::job
