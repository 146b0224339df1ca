#include "job/run_header.h"

#include <fmt/core.h>

#include <algorithm>

#include "file/schema.h"

namespace shimwright::job {
namespace {

/// Of a needle that states no last click: what a job file may state.
int most_clicks_in_a_file() {
  return static_cast<int>(file::key_at(file::job_schema(), "unit.piston_valve.bleed.clicks")->bounds.high);
}

Diagnostic beyond_the_last(const ClickSetting& setting, int most) {
  Diagnostic diagnostic;
  diagnostic.code = "E0906";
  diagnostic.what = fmt::format("the setting of \"{}\" is beyond the last click", setting.adjuster);
  diagnostic.got = fmt::format("{}", setting.clicks);
  diagnostic.expected = fmt::format("0 to {}, counted outwards from seated", most);
  diagnostic.remedy = "ask for clicks that the needle has";
  return diagnostic;
}

struct Needle {
  file::BleedSpec* bleed = nullptr;
  std::string with_unit;  // its name behind that of its unit
};

std::vector<Needle> needles_of(file::JobSpec& job) {
  std::vector<Needle> needles;
  for (file::UnitSpec& unit : job.units)
    for (auto* valve : {&unit.piston_valve, &unit.foot_valve}) {
      if (!*valve) continue;
      for (file::BleedSpec& bleed : (*valve)->bleeds)
        if (bleed.kind.value_or(file::BleedKind::Bored) == file::BleedKind::Needle)
          needles.push_back({&bleed, name_in_unit(unit.name.value, bleed.name.value)});
    }
  return needles;
}

/// What a setting may call the needles: by their own name where one unit has it, else with the unit's too.
std::vector<std::string> names_of(const std::vector<Needle>& needles) {
  std::vector<std::string> names;
  for (const Needle& needle : needles) {
    const auto n_alike = std::ranges::count_if(
        needles, [&](const Needle& other) { return other.bleed->name.value == needle.bleed->name.value; });
    names.push_back(n_alike == 1 ? needle.bleed->name.value : needle.with_unit);
  }
  return names;
}

}  // namespace

std::string name_in_unit(std::string_view unit, std::string_view adjuster) {
  return fmt::format("{}: {}", unit, adjuster);
}

void set_clicks(file::JobSpec& job, const std::vector<ClickSetting>& settings, Diagnostics& diagnostics) {
  const std::vector<Needle> needles = needles_of(job);
  for (const ClickSetting& setting : settings) {
    bool found = false;
    for (const Needle& needle : needles) {
      file::BleedSpec& bleed = *needle.bleed;
      if (setting.adjuster != bleed.name.value && setting.adjuster != needle.with_unit) continue;
      const int most = bleed.clicks_max ? bleed.clicks_max.value : most_clicks_in_a_file();
      if (setting.clicks < 0 || setting.clicks > most) diagnostics.push_back(beyond_the_last(setting, most));
      bleed.clicks.value = setting.clicks;
      bleed.clicks.given = true;
      found = true;
    }
    if (found) continue;
    const std::vector<std::string> known = names_of(needles);
    Diagnostic diagnostic;
    diagnostic.code = "E0904";
    diagnostic.what = "no adjuster of this job has this name";
    diagnostic.got = setting.adjuster;
    std::string names;
    for (const std::string& name : known) names += (names.empty() ? "" : ", ") + ("\"" + name + "\"");
    diagnostic.expected = names.empty() ? "the job has no needle" : names;
    std::vector<std::string> ways_to_say = known;
    for (const Needle& needle : needles) ways_to_say.push_back(needle.with_unit);
    const std::string nearest = nearest_name(setting.adjuster, ways_to_say);
    diagnostic.remedy = nearest.empty() ? "Write one of these names." : "Write \"" + nearest + "\".";
    diagnostics.push_back(std::move(diagnostic));
  }
}

}  // namespace shimwright::job
