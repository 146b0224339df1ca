#pragma once
#include <string>
#include <vector>

#include "job/findings.h"

namespace shimwright::job::internal {

/// What the rules read and where they write.
struct Judging {
  const JobSpec& job;
  const ResultDocument& document;
  const std::vector<Missing>& missing;
  Phrase phrase;
  std::vector<Finding>& findings;
};

/// One unit in both shapes.
struct JudgedUnit {
  const UnitSpec& spec;
  const UnitResult& result;
};

/// One valve in both shapes; `spec` is null when the job does not state it.
struct JudgedValve {
  const UnitSpec& unit_spec;
  const UnitResult& unit;
  const ValveSpec* spec;
  const ValveResult& result;
};

/// One direction in both shapes.
struct JudgedDirection {
  JudgedValve valve;
  const DirectionSpec* spec;
  const DirectionResult& result;
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
    for (const ValveResult& valve : unit.result.valves) {
      const auto& spec = valve.place == ValvePlace::Piston ? unit.spec.piston_valve : unit.spec.foot_valve;
      visit(JudgedValve{unit.spec, unit.result, spec ? &*spec : nullptr, valve});
    }
  });
}

template <typename Visit>
void for_each_direction(const Judging& judging, Visit&& visit) {
  for_each_valve(judging, [&](const JudgedValve& valve) {
    for (const DirectionResult& direction : valve.result.directions) {
      const DirectionSpec* spec = nullptr;
      if (valve.spec != nullptr) {
        const auto& side =
            direction.stroke == Stroke::Compression ? valve.spec->compression : valve.spec->rebound;
        spec = side ? &*side : nullptr;
      }
      visit(JudgedDirection{valve, spec, direction});
    }
  });
}

/// A finding begun: code, severity, rule and source from the table of codes, the place from `origin`.
Finding begin_finding(const Judging& judging, const char* code, Severity severity, const Origin& origin);

Finding begin_finding(const Judging& judging, const char* code, Severity severity, const JudgedUnit& unit,
                      const Origin& origin);
Finding begin_finding(const Judging& judging, const char* code, Severity severity, const JudgedValve& valve,
                      const Origin& origin);
Finding begin_finding(const Judging& judging, const char* code, Severity severity,
                      const JudgedDirection& direction, const Origin& origin);

void judge_posts(const Judging& judging);
void judge_torques(const Judging& judging);
void judge_cavitation(const Judging& judging);
void judge_flow(const Judging& judging);
void judge_pressures(const Judging& judging);
void judge_stacks(const Judging& judging);
void judge_springs(const Judging& judging);
void judge_oils_and_fill(const Judging& judging);
void judge_numbers(const Judging& judging);

}  // namespace shimwright::job::internal
