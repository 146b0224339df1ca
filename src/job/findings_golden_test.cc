// Every number and sentence that a finding tells, of one job for each finding, against what it was:
// regression (trust D of STYLE 1.3), never validation. The rows that a change moves on purpose are copied
// from the failure's own lines into test/jobs/findings.expected.
#include <gtest/gtest.h>

#include <fmt/core.h>
#include <cctype>
#include <cmath>
#include <fstream>
#include <map>
#include <string>

#include "job/finding_triggers_test.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

/// A sentence without its numbers.
std::string words_of(std::string sentence) {
  std::string words;
  for (const char c : sentence)
    if (std::isdigit(static_cast<unsigned char>(c)) == 0)
      words += c;
    else if (words.empty() || words.back() != '#')
      words += '#';
  return words;
}

/// What the finding of each trigger tells, by "code, trigger, name of the number"; severities count too.
struct Told {
  std::map<std::string, double> numbers;
  std::map<std::string, std::string> words;
};

Told told_now() {
  Told told;
  int index = 0;
  for (const testing_jobs::Trigger& trigger : testing_jobs::kTriggers) {
    const std::string text =
        testing_jobs::changed(testing_jobs::job_text(trigger.job), trigger.from, trigger.to);
    const std::string which = fmt::format("{} {}", trigger.code, index++);
    int n = 0;
    for (const document::Finding& finding : testing_jobs::run(text).findings) {
      if (finding.code != trigger.code) continue;
      const std::string one = fmt::format("{}.{}", which, n++);
      told.numbers[one + " severity"] = static_cast<double>(finding.severity);
      told.numbers[one + " cures"] = static_cast<double>(finding.cures.size());
      for (const document::NamedValue& number : finding.numbers)
        told.numbers[one + " " + number.name] = number.value.si;
      told.words[one + " remedy"] = words_of(finding.remedy);
      told.words[one + " title"] = words_of(finding.title);
    }
  }
  return told;
}

TEST(FindingsGolden, EachTellsTheNumbersAndTheWordsThatItTold) {
  Told before;
  std::ifstream file(SW_SOURCE_DIR "/test/jobs/findings.expected");
  for (std::string row; std::getline(file, row);) {
    const auto equals = row.find(" = ");
    const auto colon = row.find(" : ");
    if (row.empty() || row[0] == '#') continue;
    if (colon != std::string::npos)
      before.words[row.substr(0, colon)] = row.substr(colon + 3);
    else if (equals != std::string::npos)
      before.numbers[row.substr(0, equals)] = std::stod(row.substr(equals + 3));
  }
  const Told now = told_now();
  for (const auto& [name, value] : now.numbers) {
    const std::string row = fmt::format("{} = {:.6g}", name, value);
    const auto was = before.numbers.find(name);
    EXPECT_NE(was, before.numbers.end()) << row;
    if (was == before.numbers.end()) continue;
    // 0.3 %: what a finer mesh of the plates may move; more is a change of the model
    if (std::isfinite(value)) {
      EXPECT_NEAR(value, was->second, 3e-3 * std::abs(was->second) + 1e-9) << row;
    }
    EXPECT_EQ(std::isfinite(value), std::isfinite(was->second)) << row;
    before.numbers.erase(was);
  }
  for (const auto& [name, words] : now.words) {
    EXPECT_EQ(before.words[name], words) << name << " : " << words;
    before.words.erase(name);
  }
  for (const auto& [name, value] : before.numbers) ADD_FAILURE() << "told no longer: " << name;
  for (const auto& [name, words] : before.words) ADD_FAILURE() << "told no longer: " << name;
}

}  // namespace
}  // namespace shimwright::job
