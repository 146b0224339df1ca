#include "file/default_names.h"

#include <algorithm>
#include <string>
#include <vector>

#include "base/terms.h"

namespace shimwright::file {
namespace {

std::string word_of(const BleedSpec& bleed) {
  std::string way;
  if (const ActsIn acts = bleed.acts_in.value_or(ActsIn::Both); acts != ActsIn::Both)
    way = word(acts == ActsIn::Compression ? Stroke::Compression : Stroke::Rebound) + " ";
  switch (bleed.kind.value_or(BleedKind::Needle)) {
    case BleedKind::Needle:
      return way + "needle";
    case BleedKind::Bored:
      return way + "hole";
    case BleedKind::Notch:
      return way + "notch";
    case BleedKind::Leakage:
      return way + "gap at the piston band";
  }
  return way + "bleed";
}

void name_bleeds(std::optional<ValveSpec>& valve, ValvePlace place, std::vector<std::string>& taken) {
  if (!valve) return;
  for (BleedSpec& bleed : valve->bleeds) {
    if (bleed.name.value.empty()) {
      bleed.name.value = word_of(bleed);
      const auto is_taken = [&] { return std::ranges::find(taken, bleed.name.value) != taken.end(); };
      if (is_taken()) bleed.name.value += " of the " + word(place);
      for (int n = 2; is_taken(); ++n)
        bleed.name.value = word_of(bleed) + " " + std::to_string(n) + " of the " + word(place);
    }
    taken.push_back(bleed.name.value);
  }
}

}  // namespace

void name_what_has_none(JobSpec& job) {
  for (UnitSpec& unit : job.units) {
    if (unit.name.value.empty()) unit.name.value = word(unit.kind.value_or(UnitKind::ForkLeg));
    std::vector<std::string> taken;
    for (const auto* valve : {&unit.piston_valve, &unit.foot_valve})
      if (*valve)
        for (const BleedSpec& bleed : (*valve)->bleeds)
          if (!bleed.name.value.empty()) taken.push_back(bleed.name.value);
    name_bleeds(unit.piston_valve, ValvePlace::Piston, taken);
    name_bleeds(unit.foot_valve, ValvePlace::Foot, taken);
  }
}

}  // namespace shimwright::file
