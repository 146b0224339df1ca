#include "spring/air_spring.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"

namespace shimwright::spring {
namespace {

// Below this share of its volume the air is stiffer than what holds it, and the polytrope means nothing.
constexpr double kLeastAir = 0.02;

/// Air of one chamber at rest with the leg fully out, and which way its volume goes.
struct Chamber {
  double area = 0.0;      // [m^2]
  double volume = 0.0;    // [m^3]
  double pressure = 0.0;  // absolute, at working temperature [Pa]
  double exponent = 1.0;
  double side = 1.0;  // +1: shrinks and pushes, -1: grows and pulls
};

double warmed_pressure(const AirChamber& chamber, const Conditions& conditions) {
  return chamber.pressure * conditions.temperature / chamber.sealed_temperature;
}

double volume_at(const Chamber& c, double travel) {
  return c.volume - c.side * c.area * travel;
}

double pressure_at(const Chamber& c, double travel) {
  return c.pressure * std::pow(c.volume / volume_at(c, travel), c.exponent);
}

Chamber positive_of(const AirSpring& spring, const Conditions& conditions) {
  const AirChamber& c = spring.positive;
  return {c.area, air_volume(c), warmed_pressure(c, conditions), c.exponent, 1.0};
}

Chamber negative_of(const AirSpring& spring, const Conditions& conditions) {
  const AirChamber& c = *spring.negative;
  Chamber chamber{c.area, air_volume(c), warmed_pressure(c, conditions), c.exponent, -1.0};
  if (spring.balance_travel) {
    // equal pressures at the port, drawn back to the leg fully out
    const double port = *spring.balance_travel;
    const double there = pressure_at(positive_of(spring, conditions), port);
    chamber.pressure = there * std::pow(volume_at(chamber, port) / chamber.volume, chamber.exponent);
  }
  return chamber;
}

/// Work the air has taken up from fully out to a travel, without what the surroundings do.
double work_on(const Chamber& c, double travel) {
  const double ratio = c.volume / volume_at(c, travel);
  const double at_rest = c.pressure * c.volume;
  // pV^n: (p V - p0 V0) / (n - 1), which goes over into p0 V0 ln(V0 / V) at n = 1; expm1 keeps the passage
  // smooth
  const double m = c.exponent - 1.0;
  const double log_ratio = std::log(ratio);
  return m == 0.0 ? at_rest * log_ratio : at_rest * std::expm1(m * log_ratio) / m;
}

ElementForce chamber_force(const Chamber& c, double ambient, double travel) {
  SW_CHECK(c.volume > 0.0 && volume_at(c, travel) > 0.0, c.volume, travel);
  const double pressure = pressure_at(c, travel);
  return {c.side * (pressure - ambient) * c.area,
          c.exponent * pressure * c.area * c.area / volume_at(c, travel),
          work_on(c, travel) - c.side * ambient * c.area * travel};
}

}  // namespace

double air_end_travel(const AirSpring& spring) {
  return (1.0 - kLeastAir) * air_volume(spring.positive) / spring.positive.area;
}

AirPressures air_pressures(const AirSpring& spring, const Conditions& conditions, double travel) {
  const double place = std::min(travel, air_end_travel(spring));
  AirPressures pressures{pressure_at(positive_of(spring, conditions), place), std::nullopt};
  if (spring.negative) pressures.negative = pressure_at(negative_of(spring, conditions), place);
  return pressures;
}

ElementForce air_force(const AirSpring& spring, const Conditions& conditions, double travel) {
  const double place = std::min(travel, air_end_travel(spring));
  ElementForce sum = chamber_force(positive_of(spring, conditions), conditions.ambient_pressure, place);
  if (spring.negative) {
    const ElementForce pull =
        chamber_force(negative_of(spring, conditions), conditions.ambient_pressure, place);
    sum = {sum.force + pull.force, sum.rate + pull.rate, sum.energy + pull.energy};
  }
  if (travel > place) {
    sum.energy += sum.force * (travel - place);
    sum.rate = 0.0;
  }
  return sum;
}

double gauge_reading(const AirSpring& spring, const Conditions& conditions) {
  return warmed_pressure(spring.positive, conditions) - conditions.ambient_pressure;
}

double adiabatic_temperature(double temperature, double pressure_ratio, double heat_ratio) {
  return temperature * std::pow(pressure_ratio, (heat_ratio - 1.0) / heat_ratio);
}

}  // namespace shimwright::spring
