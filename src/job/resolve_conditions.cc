#include "job/resolve_conditions.h"

#include <algorithm>

#include "job/phrase.h"
#include "spring/atmosphere.h"

namespace shimwright::job {

Conditions resolve_conditions(const JobSpec& job) {
  Conditions conditions;
  if (job.conditions) {
    const ConditionsSpec& spec = *job.conditions;
    conditions.oil_temperature = spec.oil_temperature.value_or(conditions.oil_temperature);
    conditions.fill_temperature = spec.fill_temperature.value_or(conditions.fill_temperature);
    conditions.air_temperature = spec.air_temperature.value_or(conditions.fill_temperature);
    conditions.altitude = spec.altitude.value_or(conditions.altitude);
  }
  conditions.ambient_pressure = spring::ambient_pressure(conditions.altitude);
  return conditions;
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

double absolute_pressure(const Quantity& written, double ambient_pressure) {
  return written.si + (written.reference == units::Reference::Gauge ? ambient_pressure : 0.0);
}

}  // namespace shimwright::job
