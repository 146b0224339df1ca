#include "job/cavitation_advice.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "job/test_jobs.h"
#include "judge/pressure_limits.h"

namespace shimwright::job {
namespace {

using testing_jobs::changed;
using testing_jobs::job_text;
using testing_jobs::run;

const document::CavitationResult& cavitation_in(const document::ResultDocument& document, Stroke stroke) {
  for (const document::CavitationResult& result : document.units.at(0).force->cavitation)
    if (result.stroke == stroke) return result;
  throw std::out_of_range("no such stroke");
}

/// The shock of the tests with so much gas, and its foot valve's compression needle so many clicks out.
std::string shock_with(const std::string& pressure) {
  return changed(job_text("shock"), "pressure = \"10 bar(g)\"", "pressure = \"" + pressure + "\"");
}

const document::Cure* cure_of_key(const document::CavitationResult& result, const std::string& end_of_path) {
  const auto found = std::ranges::find_if(result.cures, [&](const document::Cure& cure) {
    return cure.changes.at(0).path.ends_with(end_of_path);
  });
  return found == result.cures.end() ? nullptr : &*found;
}

TEST(CavitationAdvice, ThePressureToSetBringsTheMarginThatItSays) {
  const document::ResultDocument before = run(shock_with("0.2 bar(g)"));
  for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
    const document::CavitationResult& result = cavitation_in(before, stroke);
    if (result.advice.empty()) continue;
    const document::Cure* cure = cure_of_key(result, "reservoir.pressure");
    ASSERT_NE(cure, nullptr) << result.advice;
    const std::string set = std::to_string(cure->changes.at(0).to.si / 1e5) + " bar(g)";
    const double margin = cavitation_in(run(shock_with(set)), stroke).margin_at_working_speed;
    EXPECT_NEAR(margin, cure->effects.at(0).after.si,
                1.0);  // of pascals: the gauge is written with six decimals
    EXPECT_GE(margin, kMarginWanted - 1.0);
  }
}

TEST(CavitationAdvice, NoPressureBeyondWhatAnotherFindingAllows) {
  // a mid-valve so stiff that only tens of bar would keep the rod chamber full
  std::string text = changed(shock_with("1 bar(g)"), "4 x 40 x 0.20 mm", "12 x 40 x 0.30 mm");
  const document::ResultDocument document = run(text);
  for (const document::CavitationResult& result : document.units[0].force->cavitation)
    if (const document::Cure* cure = cure_of_key(result, "reservoir.pressure")) {
      EXPECT_LE(cure->changes.at(0).to.si, judge::kReservoirPressure.look) << result.advice;
    }
}

/// The stacks that crack or bend for good, by code and place.
std::vector<std::string> broken_stacks(const document::ResultDocument& document) {
  std::vector<std::string> places;
  for (const document::Finding& finding : document.findings)
    if (finding.code == "F301" || finding.code == "F302") places.push_back(finding.code + finding.place.path);
  return places;
}

// while the oil tears a stack is spared a part of the drop: whole again, it must bear all of it
TEST(CavitationAdvice, NoPressureUnderWhichAStackCracks) {
  int n_told = 0, n_kept_back = 0;
  for (const int strength : {460, 480, 780}) {
    const auto with = [&](const std::string& pressure) {
      return run(changed(changed(shock_with(pressure), "4 x 40 x 0.20 mm", "12 x 40 x 0.20 mm"),
                         "fatigue_strength = \"780 MPa\"",
                         "fatigue_strength = \"" + std::to_string(strength) + " MPa\""));
    };
    const document::ResultDocument before = with("1 bar(g)");
    const document::CavitationResult& result = cavitation_in(before, Stroke::Compression);
    ASSERT_LT(result.margin_at_working_speed, result.margin_wanted);
    const document::Cure* cure = cure_of_key(result, "reservoir.pressure");
    ++(cure != nullptr ? n_told : n_kept_back);
    if (cure == nullptr) continue;
    const std::vector<std::string> known = broken_stacks(before);
    for (const std::string& place :
         broken_stacks(with(std::to_string(cure->changes.at(0).to.si / 1e5) + " bar(g)")))
      EXPECT_THAT(known, testing::Contains(place)) << strength << " MPa";
  }
  EXPECT_GT(n_told, 0);
  EXPECT_GT(n_kept_back, 0);
}

TEST(CavitationAdvice, AnOpenBathHasNoReservoirToRaise) {
  std::string text = changed(job_text("fork"), "layout = \"closed cartridge\"", "layout = \"open bath\"");
  for (const char* table : {"[unit.reservoir]", "[unit.fill]"}) {
    const std::size_t begin = text.find(table);
    text.erase(begin, text.find("\n[", begin) - begin);
  }
  const document::ResultDocument document = run(text);
  for (const document::CavitationResult& result : document.units[0].force->cavitation)
    EXPECT_THAT(result.advice, testing::Not(testing::HasSubstr("reservoir")));
}

TEST(CavitationAdvice, IsEmptyWhileTheMarginIsKept) {
  const document::ResultDocument document = run(shock_with("12 bar(g)"));
  for (const document::CavitationResult& result : document.units[0].force->cavitation) {
    if (result.margin_at_working_speed < result.margin_wanted) continue;
    EXPECT_EQ(result.advice, "");
    EXPECT_TRUE(result.cures.empty());
  }
}

}  // namespace
}  // namespace shimwright::job
