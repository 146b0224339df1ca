#include "damper/damper.h"

namespace shimwright::damper {

Problems validate(const Chambers& chambers) {
  Problems problems;
  const auto complain = [&](const char* field, double got, double limit, const char* allowed) {
    problems.push_back({field, got, limit, allowed});
  };
  if (!(chambers.piston_area > 0.0)) complain("piston_area", chambers.piston_area, 0.0, "more than zero");
  if (!(chambers.rod_area >= 0.0)) complain("rod_area", chambers.rod_area, 0.0, "zero or more");
  if (!(chambers.rod_area < chambers.piston_area))
    complain("rod_area", chambers.rod_area, chambers.piston_area, "less than the piston's area");
  if (!(chambers.release_pressure >= 0.0))
    complain("release_pressure", chambers.release_pressure, 0.0, "zero or more, absolute");
  if (!(chambers.reservoir_pressure > chambers.release_pressure))
    complain("reservoir_pressure", chambers.reservoir_pressure, chambers.release_pressure,
             "more than the pressure at which air leaves the oil, absolute");
  if (!(chambers.atmospheric_pressure >= 0.0))
    complain("atmospheric_pressure", chambers.atmospheric_pressure, 0.0, "zero or more, absolute");
  if (!(chambers.seal_friction >= 0.0))
    complain("seal_friction", chambers.seal_friction, 0.0, "zero or more");
  return problems;
}

Problems validate(const DamperModel& model) {
  Problems problems = validate(model.chambers);
  for (Problem& problem : problems) problem.field = "chambers." + problem.field;
  const auto add = [&](Problems found, const char* place) {
    for (Problem& problem : found) {
      problem.field = std::string(place) + "." + problem.field;
      problems.push_back(std::move(problem));
    }
  };
  add(valve::validate(model.piston_valve), "piston_valve");
  if (model.foot_valve) add(valve::validate(*model.foot_valve), "foot_valve");
  return problems;
}

}  // namespace shimwright::damper
