#include "flow/orifice.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/check.h"

namespace shimwright::flow {
namespace {

/// Below this the square of the Reynolds number would underflow; the laws are at their laminar limit.
constexpr double kNoDrop = 1e-200;

double length_ratio(const Orifice& orifice) {
  return orifice.hydraulic_diameter > 0.0 ? orifice.length / orifice.hydraulic_diameter : 0.0;
}

/// Fixed coefficient, drop >= 0.
FlowPoint fixed_flow(const Orifice& orifice, double density, double drop) {
  const double cd_area = orifice.discharge.coefficient * orifice.area;
  if (drop >= kSmoothDrop) {
    const double q = cd_area * std::sqrt(2.0 * drop / density);
    return {q, 0.5 * q / drop};
  }
  // odd polynomial with the value and slope of the root at kSmoothDrop
  const double q_one = cd_area * std::sqrt(2.0 * kSmoothDrop / density);
  const double x = drop / kSmoothDrop;
  return {q_one * x * (1.25 - 0.25 * x * x), q_one * (1.25 - 0.75 * x * x) / kSmoothDrop};
}

/// Any law, drop >= 0.
FlowPoint one_way_flow(const Orifice& orifice, const oil::Liquid& liquid, double drop) {
  if (orifice.area <= 0.0) return {};
  if (orifice.discharge.law == Discharge::Law::Fixed) return fixed_flow(orifice, liquid.density, drop);

  const double ratio = length_ratio(orifice);
  if (drop < kNoDrop) {
    const double conductance = 2.0 * laminar_slope(orifice.discharge, ratio) * orifice.area *
                               orifice.hydraulic_diameter / liquid.viscosity;
    return {conductance * drop, conductance};
  }
  const double ideal_speed = std::sqrt(2.0 * drop / liquid.density);
  const double reynolds = liquid.density * ideal_speed * orifice.hydraulic_diameter / liquid.viscosity;
  const DischargePoint point = discharge_at(orifice.discharge, reynolds, ratio);
  const double q = point.cd * orifice.area * ideal_speed;
  return {q, 0.5 * (1.0 + point.exponent) * q / drop};
}

/// Fixed coefficient, q > 0.
DropPoint fixed_drop(const Orifice& orifice, double density, double q) {
  const double speed = q / (orifice.discharge.coefficient * orifice.area);
  const double drop = 0.5 * density * speed * speed;
  if (drop >= kSmoothDrop) return {drop, 2.0 * drop / q};
  // 5 x - x^3 = 4 y on [0, 1], the middle root of the cubic
  const double y = std::sqrt(drop / kSmoothDrop);
  const double third = std::asin(6.0 * std::sqrt(3.0 / 5.0) * y / 5.0) / 3.0;
  const double x = 2.0 * std::sqrt(5.0 / 3.0) * std::sin(third);
  return {kSmoothDrop * x, kSmoothDrop * y / (q * (1.25 - 0.75 * x * x))};
}

/// Short tube, q > 0: explicit, its loss is stated on the mean speed.
DropPoint short_tube_drop(const Orifice& orifice, const oil::Liquid& liquid, double q) {
  const double speed = q / orifice.area;
  const double d = orifice.hydraulic_diameter;
  const LossPoint loss =
      short_tube_loss(liquid.density * speed * d * d / (liquid.viscosity * orifice.length));
  const double drop = 0.5 * liquid.density * speed * speed * loss.zeta;
  return {drop, (2.0 + loss.slope / loss.zeta) * drop / q};
}

/// Laws explicit in the drop, q > 0: Newton in logarithms, where each is a line of slope 1/2 to 1 with a soft
/// bend.
DropPoint bent_drop(const Orifice& orifice, const oil::Liquid& liquid, double q) {
  // the larger of the two limits is where the drop lies, except in the bend between them
  const double ratio = length_ratio(orifice);
  const bool tube = orifice.discharge.law == Discharge::Law::LongOrifice;
  const double cd = tube ? long_orifice_limit(ratio) : orifice.discharge.coefficient;
  const double speed = q / orifice.area;
  const double turbulent = 0.5 * liquid.density * (speed / cd) * (speed / cd);
  const double laminar =
      speed * liquid.viscosity / (2.0 * laminar_slope(orifice.discharge, ratio) * orifice.hydraulic_diameter);
  double drop = std::max(turbulent, laminar);
  FlowPoint point;
  for (int i = 0; i < 100; ++i) {
    point = one_way_flow(orifice, liquid, drop);
    const double step = std::log(q / point.q) * point.q / (drop * point.dq_ddp);
    if (std::abs(step) < 1e-15) break;
    drop *= std::exp(step);
    if (std::abs(step) < 1e-8) break;  // quadratic: what is left is below rounding
  }
  return {drop, 1.0 / point.dq_ddp};
}

/// Any law at rest.
DropPoint drop_at_rest(const Orifice& orifice, const oil::Liquid& liquid) {
  return {0.0, 1.0 / one_way_flow(orifice, liquid, 0.0).dq_ddp};
}

}  // namespace

Orifice round_holes(int n_holes, double diameter, double length, const Discharge& discharge) {
  return {.area = n_holes * 0.25 * std::numbers::pi * diameter * diameter,
          .hydraulic_diameter = diameter,
          .length = length,
          .discharge = discharge};
}

FlowPoint orifice_flow(const Orifice& orifice, const oil::Liquid& liquid, double drop) {
  SW_CHECK(std::isfinite(drop), drop);
  FlowPoint point = one_way_flow(orifice, liquid, std::abs(drop));
  point.q = std::copysign(point.q, drop);
  return point;
}

double orifice_drop(const Orifice& orifice, const oil::Liquid& liquid, double q) {
  SW_CHECK(std::isfinite(q), q);
  return std::copysign(orifice_drop_point(orifice, liquid, std::abs(q)).drop, q);
}

DropPoint orifice_drop_point(const Orifice& orifice, const oil::Liquid& liquid, double q) {
  SW_CHECK(std::isfinite(q) && q >= 0.0, q);
  if (q == 0.0) return drop_at_rest(orifice, liquid);
  if (orifice.area <= 0.0)
    return {std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  if (orifice.discharge.law == Discharge::Law::Fixed) return fixed_drop(orifice, liquid.density, q);
  const bool is_tube =
      orifice.discharge.law == Discharge::Law::ShortTube ||
      (orifice.discharge.law == Discharge::Law::ThickEdge && thin_edge_share(length_ratio(orifice)) == 0.0);
  if (is_tube) return short_tube_drop(orifice, liquid, q);
  return bent_drop(orifice, liquid, q);
}

double series_area(double area_a, double area_b) {
  if (area_a <= 0.0 || area_b <= 0.0) return 0.0;
  return area_a * area_b / std::hypot(area_a, area_b);
}

double jet_force(double cd, double velocity_coefficient, double area, double drop, double angle) {
  return 2.0 * cd * velocity_coefficient * area * drop * std::cos(angle);
}

void find_problems(const Orifice& orifice, const std::string& field, Problems& problems) {
  const auto complain = [&](const char* name, double got, double limit, const char* allowed) {
    problems.push_back({field + "." + name, got, limit, allowed});
  };
  if (!(orifice.area >= 0.0)) complain("area", orifice.area, 0.0, "zero or more");
  if (!(orifice.hydraulic_diameter > 0.0) && orifice.area > 0.0)
    complain("hydraulic_diameter", orifice.hydraulic_diameter, 0.0, "more than zero");
  const double cd = orifice.discharge.coefficient;
  if (!(cd > 0.0 && cd <= 1.0)) complain("discharge.coefficient", cd, 1.0, "more than 0, at most 1");

  // the tube laws need a tube
  const double ratio = length_ratio(orifice);
  if (orifice.discharge.law == Discharge::Law::ShortTube && !(ratio > 0.0))
    complain("length", orifice.length, 0.0, "more than zero for the short-tube law");
  if (orifice.discharge.law == Discharge::Law::LongOrifice && !(ratio >= 1.5))
    complain("length", orifice.length, 1.5 * orifice.hydraulic_diameter,
             "at least 1.5 diameters for the long-orifice law");
  if (orifice.discharge.law == Discharge::Law::LongOrifice && ratio > 10.0)
    complain("length", orifice.length, 10.0 * orifice.hydraulic_diameter,
             "at most 10 diameters for the long-orifice law");
}

}  // namespace shimwright::flow
