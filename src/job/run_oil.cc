#include "job/run_oil.h"

#include <algorithm>

#include "oil/air.h"

namespace shimwright::job {
namespace {

OilPoint point_at(const oil::OilModel& oil, double temperature) {
  const oil::Liquid liquid = oil::liquid_at(oil, temperature);
  const double coldest = oil.viscosity_points.front().temperature;
  const double hottest = oil.viscosity_points.back().temperature;
  return {.temperature = temperature,
          .kinematic_viscosity = oil::kinematic_viscosity(liquid),
          .dynamic_viscosity = liquid.viscosity,
          .density = liquid.density,
          .extrapolated = temperature < coldest || temperature > hottest};
}

}  // namespace

OilResult oil_result(const oil::OilModel& oil, const OilRun& run) {
  OilResult result;
  result.name = run.name;
  result.used_in = run.used_in;
  result.working = point_at(oil, run.working_temperature);

  std::vector<double> temperatures = run.temperatures;
  if (temperatures.empty()) {
    for (int celsius = 0; celsius <= 100; celsius += 10) temperatures.push_back(oil::kCelsiusZero + celsius);
    temperatures.push_back(run.working_temperature);
  }
  std::sort(temperatures.begin(), temperatures.end());
  temperatures.erase(
      std::unique(temperatures.begin(), temperatures.end(), [](double a, double b) { return b - a < 1e-6; }),
      temperatures.end());
  for (const double temperature : temperatures) result.table.push_back(point_at(oil, temperature));

  result.viscosity_index = oil::viscosity_index(oil);
  result.bulk_pressure = run.pressure;
  result.bulk_modulus = oil::effective_bulk_modulus(oil, run.pressure);
  result.air_release_pressure = oil.release_pressure;
  result.outcome = oil::validity_at(oil, run.working_temperature);
  return result;
}

}  // namespace shimwright::job
