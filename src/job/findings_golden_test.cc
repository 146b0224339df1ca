// Every number that a finding tells, of one job for each finding, against what it was: regression (trust D of
// STYLE 1.3), never validation. The rows that a change moves on purpose are copied from the failure's own
// lines into test/jobs/findings.expected.
#include <gtest/gtest.h>

#include <fmt/core.h>
#include <cmath>
#include <fstream>
#include <map>
#include <string>

#include "job/finding_triggers_test.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

/// What the finding of each trigger tells, by "code, trigger, name of the number"; severities count too.
std::map<std::string, double> told_now() {
  std::map<std::string, double> rows;
  int index = 0;
  for (const testing_jobs::Trigger& trigger : testing_jobs::kTriggers) {
    const std::string text =
        testing_jobs::changed(testing_jobs::job_text(trigger.job), trigger.from, trigger.to);
    const std::string which = fmt::format("{} {}", trigger.code, index++);
    int n = 0;
    for (const document::Finding& finding : testing_jobs::run(text).findings) {
      if (finding.code != trigger.code) continue;
      const std::string one = fmt::format("{}.{}", which, n++);
      rows[one + " severity"] = static_cast<double>(finding.severity);
      rows[one + " cures"] = static_cast<double>(finding.cures.size());
      for (const document::NamedValue& number : finding.numbers)
        rows[one + " " + number.name] = number.value.si;
    }
  }
  return rows;
}

TEST(FindingsGolden, EachTellsTheNumbersThatItTold) {
  std::map<std::string, double> before;
  std::ifstream file(SW_SOURCE_DIR "/test/jobs/findings.expected");
  for (std::string row; std::getline(file, row);) {
    const auto equals = row.rfind(" = ");
    if (!row.empty() && row[0] != '#' && equals != std::string::npos)
      before[row.substr(0, equals)] = std::stod(row.substr(equals + 3));
  }
  for (const auto& [name, value] : told_now()) {
    const std::string row = fmt::format("{} = {:.6g}", name, value);
    const auto was = before.find(name);
    EXPECT_NE(was, before.end()) << row;
    if (was == before.end()) continue;
    // 0.3 %: what a finer mesh of the plates may move; more is a change of the model
    if (std::isfinite(value)) {
      EXPECT_NEAR(value, was->second, 3e-3 * std::abs(was->second) + 1e-9) << row;
    }
    EXPECT_EQ(std::isfinite(value), std::isfinite(was->second)) << row;
    before.erase(was);
  }
  for (const auto& [name, value] : before) ADD_FAILURE() << "told no longer: " << name;
}

}  // namespace
}  // namespace shimwright::job
