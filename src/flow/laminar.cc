#include "flow/laminar.h"

#include <cmath>
#include <numbers>

namespace shimwright::flow {
namespace {

using std::numbers::pi;

FlowPoint linear(double conductance, double drop) {
  return {conductance * drop, conductance};
}

double cube(double x) {
  return x * x * x;
}

/// One line per length that must be more than zero.
void need_positive(const std::string& field, const char* name, double got, Problems& problems) {
  if (!(got > 0.0)) problems.push_back({field + "." + name, got, 0.0, "more than zero"});
}

}  // namespace

FlowPoint gap_flow(const AnnularGap& gap, const oil::Liquid& liquid, double drop) {
  const double shift = 1.0 + 1.5 * gap.eccentricity * gap.eccentricity;
  return linear(pi * gap.diameter * cube(gap.clearance) * shift / (12.0 * liquid.viscosity * gap.length),
                drop);
}

FlowPoint capillary_flow(const Capillary& capillary, const oil::Liquid& liquid, double drop) {
  const double d2 = capillary.diameter * capillary.diameter;
  return linear(capillary.n_bores * pi * d2 * d2 / (128.0 * liquid.viscosity * capillary.length), drop);
}

FlowPoint slot_flow(const Slot& slot, const oil::Liquid& liquid, double drop) {
  return linear(slot.width * cube(slot.height) / (12.0 * liquid.viscosity * slot.length), drop);
}

double dragged_flow(const AnnularGap& gap, double wall_speed) {
  return 0.5 * pi * gap.diameter * gap.clearance * wall_speed;
}

double concentric_gap_flow(double outer_radius, double inner_radius, double length, double viscosity,
                           double drop) {
  const double o2 = outer_radius * outer_radius;
  const double i2 = inner_radius * inner_radius;
  const double ring = o2 - i2;
  const double shape = o2 * o2 - i2 * i2 - ring * ring / std::log(outer_radius / inner_radius);
  return pi * drop * shape / (8.0 * viscosity * length);
}

double mean_reynolds(const AnnularGap& gap, const oil::Liquid& liquid, double q) {
  const double mean_speed = std::abs(q) / (pi * gap.diameter * gap.clearance);
  return liquid.density * mean_speed * 2.0 * gap.clearance / liquid.viscosity;
}

double mean_reynolds(const Capillary& capillary, const oil::Liquid& liquid, double q) {
  const double d = capillary.diameter;
  const double mean_speed = std::abs(q) / (capillary.n_bores * 0.25 * pi * d * d);
  return liquid.density * mean_speed * d / liquid.viscosity;
}

void find_problems(const AnnularGap& gap, const std::string& field, Problems& problems) {
  need_positive(field, "diameter", gap.diameter, problems);
  need_positive(field, "length", gap.length, problems);
  if (!(gap.clearance >= 0.0)) problems.push_back({field + ".clearance", gap.clearance, 0.0, "zero or more"});
  if (!(gap.eccentricity >= 0.0 && gap.eccentricity <= 1.0))
    problems.push_back({field + ".eccentricity", gap.eccentricity, 1.0, "from 0, centred, to 1, touching"});
}

void find_problems(const Capillary& capillary, const std::string& field, Problems& problems) {
  if (capillary.n_bores < 1)
    problems.push_back({field + ".n_bores", static_cast<double>(capillary.n_bores), 1.0, "at least one"});
  need_positive(field, "diameter", capillary.diameter, problems);
  need_positive(field, "length", capillary.length, problems);
}

void find_problems(const Slot& slot, const std::string& field, Problems& problems) {
  need_positive(field, "width", slot.width, problems);
  need_positive(field, "height", slot.height, problems);
  need_positive(field, "length", slot.length, problems);
}

}  // namespace shimwright::flow
