#include "job/run_oil.h"

#include <algorithm>

#include "job/run_force.h"
#include "oil/air.h"

namespace shimwright::job {
namespace {

document::OilPoint point_at(const oil::OilModel& oil, double temperature) {
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

document::OilResult oil_result(const oil::OilModel& oil, const OilRun& run) {
  document::OilResult result;
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

document::OilSwap oil_swap(const UnitModels& models, const oil::OilModel& other,
                           const std::string& other_name) {
  const resolve::DamperParts& parts = *models.damper;
  const oil::OilComparison compared = oil::compare_at(parts.oil, other, parts.temperature);
  document::OilSwap swap;
  swap.unit = models.spec->name.value;
  swap.from = models.spec->oil->name;
  swap.to = other_name;
  swap.kinematic_ratio = compared.kinematic_ratio;
  swap.density_ratio = compared.density_ratio;
  swap.same_viscosity_at = compared.same_viscosity_at;
  swap.outcome = compared.outcome;

  const damper::DamperLaws laws = damper::damper_laws(parts.model, models.solved->stacks, compared.b);
  for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
    for (std::size_t i = 0; i < 3; ++i) {
      const double speed = models.judged.key[i];
      swap.forces.push_back({stroke, speed, damping_force(parts, models.solved->laws, stroke, speed),
                             damping_force(parts, laws, stroke, speed)});
    }
  }
  for (const resolve::AdjusterModel& adjuster : parts.adjusters) {
    swap.clicks.push_back(
        {adjuster.name, restoring_clicks(parts, *models.solved, adjuster, compared.b, models.judged.key[0])});
  }
  return swap;
}

}  // namespace shimwright::job
