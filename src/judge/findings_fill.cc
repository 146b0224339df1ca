#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "judge/findings_rules.h"

namespace shimwright::judge::internal {
namespace {

constexpr double kPourAccuracy = 0.01;  // of the volume (common practice, no source)
constexpr double kOuterMismatch = 0.02;
constexpr double kOfRod = 0.1;       // of what the rod displaces: as much of the stroke loses its oil
constexpr double kRodStop = 0.5;     // likewise: half of the stroke has no oil to push
constexpr double kLevelSame = 1e-3;  // [m]

const file::Origin& fill_origin(const JudgedUnit& unit) {
  return unit.spec.fill ? unit.spec.fill->origin : unit.spec.origin;
}

void oil_beyond_its_data(const Judging& judging, const document::OilResult& oil) {
  if (oil.outcome.ok()) return;
  file::Origin origin;
  for (const file::OilSpec& spec : judging.job.parts.oils) {
    if (spec.name == oil.name) origin = spec.origin;
  }
  document::Finding finding = begin_finding(judging, "F501", Severity::Look, origin);
  finding.title = fmt::format("{} at {} is outside the range of its data.", oil.name,
                              judging.phrase.temperature(oil.working.temperature));
  finding.numbers = {
      {"working temperature", document::computed(oil.working.temperature, units::Kind::Temperature)},
      {"viscosity there",
       document::computed(oil.working.kinematic_viscosity, units::Kind::KinematicViscosity)}};
  finding.remedy = "Use a viscosity from the oil's data sheet that was measured closer to this temperature.";
  judging.findings.push_back(std::move(finding));
}

/// What the rod displaces over the travel; 0 when not known.
double rod_volume(const JudgedUnit& unit) {
  return unit.result.reservoir ? unit.result.reservoir->rod_volume : 0.0;
}

void fill_does_not_match(const Judging& judging, const JudgedUnit& unit,
                         const document::FillChamber& chamber) {
  if (!chamber.stated || !chamber.volume || !(*chamber.volume > 0.0)) return;
  const double difference = chamber.stated->si - *chamber.volume;
  const bool closed = chamber.room == document::FillRoom::Cartridge;
  const double limit = closed ? std::max(kPourAccuracy * *chamber.volume, kOfRod * rod_volume(unit))
                              : kOuterMismatch * *chamber.volume;
  if (std::abs(difference) <= limit) return;
  const double rod = rod_volume(unit);
  const bool stop = closed && rod > 0.0 && -difference > kRodStop * rod;
  document::Finding finding =
      begin_finding(judging, "F502", stop ? Severity::Stop : Severity::Look, unit, fill_origin(unit));
  finding.title =
      fmt::format("The {} should take {}, but it has room for {}.", word(chamber.room),
                  judging.phrase.volume(chamber.stated->si), judging.phrase.volume(*chamber.volume));
  finding.numbers = {
      {"stated", *chamber.stated}, {"room", volume(*chamber.volume)}, {"difference", volume(difference)}};
  if (closed && rod > 0.0) finding.numbers.push_back({"the rod displaces", volume(rod)});
  finding.remedy =
      difference > 0.0
          ? "Measure the bore, the length and the parts inside again: the extra oil would only run out."
          : "Measure the bore, the length and the parts inside again, and fill to the rim: air would take "
            "the place "
            "of the missing oil.";
  judging.findings.push_back(std::move(finding));
}

/// The same level in two places of the job.
void levels_differ(const Judging& judging, const JudgedUnit& unit) {
  const auto& air = unit.spec.trapped_air;
  const auto& fill = unit.spec.fill;
  if (!air || !air->level || !fill || !fill->tube || !fill->tube->level) return;
  const double difference = air->level.si - fill->tube->level.si;
  if (std::abs(difference) <= kLevelSame) return;
  document::Finding finding = begin_finding(judging, "F506", Severity::Look, unit, air->level.origin);
  finding.title = fmt::format(
      "The job gives two oil levels for this leg: {} for its air, and {} for its fill. The sheet uses the "
      "first.",
      judging.phrase.length(air->level.si), judging.phrase.length(fill->tube->level.si));
  finding.numbers = {{"difference", document::computed(difference, units::Kind::Length)}};
  finding.remedy = "Measure it once, leg fully in and spring out, and give it once.";
  finding.in_file = "Remove `level` from the `tube` of the fill.";
  judging.findings.push_back(std::move(finding));
}

void hand_test_failed(const Judging& judging, const JudgedUnit& unit, const document::FillResult& fill) {
  if (fill.accepted.value_or(true)) return;
  const auto seen = std::ranges::find_if(fill.symptoms, &document::Symptom::observed);
  if (seen == fill.symptoms.end()) return;
  const file::Origin& origin =
      unit.spec.fill->acceptance ? unit.spec.fill->acceptance->origin : fill_origin(unit);
  document::Finding finding = begin_finding(judging, "F504", Severity::Look, unit, origin);
  finding.title = fmt::format("Not accepted: {}.", seen->seen);
  for (const document::LikelyCause& cause : seen->causes) {
    if (cause.volume) finding.numbers.push_back({cause.cause, volume(*cause.volume)});
  }
  if (!seen->causes.empty()) {
    finding.title = fmt::format("Not accepted: {}. Most likely: {}.", seen->seen, seen->causes.front().cause);
    finding.remedy = seen->causes.front().remedy;
  }
  judging.findings.push_back(std::move(finding));
}

void parts_missing(const Judging& judging) {
  std::vector<std::string> told;
  for (const document::PickLine& line : judging.document.pick_list.lines) {
    if (line.short_by <= 0.0 || std::ranges::find(told, line.part) != told.end()) continue;
    told.push_back(line.part);
    document::Finding finding = begin_finding(judging, "F505", Severity::Look, file::Origin{});
    finding.place.unit = line.where;
    const int n = static_cast<int>(std::lround(line.short_by));
    finding.title = fmt::format("{} of {} {} missing.", document::counted(n, "piece", "pieces"), line.part,
                                n == 1 ? "is" : "are");
    finding.numbers = {{"in hand", document::counted_value(line.in_hand.value_or(0.0), "")},
                       {"missing", document::counted_value(line.short_by, "")}};
    finding.remedy =
        "Order the parts before you open the unit, or use the parts in hand and check the curve again.";
    judging.findings.push_back(std::move(finding));
  }
}

}  // namespace

void judge_oils_and_fill(const Judging& judging) {
  for (const document::OilResult& oil : judging.document.oils) oil_beyond_its_data(judging, oil);
  for_each_unit(judging, [&](const JudgedUnit& unit) {
    if (!unit.result.fill) return;
    for (const document::FillChamber& chamber : unit.result.fill->chambers)
      fill_does_not_match(judging, unit, chamber);
    levels_differ(judging, unit);
    hand_test_failed(judging, unit, *unit.result.fill);
  });
  parts_missing(judging);
}

}  // namespace shimwright::judge::internal
