#include "job/run_header.h"

#include <fmt/format.h>

#include "job/document_phrase.h"
#include "job/job_hash.h"
#include "job/version.h"

namespace shimwright::job {

std::string hash_text(std::uint64_t hash) {
  return fmt::format("{:016x}", hash);
}

Value typed_value(const Quantity& quantity) {
  return {.si = quantity.si, .kind = quantity.kind, .reference = quantity.reference, .typed = quantity.text};
}

Header header_of(const JobSpec& job, const RunOptions& options) {
  Header header;
  header.program_version = kProgramVersion;
  std::uint64_t hash = hash_of("");
  for (const SourceFile& file : job.files) {
    hash = hash_of(file.text, hash);
    header.files.push_back({file.name, hash_text(hash_of(file.text))});
  }
  header.job_hash = hash_text(hash);
  header.title = job.title.value;
  header.scenario = job.scenario.value;
  header.revision = job.revision.value;
  header.date = job.date.value;
  header.theory = options.theory;
  return header;
}

std::optional<RiderSummary> rider_of(const JobSpec& job) {
  if (!job.rider) return std::nullopt;
  RiderSummary rider;
  rider.name = job.rider->name.value;
  if (job.rider->mass) rider.mass = typed_value(job.rider->mass);
  rider.pace = job.rider->pace.value;
  rider.terrain = job.rider->terrain.value;
  for (const Text& complaint : job.rider->complaints) rider.complaints.push_back(complaint.value);
  return rider;
}

std::optional<MachineSummary> machine_of(const JobSpec& job) {
  if (!job.machine) return std::nullopt;
  MachineSummary machine;
  machine.name = job.machine->name.value;
  const auto add = [&](const char* name, const Quantity& quantity) {
    if (quantity) machine.values.push_back({name, typed_value(quantity)});
  };
  add("mass on the front springs", job.machine->front_mass);
  add("mass on the rear spring", job.machine->rear_mass);
  add("rider's share on the front", job.machine->rider_front_share);
  add("head angle from the vertical", job.machine->head_angle);
  return machine;
}

ConditionSummary condition_summary(const JobSpec& job, const Conditions& conditions) {
  const auto typed_or = [&](const Quantity ConditionsSpec::* member, double used, units::Kind kind) {
    const bool given = job.conditions && (*job.conditions.*member).given;
    return given ? typed_value(*job.conditions.*member) : computed(used, kind);
  };
  ConditionSummary summary;
  summary.oil_temperature =
      typed_or(&ConditionsSpec::oil_temperature, conditions.oil_temperature, units::Kind::Temperature);
  summary.fill_temperature =
      typed_or(&ConditionsSpec::fill_temperature, conditions.fill_temperature, units::Kind::Temperature);
  summary.air_temperature =
      typed_or(&ConditionsSpec::air_temperature, conditions.air_temperature, units::Kind::Temperature);
  summary.altitude = typed_or(&ConditionsSpec::altitude, conditions.altitude, units::Kind::Length);
  summary.ambient_pressure = conditions.ambient_pressure;
  return summary;
}

}  // namespace shimwright::job
