#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "judge/findings.h"
#include "judge/test_judged.h"

// Every number at which a finding begins, and at which it becomes worse, is looked at from both sides: a
// little inside nothing is said (or the milder thing), a little outside it is.

namespace shimwright::judge {
namespace {

using testing_judged::Benched;
using testing_judged::Leg;

constexpr double kHair = 1e-6;  // relative: "a little"

/// Of each code the worst severity that it is given with.
using Said = std::map<std::string, Severity>;

Said said(const std::vector<document::Finding>& findings) {
  Said worst;
  for (const document::Finding& one : findings) {
    const auto [at, is_new] = worst.emplace(one.code, one.severity);
    if (!is_new) at->second = std::max(at->second, one.severity);
  }
  return worst;
}

/// What `value` at that place brings: "stop", "look", "fine" or "" for this code.
std::string word_of(const Said& all, const std::string& code) {
  const auto found = all.find(code);
  return found == all.end() ? "" : word(found->second);
}

struct Limit {
  const char* code;
  double at;
  const char* below;
  const char* above;
  std::function<void(Leg&, double)> set;
};

const std::vector<Limit>& limits() {
  static const std::vector<Limit> all = {
      {"F201", 0.0, "stop", "", [](Leg& leg, double x) { leg.cavitation().margin_at_working_speed = x; }},
      {"F203", 20e3, "look", "", [](Leg& leg, double x) { leg.cavitation().margin_at_working_speed = x; }},
      {"F201", 1.5, "stop", "", [](Leg& leg, double x) { leg.cavitation().speed_lost = x; }},
      {"F202", 0.0, "stop", "",
       [](Leg& leg, double x) {
         leg.cavitation().stroke = Stroke::Rebound;
         leg.cavitation().margin_at_working_speed = x;
       }},
      {"F204", 1.5, "look", "", [](Leg& leg, double x) { leg.direction().choking_speed = x; }},
      {"F205", 1.5, "", "look", [](Leg& leg, double x) { leg.direction().opening_speed = x; }},
      {"F206", 1e-4, "", "look", [](Leg& leg, double x) { leg.direction().law.front().bleed_flow = x; }},
      {"F207", 14.0, "", "look",
       [](Leg& leg, double x) {
         document::BleedResult& bleed = leg.unit().valves.front().bleeds.emplace_back();
         bleed.clicks = 14;
         bleed.full_area_clicks = 28.0 - x;
       }},
      {"F208", 20e5, "", "look", [](Leg& leg, double x) { leg.set_gas(x); }},
      {"F208", 35e5, "look", "stop", [](Leg& leg, double x) { leg.set_gas(x); }},
      {"F208", 15e5, "", "look", [](Leg& leg, double x) { leg.set_air(x); }},
      {"F208", 25e5, "look", "stop", [](Leg& leg, double x) { leg.set_air(x); }},
      {"F210", 40e5, "", "look", [](Leg& leg, double x) { leg.set_rest(x); }},
      {"F210", 70e5, "look", "stop", [](Leg& leg, double x) { leg.set_rest(x); }},
      {"F503", 0.0, "stop", "", [](Leg& leg, double x) { leg.set_room(x); }},
      // less oil the further below zero
      {"F502", -4e-6, "", "look", [](Leg& leg, double x) { leg.set_fill(400e-6, x, 20e-6); }},
      {"F502", 4e-6, "", "look", [](Leg& leg, double x) { leg.set_fill(400e-6, x, 20e-6); }},
      {"F502", -10e-6, "look", "stop", [](Leg& leg, double x) { leg.set_fill(400e-6, x, 20e-6); }},
      {"F502", -5e-6, "", "look", [](Leg& leg, double x) { leg.set_fill(200e-6, x, 50e-6); }},
      // the outer tube: 2 % either way
      {"F502", 8e-6, "", "look", [](Leg& leg, double x) { leg.set_outer_fill(400e-6, x); }},
      {"F502", -8e-6, "", "look", [](Leg& leg, double x) { leg.set_outer_fill(400e-6, x); }},
      {"F506", 0.121, "", "look", [](Leg& leg, double x) { leg.set_level(0.12, x); }},
      {"F506", 0.119, "look", "", [](Leg& leg, double x) { leg.set_level(0.12, x); }},
      {"F301", 1.0, "stop", "", [](Leg& leg, double x) { leg.disc().yield_margin = x; }},
      {"F302", 1.0, "stop", "", [](Leg& leg, double x) { leg.disc().fatigue_margin = x; }},
      {"F303", 1.0, "", "look", [](Leg& leg, double x) { leg.disc().fatigue_margin = x; }},
      {"F303", 1.2, "look", "", [](Leg& leg, double x) { leg.disc().fatigue_margin = x; }},
      {"F305", 1.0, "", "look", [](Leg& leg, double x) { leg.stack().points.front().slope_ratio = x; }},
      {"F306", 1.0, "", "look",
       [](Leg& leg, double x) {
         leg.stack().points.front().buckling_disc = 1;
         leg.stack().points.front().buckling_ratio = x;
       }},
      {"F308", 0.075e-3, "", "look",
       [](Leg& leg, double x) {
         leg.stack().theory = Theory::Linear;
         leg.stack().points.front().float_used = 0.3e-3;
         leg.stack().points.front().lift_at_seat = 0.3e-3 + x;
       }},
      // a float of 1 mm that is built with a tolerance of 0.1 mm and measured to 0.05 mm
      {"F115", 0.1e-3, "stop", "look", [](Leg& leg, double x) { leg.set_float(1e-3, x); }},
      {"F115", 0.85e-3, "look", "", [](Leg& leg, double x) { leg.set_float(1e-3, x); }},
      {"F115", 1.15e-3, "", "look", [](Leg& leg, double x) { leg.set_float(1e-3, x); }},
      // within a tenth of a millimetre of the end counts as full travel
      {"F401", 0.2999, "stop", "", [](Leg& leg, double x) { leg.springs().coil_bind_travel = x; }},
      {"F404", 0.2999, "stop", "", [](Leg& leg, double x) { leg.springs().air_end_travel = x; }},
      {"F402", 0.060, "look", "",
       [](Leg& leg, double x) { leg.sag(document::SagLoad::Static).wheel_travel = x; }},
      {"F402", 0.080, "", "look",
       [](Leg& leg, double x) { leg.sag(document::SagLoad::Static).wheel_travel = x; }},
      {"F403", 0.060, "look", "",
       [](Leg& leg, double x) { leg.sag(document::SagLoad::Rider).wheel_travel = x; }},
      {"F403", 0.080, "", "look",
       [](Leg& leg, double x) { leg.sag(document::SagLoad::Rider).wheel_travel = x; }},
      {"F505", 0.0, "", "look",
       [](Leg& leg, double x) { leg.document.pick_list.lines.emplace_back().short_by = x; }},
  };
  return all;
}

TEST(JudgedLimits, TheLegItselfIsInOrder) {
  Leg leg;
  for (const document::Finding& one : judge(leg.job, leg.document, {}, {}))
    EXPECT_LT(one.severity, Severity::Look) << one.code << ' ' << one.title;
}

TEST(JudgedLimits, EachFindingBeginsAtItsNumberAndNotBesideIt) {
  for (const Limit& limit : limits()) {
    const double hair = limit.at == 0.0 ? kHair : kHair * limit.at;
    Leg below, above;
    limit.set(below, limit.at - hair);
    limit.set(above, limit.at + hair);
    EXPECT_EQ(word_of(said(judge(below.job, below.document, {}, {})), limit.code), limit.below)
        << limit.code << " below " << limit.at;
    EXPECT_EQ(word_of(said(judge(above.job, above.document, {}, {})), limit.code), limit.above)
        << limit.code << " above " << limit.at;
  }
}

struct BenchLimit {
  const char* code;
  double at;
  const char* below;
  const char* above;
  std::function<void(Benched&, double)> set;
};

TEST(JudgedLimits, ThoseOfTheBenchToo) {
  const std::vector<BenchLimit> all = {
      // a chamber held at its release pressure ends a little above or below it
      {"F701", 1.02 * 50e3, "stop", "", [](Benched& b, double x) { b.cycle().lowest_pressure = x; }},
      {"F702", 0.03, "", "stop", [](Benched& b, double x) { b.cycle().piston_travel_most = x; }},
      {"F702", 0.02, "", "look", [](Benched& b, double x) { b.cycle().piston_travel_least = -x; }},
      {"F703", 0.0, "", "stop", [](Benched& b, double x) { b.cycle().oil_lost = x; }},
      {"F704", 1.5 * 101325.0, "", "fine", [](Benched& b, double x) { b.cycle().lock_pressure = x; }},
      {"F704", 200e5, "fine", "look", [](Benched& b, double x) { b.cycle().lock_pressure = x; }},
      {"F705", 0.01, "", "fine", [](Benched& b, double x) { b.fade(x); }},
      {"F705", 0.10, "fine", "look", [](Benched& b, double x) { b.fade(x); }},
      {"F705", 0.5, "", "look",
       [](Benched& b, double x) {
         b.run().fade = 0.2;
         b.cycle().temperature_end = x;
       }},
      {"F602", 473.15, "", "stop", [](Benched& b, double x) { b.cycle().temperature_end = x; }},
      {"F706", 0.1e-6, "", "look",
       [](Benched& b, double x) {
         b.run().measured.emplace();
         document::AirReading& air = b.run().air.emplace();
         air.significant = true;
         air.air = x;
       }},
      {"F706", 0.5e-3, "", "look",
       [](Benched& b, double x) { b.run().turns.push_back({Stroke::Rebound, 4e-3 + x, 4e-3}); }},
      {"F708", 0.01, "", "look", [](Benched& b, double x) { b.run().settled = x; }},
      {"F709", 1e-4, "", "look", [](Benched& b, double x) { b.cycle().energy_error = x; }},
  };
  {
    Benched b;
    EXPECT_TRUE(judge_bench(b.job, b.document, {}).empty());
  }
  for (const BenchLimit& limit : all) {
    const double hair = limit.at == 0.0 ? kHair : kHair * limit.at;
    Benched below, above;
    limit.set(below, limit.at - hair);
    limit.set(above, limit.at + hair);
    EXPECT_EQ(word_of(said(judge_bench(below.job, below.document, {})), limit.code), limit.below)
        << limit.code << " below " << limit.at;
    EXPECT_EQ(word_of(said(judge_bench(above.job, above.document, {})), limit.code), limit.above)
        << limit.code << " above " << limit.at;
  }
}

// Of several runs that fade the worst is told, by its own cause.
TEST(JudgedLimits, TheRunThatFadesMostIsTold) {
  const auto told = [](double warm, double air) {
    Benched b;
    b.fade(warm);
    b.run().name = "the warm one";
    document::BenchRun other = b.run();
    other.name = "the one with air";
    other.fade = air;
    other.cycles[1].released_air = 1e-6;
    b.unit().runs.push_back(other);
    std::string titles;
    for (const document::Finding& finding : judge_bench(b.job, b.document, {}))
      if (finding.code == "F705") titles += finding.title + finding.remedy;
    return titles;
  };
  const std::string warm = told(0.2, 0.15), air = told(0.15, 0.2);
  EXPECT_NE(warm.find("the warm one"), std::string::npos) << warm;
  EXPECT_EQ(warm.find("the one with air"), std::string::npos) << warm;
  EXPECT_NE(air.find("the one with air"), std::string::npos) << air;
  EXPECT_EQ(air.find("the warm one"), std::string::npos) << air;
  EXPECT_NE(warm.find("warm"), std::string::npos);
  EXPECT_EQ(told(0.005, 0.005), "");
}

}  // namespace
}  // namespace shimwright::judge
