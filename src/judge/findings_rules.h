#pragma once
#include <string>
#include <vector>

#include "judge/findings.h"

namespace shimwright::judge::internal {

/// What the rules read and where they write.
struct Judging {
  const file::JobSpec& job;
  const document::ResultDocument& document;
  const std::vector<file::Missing>& missing;
  document::Phrase phrase;
  std::vector<document::Finding>& findings;
};

/// One unit in both shapes.
struct JudgedUnit {
  const file::UnitSpec& spec;
  const document::UnitResult& result;
};

/// One valve in both shapes; `spec` is null when the job does not state it.
struct JudgedValve {
  const file::UnitSpec& unit_spec;
  const document::UnitResult& unit;
  const file::ValveSpec* spec;
  const document::ValveResult& result;
};

/// One direction in both shapes.
struct JudgedDirection {
  JudgedValve valve;
  const file::DirectionSpec* spec;
  const document::DirectionResult& result;
};

template <typename Visit>
void for_each_unit(const Judging& judging, Visit&& visit) {
  for (std::size_t i = 0; i < judging.document.units.size(); ++i) {
    visit(JudgedUnit{judging.job.units[i], judging.document.units[i]});
  }
}

template <typename Visit>
void for_each_valve(const Judging& judging, Visit&& visit) {
  for_each_unit(judging, [&](const JudgedUnit& unit) {
    for (const document::ValveResult& valve : unit.result.valves) {
      const auto& spec = valve.place == ValvePlace::Piston ? unit.spec.piston_valve : unit.spec.foot_valve;
      visit(JudgedValve{unit.spec, unit.result, spec ? &*spec : nullptr, valve});
    }
  });
}

template <typename Visit>
void for_each_direction(const Judging& judging, Visit&& visit) {
  for_each_valve(judging, [&](const JudgedValve& valve) {
    for (const document::DirectionResult& direction : valve.result.directions) {
      const file::DirectionSpec* spec = nullptr;
      if (valve.spec != nullptr) {
        const auto& side =
            direction.stroke == Stroke::Compression ? valve.spec->compression : valve.spec->rebound;
        spec = side ? &*side : nullptr;
      }
      visit(JudgedDirection{valve, spec, direction});
    }
  });
}

/// The start of a finding: code, severity, rule and source from the table of codes, the place from `origin`.
document::Finding begin_finding(const Judging& judging, const char* code, Severity severity,
                                const file::Origin& origin);

document::Finding begin_finding(const Judging& judging, const char* code, Severity severity,
                                const JudgedUnit& unit, const file::Origin& origin);
document::Finding begin_finding(const Judging& judging, const char* code, Severity severity,
                                const JudgedValve& valve, const file::Origin& origin);
document::Finding begin_finding(const Judging& judging, const char* code, Severity severity,
                                const JudgedDirection& direction, const file::Origin& origin);

void judge_posts(const Judging& judging);
void judge_torques(const Judging& judging);
void judge_cavitation(const Judging& judging);
void judge_flow(const Judging& judging);
void judge_pressures(const Judging& judging);
void judge_stacks(const Judging& judging);
void judge_springs(const Judging& judging);
void judge_reservoirs(const Judging& judging);
void judge_oils_and_fill(const Judging& judging);
void judge_numbers(const Judging& judging);

// computed values for the numbers of a finding
inline document::Value length(double si) {
  return document::computed(si, units::Kind::Length);
}
inline document::Value volume(double si) {
  return document::computed(si, units::Kind::Volume);
}

}  // namespace shimwright::judge::internal
