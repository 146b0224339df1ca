#include "job/run_header.h"

#include <fmt/format.h>

#include "job/job_hash.h"
#include "job/phrase.h"
#include "job/version.h"

namespace shimwright::job {

std::string hash_text(std::uint64_t hash) {
  return fmt::format("{:016x}", hash);
}

std::string word(UnitKind kind) {
  return kind == UnitKind::ForkLeg ? "fork leg" : "shock";
}

std::string word(Layout layout) {
  switch (layout) {
    case Layout::ClosedCartridge:
      return "closed cartridge";
    case Layout::OpenBath:
      return "open bath";
    case Layout::ReservoirShock:
      break;
  }
  return "reservoir shock";
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

}  // namespace shimwright::job
