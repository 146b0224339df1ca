
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "job/run_bench.h"
#include "job/test_jobs.h"
#include "judge/findings.h"

namespace shimwright::job {
namespace {

using testing_jobs::changed;
using testing_jobs::job_text;
using testing_jobs::read;

document::BenchDocument bench(const std::string& text, const BenchOptions& options = {}) {
  Result<document::BenchDocument, RunFault> result = run_bench_job(read(text), options);
  if (!result) {
    for (const Diagnostic& diagnostic : result.error().diagnostics) std::cerr << render(diagnostic, text);
    ADD_FAILURE() << "the bench does not run";
    return {};
  }
  return std::move(*result);
}

const document::Finding* find(const std::vector<document::Finding>& findings, const std::string& code) {
  const auto found = std::ranges::find(findings, code, &document::Finding::code);
  return found == findings.end() ? nullptr : &*found;
}

const char* const kBench =
    "\n[unit.motion]\nmetal_mass = \"0.5 kg\"\n[bench]\n[[bench.drive]]\nkind = \"sine\"\nstroke = \"100 "
    "mm\"\nspeed = "
    "\"0.5 m/s, 1 m/s\"\n";

std::string fork() {
  return job_text("fork") + kBench;
}

/// One change of a bench that is otherwise in order, and the finding it must bring.
struct BenchTrigger {
  const char* code;
  const char* from;
  const char* to;
  Severity severity;
};

const BenchTrigger kBenchTriggers[] = {
    // the refill side of the foot valve all but closed: the compression chamber runs dry in rebound
    {"F701", R"(port_area   = "30 mm2")", R"(port_area   = "0.8 mm2")", Severity::Stop},
    {"F707", R"(port_area   = "30 mm2")", R"(port_area   = "0.8 mm2")", Severity::Look},
    {"F702", R"(stroke       = "85 mm")", R"(stroke       = "30 mm")", Severity::Stop},
    {"F703", "[unit.motion]", "[unit.motion]\nrelief_port = { position = \"20 mm\", area = \"2 mm2\" }",
     Severity::Stop},
    {"F704", "[unit.motion]",
     "[[unit.motion.restriction]]\nbegins = \"170 mm\"\nends = \"200 mm\"\ndiameter = \"20 "
     "mm\"\nopening_first = \"20 mm2\"\n"
     "opening_last = \"5 mm2\"\n[unit.motion]",
     Severity::Note},
    {"F705", "metal_mass = \"0.5 kg\"\n[bench]\n",
     "metal_mass = \"0.05 kg\"\n[bench]\ncycles = 400\nsamples = 32\n", Severity::Note},
    {"F706", "[bench]\n", "[bench]\nair_left = { rod = \"5 mL\" }\n", Severity::Look},
};

class BenchFindings : public testing::TestWithParam<BenchTrigger> {};

TEST_P(BenchFindings, TheChangeBringsItAndTheBenchAsItWasDoesNot) {
  const BenchTrigger& trigger = GetParam();
  EXPECT_EQ(find(bench(fork()).findings, trigger.code), nullptr);
  const document::BenchDocument after = bench(changed(fork(), trigger.from, trigger.to));
  const document::Finding* finding = find(after.findings, trigger.code);
  ASSERT_NE(finding, nullptr) << trigger.code;
  EXPECT_EQ(finding->severity, trigger.severity) << finding->title;
  EXPECT_FALSE(finding->title.empty());
  EXPECT_FALSE(finding->numbers.empty());
  EXPECT_FALSE(finding->rule.empty());
  EXPECT_FALSE(finding->source.empty());
  EXPECT_FALSE(finding->remedy.empty());
  EXPECT_EQ(finding->place.unit, "fork leg");
  EXPECT_EQ(finding->place.path, "bench");
}

INSTANTIATE_TEST_SUITE_P(ByJob, BenchFindings, testing::ValuesIn(kBenchTriggers),
                         [](const auto& triggered) { return std::string(triggered.param.code); });

// what no ordinary bench brings, from a document by hand

std::vector<document::Finding> judged(const document::BenchDocument& document) {
  return judge::judge_bench(read(fork()), document, document::Phrase{});
}

TEST(BenchFindingsByHand, UnsettledUnbalancedAndStoppedRunsAreTold) {
  document::BenchDocument document = bench(fork());
  for (const char* code : {"F708", "F709", "F710", "F601", "F602"})
    EXPECT_EQ(find(document.findings, code), nullptr);
  document::BenchRun& run = document.units[0].runs[0];
  run.settled = 0.05;
  EXPECT_NE(find(judged(document), "F708"), nullptr);
  run.cycles.back().energy_error = 1e-3;
  EXPECT_NE(find(judged(document), "F709"), nullptr);
  document.stopped = true;
  EXPECT_NE(find(judged(document), "F710"), nullptr);
  run.outcome = {Status::Stalled, 0, 0.0, "By hand."};
  EXPECT_NE(find(judged(document), "F601"), nullptr);
  run.outcome = {Status::OutOfRange, 0, 0.0, "By hand."};
  EXPECT_NE(find(judged(document), "F602"), nullptr);
}

TEST(BenchFindingsByHand, AReservoirThatCannotCureItIsNotRaised) {
  document::BenchDocument document = bench(fork());
  document.units[0].reservoir =
      document::ReservoirAdvice{"a run", 20e3, 20e3, 0.0, 0.0, {Status::Stalled, 0, 0.0, "By hand."}};
  const auto findings = judged(document);
  ASSERT_NE(find(findings, "F707"), nullptr);
  EXPECT_THAT(find(findings, "F707")->title, testing::HasSubstr("No reservoir pressure"));
}

// a bench at one temperature: oil that thins has no part in what a cavitating damper loses
TEST(BenchFindingsByHand, ALossThatAirMakesIsNotBlamedOnHeat) {
  const std::string starved = changed(changed(fork(), "metal_mass = \"0.5 kg\"\n", ""),
                                      R"(port_area   = "30 mm2")", R"(port_area   = "0.8 mm2")");
  document::BenchDocument document = bench(starved);
  document::BenchRun& run = document.units.at(0).runs.at(1);
  ASSERT_TRUE(std::ranges::any_of(run.cycles, [](const auto& cycle) { return cycle.released_air > 0.0; }));
  run.fade = 0.05;
  run.settled = 0.05;
  const auto findings = judged(document);
  const document::Finding* fade = find(findings, "F705");
  ASSERT_NE(fade, nullptr);
  EXPECT_THAT(fade->title, testing::HasSubstr("Air comes out"));
  EXPECT_THAT(fade->remedy, testing::Not(testing::HasSubstr("viscosity")));
  EXPECT_NE(find(findings, "F708"), nullptr);  // and the loop that still changes is told
  EXPECT_THAT(document.units[0].assumptions,
              testing::Contains(testing::HasSubstr("in what time it goes back")));
}

TEST(BenchFindingsByHand, ALossAtOneTemperatureWithoutAirIsALoopThatHasNotSettled) {
  document::BenchDocument document =
      bench(job_text("fork") + changed(kBench, "metal_mass = \"0.5 kg\"\n", ""));
  document::BenchRun& run = document.units.at(0).runs.at(0);
  run.fade = 0.05;
  run.settled = 0.05;
  EXPECT_EQ(find(judged(document), "F705"), nullptr);
  EXPECT_NE(find(judged(document), "F708"), nullptr);
}

TEST(BenchFindingsByHand, OilHotterThanAnySealStandsIsAStop) {
  document::BenchDocument document = bench(fork());
  document.units.at(0).runs.at(0).cycles.back().temperature_end = 473.0;
  EXPECT_EQ(find(judged(document), "F602"), nullptr);
  document.units[0].runs[0].cycles.back().temperature_end = 473.3;
  ASSERT_NE(find(judged(document), "F602"), nullptr);
  EXPECT_EQ(find(judged(document), "F602")->severity, Severity::Stop);
}

// air in a measured loop is told from two standard errors on
TEST(BenchFindingsByHand, AirThatTheLoopCanDoWithoutIsNotTold) {
  document::BenchDocument document = bench(fork());
  document::BenchRun& run = document.units.at(0).runs.at(0);
  run.measured.emplace();
  run.air.emplace();
  run.air->air = 1e-6;
  run.air->uncertainty = 0.6e-6;
  EXPECT_EQ(find(judged(document), "F706"), nullptr);
  run.air->significant = true;
  EXPECT_NE(find(judged(document), "F706"), nullptr);
}

TEST(BenchFindingsOfAllKinds, EveryCodeOfTheDamperInMotionHasATest) {
  std::set<std::string> tested = {"F708", "F709", "F710"};
  for (const BenchTrigger& trigger : kBenchTriggers) tested.insert(trigger.code);
  for (const judge::FindingCode& code : judge::finding_codes())
    EXPECT_TRUE(code.code[1] != '7' || tested.contains(code.code)) << code.code;
}

}  // namespace
}  // namespace shimwright::job
