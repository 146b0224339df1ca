#include "file/default_names.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace shimwright::file {
namespace {

BleedSpec bleed(BleedKind kind, ActsIn acts_in, const std::string& name = "") {
  BleedSpec spec;
  spec.name.value = name;
  spec.name.given = !name.empty();
  spec.kind.value = kind;
  spec.kind.given = spec.acts_in.given = true;
  spec.acts_in.value = acts_in;
  return spec;
}

TEST(DefaultNames, AreOfTheKindAndEachOnce) {
  JobSpec job;
  UnitSpec& shock = job.units.emplace_back();
  shock.kind.value = UnitKind::Shock;
  shock.kind.given = true;
  shock.piston_valve.emplace().bleeds = {
      bleed(BleedKind::Needle, ActsIn::Rebound), bleed(BleedKind::Bored, ActsIn::Both),
      bleed(BleedKind::Notch, ActsIn::Compression, "my notch"), bleed(BleedKind::Leakage, ActsIn::Both)};
  shock.foot_valve.emplace().bleeds = {bleed(BleedKind::Needle, ActsIn::Rebound),
                                       bleed(BleedKind::Needle, ActsIn::Rebound),
                                       bleed(BleedKind::Needle, ActsIn::Compression),
                                       bleed(BleedKind::Bored, ActsIn::Both, "hole of the foot valve")};
  UnitSpec& named = job.units.emplace_back();
  named.name.value = "left leg";
  named.name.given = true;
  name_what_has_none(job);
  EXPECT_EQ(job.units[0].name.value, "shock");
  EXPECT_FALSE(job.units[0].name.given);
  EXPECT_EQ(job.units[1].name.value, "left leg");
  std::vector<std::string> names;
  for (const auto* valve : {&job.units[0].piston_valve, &job.units[0].foot_valve})
    for (const BleedSpec& one : (*valve)->bleeds) names.push_back(one.name.value);
  EXPECT_EQ(names, (std::vector<std::string>{"rebound needle", "hole", "my notch", "gap at the piston band",
                                             "rebound needle of the foot valve",
                                             "rebound needle 2 of the foot valve", "compression needle",
                                             "hole of the foot valve"}));
}

}  // namespace
}  // namespace shimwright::file
