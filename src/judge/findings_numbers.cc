#include <fmt/core.h>

#include "judge/findings_rules.h"

namespace shimwright::judge::internal {
namespace {

/// The outcome of one result, reported when it is not good.
void add_outcome(const Judging& judging, const Outcome& outcome, const std::string& what,
                 const document::Finding& place) {
  if (outcome.ok()) return;
  const bool stalled = outcome.status == Status::Stalled;
  document::Finding finding = begin_finding(judging, stalled ? "F601" : "F602",
                                            stalled ? Severity::Stop : Severity::Look, file::Origin{});
  finding.place = place.place;
  finding.title = stalled
                      ? fmt::format("The calculation of {} did not converge.", what)
                      : fmt::format("{} is outside the range of its model.", document::sentence_case(what));
  if (!outcome.note.empty()) finding.title += " " + outcome.note;
  finding.numbers = {{"residual", document::counted_value(outcome.residual, "")}};
  finding.remedy =
      stalled ? "Do not build from these numbers. Send the job file to the people who maintain the program."
              : "Treat the numbers there as an estimate.";
  judging.findings.push_back(std::move(finding));
}

/// A stack past a limit of its theory has a finding of its own for each limit (F301, F305, F306).
void add_stack_outcome(const Judging& judging, const document::StackResult& stack,
                       const document::Finding& place) {
  if (stack.outcome.status == Status::Stalled) add_outcome(judging, stack.outcome, "the stack", place);
}

/// Temperatures and height that the file leaves out and the numbers rest on.
void conditions_assumed(const Judging& judging) {
  if (judging.document.units.empty()) return;
  const auto& spec = judging.job.conditions;
  if (spec && spec->oil_temperature && spec->altitude) return;
  document::Finding finding =
      begin_finding(judging, "F902", Severity::Note, spec ? spec->origin : file::Origin{});
  const document::ConditionSummary& taken = judging.document.conditions;
  finding.title = fmt::format(
      "The job does not give all conditions. The result uses oil at {} and an altitude of {}.",
      judging.phrase.temperature(taken.oil_temperature.si), judging.phrase.altitude(taken.altitude.si));
  finding.numbers = {{"oil temperature", taken.oil_temperature}, {"altitude", taken.altitude}};
  finding.remedy = "Give the temperature of the oil and the altitude: a cold morning needs other clicks.";
  finding.in_file = "Write `oil_temperature` and `altitude` under [conditions].";
  judging.findings.push_back(std::move(finding));
}

/// Words alone have no answer in the settings guide.
void complaints_in_words_only(const Judging& judging) {
  const auto& rider = judging.job.rider;
  if (!rider || rider->complaints.empty() || !rider->feels.empty()) return;
  document::Finding finding =
      begin_finding(judging, "F903", Severity::Note, rider->complaints.front().origin);
  finding.title =
      "The job does not say which feels the rider's complaints mean. So the guide cannot answer them first.";
  finding.remedy = "Say which feels the rider means.";
  finding.in_file = "Write `feels`, such as `feels = [\"harsh\", \"dives\"]`.";
  judging.findings.push_back(std::move(finding));
}

}  // namespace

void judge_numbers(const Judging& judging) {
  conditions_assumed(judging);
  complaints_in_words_only(judging);
  for_each_direction(judging, [&](const JudgedDirection& direction) {
    const document::Finding place =
        begin_finding(judging, "F602", Severity::Look, direction,
                      direction.spec != nullptr ? direction.spec->origin : file::Origin{});
    if (direction.result.stack) add_stack_outcome(judging, *direction.result.stack, place);
    // the law inherits its stack's outcome: report it only once
    if (!direction.result.stack || direction.result.stack->outcome.ok()) {
      add_outcome(judging, direction.result.outcome, "the flow", place);
    }
  });
  if (judging.document.stack) add_stack_outcome(judging, *judging.document.stack, {});
  for (const file::Missing& missing : judging.missing) {
    document::Finding finding = begin_finding(judging, "F901", Severity::Note, missing.origin);
    finding.title =
        fmt::format("{} is left out: it needs {}.", document::sentence_case(missing.part), missing.what);
    finding.remedy = fmt::format("Measure {} and add it to the job.", missing.what);
    finding.in_file = fmt::format("Add the key `{}`.", missing.key);
    judging.findings.push_back(std::move(finding));
  }
}

}  // namespace shimwright::judge::internal
