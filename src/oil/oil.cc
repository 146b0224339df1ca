#include "oil/oil.h"

#include <array>
#include <cmath>
#include <string>

#include "base/check.h"

namespace shimwright::oil {
namespace {

constexpr double kPrintedUnit = 1e-6;  // the viscosity law takes mm2/s [m^2/s]

/// Z of the viscosity law, by viscosity in mm2/s.
double walther_number(double v) {
  return v + 0.7 + std::exp(-1.47 - v * (1.84 + 0.51 * v));
}

/// Viscosity in mm2/s that has this Z.
double viscosity_of(double z) {
  // the exponential is below 1e-4 of v from 2 mm2/s on, so Newton from above needs two or three rounds
  double v = std::fmax(z - 0.7, 0.05);
  for (int round = 0; round < 30; ++round) {
    const double tail = std::exp(-1.47 - v * (1.84 + 0.51 * v));
    const double step = (v + 0.7 + tail - z) / (1.0 - tail * (1.84 + 1.02 * v));
    v -= step;
    if (std::abs(step) <= 1e-15 * std::abs(v)) break;
  }
  return v;
}

double viscosity_on(const ViscosityLine& line, double temperature) {
  // far below its data a steep line would end beyond any number; long before that nothing flows
  constexpr double kMostPowers = 9.0;  // of ten, in mm2/s
  const double power = std::fmin(std::pow(10.0, line.a - line.b * std::log10(temperature)), kMostPowers);
  const double z = std::pow(10.0, power);
  return viscosity_of(z) * kPrintedUnit;
}

ViscosityLine line_of(const OilModel& oil) {
  SW_CHECK(oil.viscosity_points.size() == 2, oil.viscosity_points.size());
  return viscosity_line(oil.viscosity_points[0], oil.viscosity_points[1]);
}

}  // namespace

ViscosityLine viscosity_line(const ViscosityPoint& first, const ViscosityPoint& second) {
  SW_CHECK(first.temperature > 0.0 && second.temperature > 0.0 && first.temperature != second.temperature,
           first.temperature, second.temperature);
  const auto double_log = [](const ViscosityPoint& point) {
    return std::log10(std::log10(walther_number(point.viscosity / kPrintedUnit)));
  };
  const double y = double_log(first);
  const double x = std::log10(first.temperature);
  const double b = (y - double_log(second)) / (std::log10(second.temperature) - x);
  return {y + b * x, b};
}

double kinematic_viscosity(const OilModel& oil, double temperature) {
  SW_CHECK(temperature > 0.0, temperature);
  return viscosity_on(line_of(oil), temperature);
}

double temperature_at_viscosity(const OilModel& oil, double viscosity) {
  SW_CHECK(viscosity > 0.0, viscosity);
  const ViscosityLine line = line_of(oil);
  const double y = std::log10(std::log10(walther_number(viscosity / kPrintedUnit)));
  return std::pow(10.0, (line.a - y) / line.b);
}

double density(const OilModel& oil, double temperature) {
  const double growth = oil.expansion * (temperature - kDensityReference);
  return oil.density_15 * std::exp(-growth * (1.0 + 0.8 * growth));
}

double lubricating_oil_expansion(double density_15) {
  SW_CHECK(density_15 > 0.0, density_15);
  return 0.6278 / density_15;
}

double thermal_volume_ratio(const OilModel& oil, double from_temperature, double to_temperature) {
  return density(oil, from_temperature) / density(oil, to_temperature);
}

Liquid liquid_at(const OilModel& oil, double temperature) {
  const double rho = density(oil, temperature);
  return {rho, rho * kinematic_viscosity(oil, temperature)};
}

std::optional<int> iso_vg_grade(double viscosity_at_40) {
  struct Grade {
    int number;
    double middle;  // [mm2/s]
  };
  static constexpr std::array<Grade, 20> kGrades{
      {{2, 2.2},     {3, 3.2},     {5, 4.6},    {7, 6.8},      {10, 10.0},    {15, 15.0},   {22, 22.0},
       {32, 32.0},   {46, 46.0},   {68, 68.0},  {100, 100.0},  {150, 150.0},  {220, 220.0}, {320, 320.0},
       {460, 460.0}, {680, 680.0}, {1000, 1e3}, {1500, 1.5e3}, {2200, 2.2e3}, {3200, 3.2e3}}};
  for (const Grade& grade : kGrades) {
    const double ratio = viscosity_at_40 / kPrintedUnit / grade.middle;
    // the limits themselves belong to the grade, rounding of the user's decimal aside
    if (ratio >= 0.9 - 1e-12 && ratio <= 1.1 + 1e-12) return grade.number;
  }
  return std::nullopt;
}

OilComparison compare_at(const OilModel& a, const OilModel& b, double temperature) {
  OilComparison result;
  result.temperature = temperature;
  result.a = liquid_at(a, temperature);
  result.b = liquid_at(b, temperature);
  result.density_ratio = result.b.density / result.a.density;
  result.dynamic_ratio = result.b.viscosity / result.a.viscosity;
  result.kinematic_ratio = result.dynamic_ratio / result.density_ratio;
  result.same_viscosity_at = temperature_at_viscosity(b, kinematic_viscosity(a, temperature));
  result.outcome = worse(validity_at(a, temperature), validity_at(b, temperature));
  return result;
}

}  // namespace shimwright::oil
