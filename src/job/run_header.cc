#include "job/run_header.h"

#include "document/document_phrase.h"
#include "file/job_hash.h"
#include "job/version.h"

namespace shimwright::job {

document::Value typed_value(const file::Quantity& quantity) {
  return {.si = quantity.si, .kind = quantity.kind, .reference = quantity.reference, .typed = quantity.text};
}

document::Header header_of(const file::JobSpec& job, const RunOptions& options) {
  document::Header header;
  header.program_version = kProgramVersion;
  std::uint64_t hash = file::hash_of("");
  for (const file::SourceFile& file : job.files) {
    hash = file::hash_of(file.text, hash);
    header.files.push_back({file.name, file::hash_text(file::hash_of(file.text))});
  }
  header.job_hash = file::hash_text(hash);
  header.title = job.title.value;
  header.scenario = job.scenario.value;
  header.revision = job.revision.value;
  header.date = job.date.value;
  header.theory = options.theory;
  return header;
}

std::optional<document::RiderSummary> rider_of(const file::JobSpec& job) {
  if (!job.rider) return std::nullopt;
  document::RiderSummary rider;
  rider.name = job.rider->name.value;
  if (job.rider->mass) rider.mass = typed_value(job.rider->mass);
  rider.pace = job.rider->pace.value;
  rider.terrain = job.rider->terrain.value;
  for (const file::Text& complaint : job.rider->complaints) rider.complaints.push_back(complaint.value);
  return rider;
}

std::optional<document::MachineSummary> machine_of(const file::JobSpec& job) {
  if (!job.machine) return std::nullopt;
  document::MachineSummary machine;
  machine.name = job.machine->name.value;
  const auto add = [&](const char* name, const file::Quantity& quantity) {
    if (quantity) machine.values.push_back({name, typed_value(quantity)});
  };
  add("mass on the front springs", job.machine->front_mass);
  add("mass on the rear spring", job.machine->rear_mass);
  add("rider's share on the front", job.machine->rider_front_share);
  add("head angle from the vertical", job.machine->head_angle);
  return machine;
}

document::ConditionSummary condition_summary(const file::JobSpec& job,
                                             const resolve::Conditions& conditions) {
  const auto typed_or = [&](const file::Quantity file::ConditionsSpec::* member, double used,
                            units::Kind kind) {
    const bool given = job.conditions && (*job.conditions.*member).given;
    return given ? typed_value(*job.conditions.*member) : document::computed(used, kind);
  };
  document::ConditionSummary summary;
  summary.oil_temperature =
      typed_or(&file::ConditionsSpec::oil_temperature, conditions.oil_temperature, units::Kind::Temperature);
  summary.fill_temperature = typed_or(&file::ConditionsSpec::fill_temperature, conditions.fill_temperature,
                                      units::Kind::Temperature);
  summary.air_temperature =
      typed_or(&file::ConditionsSpec::air_temperature, conditions.air_temperature, units::Kind::Temperature);
  summary.altitude = typed_or(&file::ConditionsSpec::altitude, conditions.altitude, units::Kind::Height);
  summary.ambient_pressure = conditions.ambient_pressure;
  return summary;
}

}  // namespace shimwright::job
