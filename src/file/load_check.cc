#include "file/load_check.h"

#include <fmt/core.h>

#include <algorithm>

namespace shimwright::file {
namespace {

constexpr std::size_t kMostUnits = 8;

void check_parts(const Checks& checks, const PartsSpec& parts) {
  for (const DiscSpec& shim : parts.shims) check_disc(checks, shim);
  for (const OilSpec& oil : parts.oils) check_oil(checks, oil);
  for (const CoilSpringSpec& spring : parts.springs) check_spring(checks, spring);
  for (const NutSpec& nut : parts.fasteners) check_nut(checks, nut);
}

void check_unit_names(const Checks& checks, const std::vector<UnitSpec>& units) {
  for (std::size_t i = 0; i < units.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (units[i].name && units[j].name && units[i].name.value == units[j].name.value)
        checks.fault(Code::DuplicateName, units[i].name.origin,
                     {"two units have the same name", units[i].name.value, "", "rename one of the two"});
  if (units.size() > 1)
    for (const UnitSpec& unit : units)
      if (!unit.name) checks.missing(unit.origin, "name", "\"fork leg\"");  // pages tell units apart by it
  if (units.size() > kMostUnits)
    checks.fault(Code::TooMany, units[kMostUnits].origin,
                 {"too many units for one machine", fmt::format("{}", units.size()),
                  fmt::format("at most {}", kMostUnits), "make one job for each machine"});
}

/// Sag is measured at the wheel: a linkage's table says how far that moves.
void check_sag(const Checks& checks, const std::optional<SagSpec>& sag, const std::vector<UnitSpec>& units,
               UnitKind kind) {
  if (!sag) return;
  for (const UnitSpec& unit : units) {
    if (!unit.kind || unit.kind.value != kind) continue;
    const bool has_table = unit.linkage && !unit.linkage->table.empty();
    const Quantity& travel = has_table ? unit.linkage->table.back().wheel : unit.travel;
    for (const QuantityRange& range : {sag->fixed, sag->rider})
      if (range && travel && range.high.si >= travel.si)
        checks.fault(Code::SagBeyondTravel, range.origin,
                     {"the target sag is more than the travel", range.text, "less than " + travel.text,
                      "correct the sag or the travel"});
  }
}

}  // namespace

void Checks::fault(Code code, const Origin& origin, FaultText words) const {
  Diagnostic diagnostic = diagnostic_at(job, origin, std::string(facts_of(code).id));
  diagnostic.what = std::move(words.what);
  diagnostic.got = std::move(words.got);
  diagnostic.expected = std::move(words.expected);
  diagnostic.remedy = std::move(words.remedy);
  diagnostics.push_back(std::move(diagnostic));
}

bool Checks::is_faulty(const Origin& table, const std::string& key) const {
  Origin origin = table;
  origin.path += "." + key;
  const Diagnostic place = diagnostic_at(job, origin, "");
  const auto explains = [&](const Diagnostic& other) {
    return other.file == place.file &&
           (other.path == origin.path || other.code == facts_of(Code::NotToml).id);
  };
  return std::any_of(diagnostics.begin(), diagnostics.end(), explains);
}

void Checks::missing(const Origin& table, const std::string& key, const std::string& example) const {
  if (is_faulty(table, key)) return;
  Origin origin = table;
  origin.path += "." + key;
  fault(Code::MissingKey, origin,
        {"a required key is missing", "", fmt::format("{} = {}", key, example), fmt::format("add {}", key)});
}

void check_job(const JobSpec& job, Diagnostics& diagnostics) {
  const Checks checks{job, diagnostics};
  check_parts(checks, job.parts);
  check_unit_names(checks, job.units);
  for (const UnitSpec& unit : job.units) check_unit(checks, unit);
  if (job.stack) check_stack(checks, *job.stack);
  if (job.bench) check_bench(checks, *job.bench);
  if (job.machine) {
    check_sag(checks, job.machine->front_sag, job.units, UnitKind::ForkLeg);
    check_sag(checks, job.machine->rear_sag, job.units, UnitKind::Shock);
  }
}

}  // namespace shimwright::file
