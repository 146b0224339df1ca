#include "resolve/resolve_conditions.h"

#include <algorithm>

#include "spring/atmosphere.h"

namespace shimwright::resolve {

Conditions resolve_conditions(const file::JobSpec& job) {
  Conditions conditions;
  if (job.conditions) {
    const file::ConditionsSpec& spec = *job.conditions;
    conditions.oil_temperature = spec.oil_temperature.value_or(conditions.oil_temperature);
    conditions.fill_temperature = spec.fill_temperature.value_or(conditions.fill_temperature);
    conditions.air_temperature = spec.air_temperature.value_or(conditions.fill_temperature);
    conditions.altitude = spec.altitude.value_or(conditions.altitude);
  }
  conditions.ambient_pressure = spring::ambient_pressure(conditions.altitude);
  return conditions;
}

double absolute_pressure(const file::Quantity& written, double ambient_pressure) {
  return written.si + (written.reference == units::Reference::Gauge ? ambient_pressure : 0.0);
}

}  // namespace shimwright::resolve
