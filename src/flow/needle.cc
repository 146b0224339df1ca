#include "flow/needle.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace shimwright::flow {

double needle_travel(const Needle& needle) {
  return needle.seated_clearance + needle.clicks * needle.pitch / needle.clicks_per_turn;
}

double needle_area(const Needle& needle, double travel) {
  const double d = needle.bore_diameter;
  if (travel <= 0.0) return 0.0;
  if (travel >= needle_full_travel(needle)) return 0.25 * std::numbers::pi * d * d;
  const double gap = travel * std::sin(needle.half_angle);
  return std::numbers::pi * gap * (d - gap * std::cos(needle.half_angle));
}

double needle_full_travel(const Needle& needle) {
  // smaller root of frustum = bore, written so that it stays exact for blunt cones
  const double sine = std::sin(needle.half_angle);
  return 0.5 * needle.bore_diameter / (sine * (1.0 + std::sqrt(1.0 - std::cos(needle.half_angle))));
}

Orifice needle_opening(const Needle& needle) {
  const double travel = needle_travel(needle);
  const double ring = 2.0 * travel * std::sin(needle.half_angle);
  return {.area = needle_area(needle, travel),
          .hydraulic_diameter = std::clamp(ring, 0.0, needle.bore_diameter),
          .discharge = needle.discharge};
}

void find_problems(const Needle& needle, const std::string& field, Problems& problems) {
  const auto complain = [&](const char* name, double got, double limit, const char* allowed) {
    problems.push_back({field + "." + name, got, limit, allowed});
  };
  const double right_angle = 0.5 * std::numbers::pi;
  if (!(needle.bore_diameter > 0.0)) complain("bore_diameter", needle.bore_diameter, 0.0, "more than zero");
  if (!(needle.half_angle > 0.0 && needle.half_angle < right_angle))
    complain("half_angle", needle.half_angle, right_angle, "between 0 and a right angle");
  if (!(needle.pitch > 0.0)) complain("pitch", needle.pitch, 0.0, "more than zero");
  if (!(needle.clicks_per_turn > 0.0))
    complain("clicks_per_turn", needle.clicks_per_turn, 0.0, "more than zero");
  if (!(needle.seated_clearance >= 0.0))
    complain("seated_clearance", needle.seated_clearance, 0.0, "zero or more");
  if (!(needle.clicks >= 0.0))
    complain("clicks", needle.clicks, 0.0, "zero or more, counted out from seated");
  const double cd = needle.discharge.coefficient;
  if (!(cd > 0.0 && cd <= 1.0)) complain("discharge.coefficient", cd, 1.0, "more than 0, at most 1");
  const auto law = needle.discharge.law;
  if (law != Discharge::Law::Fixed && law != Discharge::Law::SharpEdge)
    complain("discharge.law", static_cast<double>(law), 0.0, "fixed or sharp-edged: a needle is no tube");
}

}  // namespace shimwright::flow
