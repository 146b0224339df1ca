#include "resolve/resolve_oil.h"

#include <algorithm>
#include <cmath>

#include "num/root.h"

namespace shimwright::resolve {
namespace {

constexpr double kForty = oil::kCelsiusZero + 40.0;
constexpr double kHundred = oil::kCelsiusZero + 100.0;

/// The second point that gives an oil through `known` the viscosity index `index`: at 100 degC, or at 40 degC
/// when `known` is nearer to 100 degC. Nothing when no viscosity does.
std::optional<oil::ViscosityPoint> point_at_index(const oil::ViscosityPoint& known, double index) {
  const bool known_is_hot = std::abs(known.temperature - kHundred) < std::abs(known.temperature - kForty);
  const double other = known_is_hot ? kForty : kHundred;
  const auto misfit = [&](double log_viscosity) {
    oil::OilModel oil;
    oil.viscosity_points = {known, {other, std::exp(log_viscosity)}};
    return oil::viscosity_index(oil).value_or(-1e4) - index;
  };
  // between the standard's least viscosity at 100 degC, 2 mm2/s, and the viscosity of the known point
  const double least = 2.0001e-6;
  const double low = std::log(known_is_hot ? known.viscosity * 1.001 : least);
  const double high = std::log(known_is_hot ? known.viscosity * 1e3 : known.viscosity * 0.999);
  if (low >= high) return std::nullopt;
  const num::Root root = num::root_between(misfit, low, high);
  if (!root.ok()) return std::nullopt;
  return oil::ViscosityPoint{other, std::exp(root.x)};
}

}  // namespace

std::optional<oil::OilModel> resolve_oil(const file::JobSpec& job, const file::OilSpec& spec,
                                         double ambient_pressure, ResolveReport& report) {
  const std::string part = "the oil \"" + spec.name + "\"";
  const std::size_t missing_before = report.missing.size();
  if (spec.viscosity.empty() || (spec.viscosity.size() == 1 && !spec.viscosity_index)) {
    report.missing.push_back(
        {part, "two measured viscosities, or one and the viscosity index", "viscosity", spec.origin});
  }
  if (!spec.density_15) report.missing.push_back({part, "the density at 15 degC", "density_15", spec.origin});
  if (report.missing.size() > missing_before) return std::nullopt;

  oil::OilModel model;
  FieldPlaces places;
  for (std::size_t i = 0; i < spec.viscosity.size(); ++i) {
    const std::string field = "viscosity_points[" + std::to_string(i) + "]";
    oil::ViscosityPoint& point = model.viscosity_points.emplace_back();
    places.add(field, spec.viscosity[i].value);
    places.bind(field + ".temperature", point.temperature, spec.viscosity[i].at);
    places.bind(field + ".viscosity", point.viscosity, spec.viscosity[i].value);
  }
  if (spec.viscosity.size() == 1) {
    const auto second = point_at_index(model.viscosity_points[0], spec.viscosity_index.value);
    if (!second) {
      Diagnostic diagnostic = file::diagnostic_at(job, spec.viscosity_index.origin, "E0903");
      diagnostic.what = "no oil with this viscosity has this viscosity index";
      diagnostic.got = spec.viscosity_index.text;
      diagnostic.expected = "an index by ASTM D2270, for an oil with 2 mm2/s or more at 100 degC";
      diagnostic.remedy = "Give the viscosity at a second temperature instead.";
      report.diagnostics.push_back(std::move(diagnostic));
      return std::nullopt;
    }
    model.viscosity_points.push_back(*second);
  }
  std::sort(model.viscosity_points.begin(), model.viscosity_points.end(),
            [](const auto& a, const auto& b) { return a.temperature < b.temperature; });

  places.bind("density_15", model.density_15, spec.density_15);
  model.expansion = oil::lubricating_oil_expansion(model.density_15);
  places.bind("expansion", model.expansion, spec.expansion);
  places.bind("bulk_modulus", model.bulk_modulus, spec.bulk_modulus);
  places.bind("entrained_air", model.entrained_air, spec.entrained_air);
  places.add("release_pressure", spec.air_release_pressure);
  if (spec.air_release_pressure) {
    const bool gauge = spec.air_release_pressure.reference == units::Reference::Gauge;
    model.release_pressure = spec.air_release_pressure.si + (gauge ? ambient_pressure : 0.0);
  }
  places.bind("return_time", model.return_time, spec.air_return_time);

  const Problems problems = oil::problems_in(model);
  if (problems.empty()) return model;
  report.add_refused(job, problems, places, spec.origin);
  return std::nullopt;
}

}  // namespace shimwright::resolve
