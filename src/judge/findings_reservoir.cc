#include <fmt/core.h>

#include <algorithm>

#include "judge/findings_rules.h"
#include "judge/pressure_limits.h"

namespace shimwright::judge::internal {
namespace {

const file::Origin& reservoir_origin(const JudgedUnit& unit) {
  if (unit.spec.reservoir) return unit.spec.reservoir->origin;
  return unit.spec.trapped_air ? unit.spec.trapped_air->origin : unit.spec.origin;
}

/// Cold or warm, whichever asks for more.
const document::ReservoirState& fullest(const document::ReservoirResult& reservoir) {
  return *std::ranges::min_element(reservoir.states, {}, &document::ReservoirState::room_left);
}

void no_room_left(const Judging& judging, const JudgedUnit& unit,
                  const document::ReservoirResult& reservoir) {
  const document::ReservoirState& state = fullest(reservoir);
  // the air over the oil is a spring, and judged as one
  if (!unit.spec.reservoir || !reservoir.room_known || state.room_left >= 0.0) return;
  document::Finding finding = begin_finding(judging, "F503", Severity::Stop, unit, reservoir_origin(unit));
  finding.title =
      fmt::format("The reservoir is {} too small for the rod and for warm oil: it will vent or lock.",
                  judging.phrase.volume(-state.room_left));
  finding.numbers = {{"missing room", volume(-state.room_left)},
                     {"the rod displaces", volume(reservoir.rod_volume)},
                     {"the oil grows by", volume(reservoir.growth)}};
  finding.remedy = reservoir.states.front().gas_volume
                       ? "Give the reservoir more gas volume: a locked damper bursts its seal."
                       : "Give the free piston more travel: a locked damper bursts its seal.";
  judging.findings.push_back(std::move(finding));
}

/// The highest pressure at rest: rod fully in, oil warm. Where nothing is left, F503 says more.
void pressure_at_rest(const Judging& judging, const JudgedUnit& unit,
                      const document::ReservoirResult& reservoir) {
  if (!unit.spec.reservoir) return;
  const auto highest = std::ranges::max_element(reservoir.states, {}, &document::ReservoirState::pressure);
  const double gauge = highest->pressure - judging.document.conditions.ambient_pressure;
  if (gauge <= kReservoirAtRest.look || highest->room_left < 0.0) return;
  const bool stop = gauge > kReservoirAtRest.stop;
  document::Finding finding =
      begin_finding(judging, "F210", stop ? Severity::Stop : Severity::Look, unit, reservoir_origin(unit));
  finding.title = fmt::format(
      "At {} with the rod {} the reservoir stands at {}, at rest. A quick stroke adds more.",
      judging.phrase.temperature(highest->temperature), word(highest->rod_at), judging.phrase.gauge(gauge));
  finding.numbers = {{"set, rod fully out", document::computed_absolute(reservoir.states.front().pressure)},
                     {"highest at rest", document::computed_absolute(highest->pressure)},
                     {"the rod displaces", volume(reservoir.rod_volume)},
                     {"the oil grows by", volume(reservoir.growth)}};
  if (highest->gas_volume) finding.numbers.push_back({"gas left", volume(*highest->gas_volume)});
  finding.remedy =
      highest->gas_volume
          ? "Give the reservoir more gas volume, or set less pressure: a body that bursts can kill."
          : "Fit a softer spring to the free piston: a body that bursts can kill.";
  judging.findings.push_back(std::move(finding));
}

}  // namespace

void judge_reservoirs(const Judging& judging) {
  for_each_unit(judging, [&](const JudgedUnit& unit) {
    if (!unit.result.reservoir || unit.result.reservoir->states.empty()) return;
    no_room_left(judging, unit, *unit.result.reservoir);
    pressure_at_rest(judging, unit, *unit.result.reservoir);
  });
}

}  // namespace shimwright::judge::internal
