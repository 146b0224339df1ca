#include <fmt/core.h>

#include <algorithm>

#include "judge/findings_rules.h"

namespace shimwright::judge::internal {
namespace {

/// Travel within a tenth of a millimetre of the end counts as full.
constexpr double kFull = 1e-4;

void coil_binds(const Judging& judging, const JudgedUnit& unit, const document::SpringResult& springs) {
  if (!springs.coil_bind_travel || *springs.coil_bind_travel >= springs.travel - kFull) return;
  const file::Origin& origin =
      unit.spec.coil_springs.empty() ? unit.spec.origin : unit.spec.coil_springs.front().origin;
  document::Finding finding = begin_finding(judging, "F401", Severity::Stop, unit, origin);
  finding.title = fmt::format("The coil is solid at {}, {} before the end of the travel.",
                              judging.phrase.length(*springs.coil_bind_travel),
                              judging.phrase.length(springs.travel - *springs.coil_bind_travel));
  finding.numbers = {{"solid at", length(*springs.coil_bind_travel)}, {"travel", length(springs.travel)}};
  finding.remedy = "Reduce the preload, or fit a spring with more room between its coils.";
  judging.findings.push_back(std::move(finding));
}

void air_used_up(const Judging& judging, const JudgedUnit& unit, const document::SpringResult& springs) {
  if (!springs.air_end_travel || *springs.air_end_travel >= springs.travel - kFull) return;
  const file::Origin& origin = unit.spec.trapped_air
                                   ? unit.spec.trapped_air->origin
                                   : (unit.spec.air_spring ? unit.spec.air_spring->origin : unit.spec.origin);
  document::Finding finding = begin_finding(judging, "F404", Severity::Stop, unit, origin);
  finding.title =
      fmt::format("At {} no air is left: the leg is full of oil and stops dead {} before full travel.",
                  judging.phrase.length(*springs.air_end_travel),
                  judging.phrase.length(springs.travel - *springs.air_end_travel));
  finding.numbers = {{"air ends at", length(*springs.air_end_travel)}, {"travel", length(springs.travel)}};
  finding.remedy = "Take oil out: check the oil level or volume in the job.";
  judging.findings.push_back(std::move(finding));
}

/// What brings the sag into its target, and all other sags of the end with it.
std::string sag_remedy(const Judging& judging, const document::SagResult& sag) {
  if (sag.change && sag.cure) {
    std::string then;
    for (const document::CureEffect& effect : sag.cure->effects)
      then += fmt::format("{}{} sag {}", then.empty() ? "" : ", ", word(effect.under.value_or(sag.under)),
                          judging.phrase.length(effect.after.si));
    return fmt::format("Change the {} by {}: {}.", sag.knob,
                       judging.phrase.change(sag.change->si, sag.change->kind), then);
  }
  switch (sag.need) {
    case document::SpringNeed::Stiffer:
      return fmt::format("Fit a stiffer spring: no {} in reach puts every sag of this end into its range.",
                         sag.knob);
    case document::SpringNeed::Softer:
      return fmt::format("Fit a softer spring: no {} in reach puts every sag of this end into its range.",
                         sag.knob);
    case document::SpringNeed::None:
      break;
  }
  return "Fit another spring.";
}

void sag_off_target(const Judging& judging, const JudgedUnit& unit, const document::SagResult& sag) {
  if (!sag.low || !sag.high) return;
  const bool too_small = sag.wheel_travel < sag.low->si;
  const bool too_deep = sag.wheel_travel > sag.high->si || sag.bottomed;
  if (!too_small && !too_deep) return;
  const char* code = sag.under == document::SagLoad::Static ? "F402" : "F403";
  const file::Origin origin = judging.job.machine ? judging.job.machine->origin : unit.spec.origin;
  document::Finding finding = begin_finding(judging, code, Severity::Look, unit, origin);
  if (sag.bottomed) {
    finding.title =
        fmt::format("The {} load is more than the springs can carry at full travel.", word(sag.under));
  } else if (sag.topped_out) {
    finding.title = fmt::format("The springs push harder than the {} load: there is no {} sag.",
                                word(sag.under), word(sag.under));
  } else {
    finding.title =
        fmt::format("{} sag is {}. {} to {} is {}.", document::sentence_case(word(sag.under)),
                    judging.phrase.length(sag.wheel_travel), judging.phrase.length(sag.low->si),
                    judging.phrase.length(sag.high->si), sag.usual_target ? "usual" : "the target");
  }
  finding.numbers = {{"sag", length(sag.wheel_travel)},
                     {"target from", *sag.low},
                     {"target to", *sag.high},
                     {"load", document::computed(sag.load, units::Kind::Force)}};
  finding.remedy = sag_remedy(judging, sag);
  if (sag.change) finding.numbers.push_back({"change of the " + sag.knob, *sag.change});
  if (sag.cure) finding.cures = {*sag.cure};
  judging.findings.push_back(std::move(finding));
}

}  // namespace

void judge_springs(const Judging& judging) {
  bool front_done = false;
  bool rear_done = false;
  for_each_unit(judging, [&](const JudgedUnit& unit) {
    if (!unit.result.springs) return;
    coil_binds(judging, unit, *unit.result.springs);
    air_used_up(judging, unit, *unit.result.springs);
    // each unit of an end has the sag of that end, but it is only one finding
    bool& done =
        unit.spec.kind.value_or(file::UnitKind::ForkLeg) == file::UnitKind::ForkLeg ? front_done : rear_done;
    if (done || unit.result.springs->sag.empty()) return;
    done = true;
    for (const document::SagResult& sag : unit.result.springs->sag) sag_off_target(judging, unit, sag);
  });
}

}  // namespace shimwright::judge::internal
