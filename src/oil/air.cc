#include "oil/air.h"

#include <cmath>

#include "base/check.h"

namespace shimwright::oil {
namespace {

struct Parts {
  double liquid;  // share of the volume at one atmosphere, compressed
  double air;     // the same for the bubbles
};

Parts parts_at(const OilModel& oil, double pressure, double exponent) {
  SW_CHECK(pressure > 0.0 && exponent > 0.0 && oil.bulk_modulus > 0.0, pressure, exponent, oil.bulk_modulus);
  return {(1.0 - oil.entrained_air) * std::exp(-(pressure - kAtmosphere) / oil.bulk_modulus),
          oil.entrained_air * std::pow(kAtmosphere / pressure, 1.0 / exponent)};
}

}  // namespace

double effective_bulk_modulus(const OilModel& oil, double pressure, double exponent) {
  const Parts parts = parts_at(oil, pressure, exponent);
  return (parts.liquid + parts.air) / (parts.liquid / oil.bulk_modulus + parts.air / (exponent * pressure));
}

double pressure_volume_ratio(const OilModel& oil, double pressure, double exponent) {
  const Parts parts = parts_at(oil, pressure, exponent);
  return parts.liquid + parts.air;
}

double dissolved_air_volume(const OilModel& oil, double volume, double saturation_pressure) {
  return oil.bunsen * volume * saturation_pressure / kAtmosphere;
}

double column_stiffness(double bulk_modulus, double area, double volume) {
  SW_CHECK(volume > 0.0, volume);
  return bulk_modulus * area * area / volume;
}

}  // namespace shimwright::oil
