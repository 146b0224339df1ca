#include "judge/findings.h"

#include <algorithm>
#include <string_view>

#include "base/check.h"
#include "file/schema.h"
#include "judge/findings_rules.h"

namespace shimwright::judge {
namespace internal {
namespace {

const FindingCode& facts_of(const char* code) {
  for (const FindingCode& facts : finding_codes()) {
    if (std::string_view(facts.code) == code) return facts;
  }
  SW_CHECK(false, code);
  return finding_codes().front();
}

}  // namespace

document::Finding begin_finding(const Judging& judging, const char* code, Severity severity,
                                const file::Origin& origin) {
  const FindingCode& facts = facts_of(code);
  document::Finding finding;
  finding.code = code;
  finding.severity = severity;
  finding.rule = facts.rule;
  finding.source = facts.source;
  finding.place.path = origin.path;
  finding.station = origin.path.empty() ? facts.station : file::station_at(file::job_schema(), origin.path);
  finding.place.line = origin.line;
  if (origin.file >= 0 && static_cast<std::size_t>(origin.file) < judging.job.files.size()) {
    finding.place.file = judging.job.files[static_cast<std::size_t>(origin.file)].name;
  }
  return finding;
}

document::Finding begin_finding(const Judging& judging, const char* code, Severity severity,
                                const JudgedUnit& unit, const file::Origin& origin) {
  document::Finding finding = begin_finding(judging, code, severity, origin);
  finding.place.unit = unit.result.name;
  return finding;
}

document::Finding begin_finding(const Judging& judging, const char* code, Severity severity,
                                const JudgedValve& valve, const file::Origin& origin) {
  document::Finding finding = begin_finding(judging, code, severity, origin);
  finding.place.unit = valve.unit.name;
  finding.place.valve = word(valve.result.place);
  return finding;
}

document::Finding begin_finding(const Judging& judging, const char* code, Severity severity,
                                const JudgedDirection& direction, const file::Origin& origin) {
  document::Finding finding = begin_finding(judging, code, severity, direction.valve, origin);
  finding.place.stroke = word(direction.result.stroke);
  return finding;
}

}  // namespace internal

std::vector<document::Finding> judge(const file::JobSpec& job, const document::ResultDocument& document,
                                     const std::vector<file::Missing>& missing,
                                     const document::Phrase& phrase) {
  std::vector<document::Finding> findings;
  const internal::Judging judging{job, document, missing, phrase, findings};
  internal::judge_posts(judging);
  internal::judge_torques(judging);
  internal::judge_cavitation(judging);
  internal::judge_flow(judging);
  internal::judge_pressures(judging);
  internal::judge_stacks(judging);
  internal::judge_springs(judging);
  internal::judge_reservoirs(judging);
  internal::judge_oils_and_fill(judging);
  internal::judge_numbers(judging);
  std::ranges::stable_sort(findings, [](const document::Finding& a, const document::Finding& b) {
    if (a.severity != b.severity) return a.severity > b.severity;
    return a.code < b.code;
  });
  return findings;
}

}  // namespace shimwright::judge
