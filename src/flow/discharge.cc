#include "flow/discharge.h"

#include <cmath>
#include <limits>
#include <numbers>

#include "base/check.h"

namespace shimwright::flow {
namespace {

// Merritt's two short-tube branches meet here (D Re / L); the join is spread over [kJoin, kJoinEnd].
constexpr double kJoin = 50.0;
constexpr double kJoinEnd = 100.0;

double square(double x) {
  return x * x;
}

/// delta^2 of Wuest's and Sampson's laws written as cd = delta^2 Re_h.
double sharp_slope(Discharge::Laminar laminar) {
  using enum Discharge::Laminar;
  switch (laminar) {
    case WuestRound:
      return 2.0 / 50.4;
    case SampsonRound:
      return 1.0 / (12.0 * std::numbers::pi);
    case WuestSlot:
      return std::numbers::pi / 128.0;
  }
  return 0.0;
}

DischargePoint sharp_edge(const Discharge& discharge, double reynolds_ideal) {
  const double cd_laminar = sharp_slope(discharge.laminar) * reynolds_ideal;
  const double x8 = square(square(square(cd_laminar / discharge.coefficient)));
  // written so that neither end of the range overflows or loses its limit
  if (!(x8 < 1e100)) return {discharge.coefficient, 0.0};
  const double join = 1.0 / (1.0 + x8);
  return {cd_laminar * std::sqrt(std::sqrt(std::sqrt(join))), join};
}

DischargePoint short_tube(double reynolds_ideal, double length_ratio) {
  // drop = zeta rho u^2 / 2 becomes y^2 zeta(y) = target, and y^2 zeta always rises
  const double target = square(reynolds_ideal / length_ratio);
  double log_y = 0.5 * std::log(target / 1.5);
  const double log_slow = std::log(target / 64.0);
  if (log_slow < log_y) log_y = log_slow;
  LossPoint loss;
  for (int i = 0; i < 60; ++i) {
    loss = short_tube_loss(std::exp(log_y));
    const double step = (std::log(target / loss.zeta) - 2.0 * log_y) / (2.0 + loss.slope / loss.zeta);
    log_y += step;
    if (std::abs(step) < 1e-9) break;  // quadratic: the step after this one is below rounding
  }
  loss = short_tube_loss(std::exp(log_y));
  // ln y = const + ln cd + ln Re_h, and y^2 zeta(y) grows as Re_h^2
  return {1.0 / std::sqrt(loss.zeta), 2.0 / (2.0 + loss.slope / loss.zeta) - 1.0};
}

double long_orifice_entry(double length_ratio) {
  return 20.0 * (1.0 + 2.25 * length_ratio);
}

DischargePoint long_orifice(double reynolds_ideal, double length_ratio) {
  const double log_re = std::log10(0.00015 * reynolds_ideal);
  const double bell = 1.0 + 7.5 * square(log_re);
  const double entry = long_orifice_entry(length_ratio) / reynolds_ideal;
  const double dip = 0.005 * length_ratio / bell;
  const double inverse = 1.0 / long_orifice_limit(length_ratio) + entry - dip;
  const double inverse_slope = -entry + dip * 15.0 * log_re / (std::numbers::ln10 * bell);
  return {1.0 / inverse, -inverse_slope / inverse};
}

/// A hole between a thin edge and a short tube.
DischargePoint thick_edge(const Discharge& discharge, double reynolds_ideal, double length_ratio) {
  const double thin = thin_edge_share(length_ratio);
  if (thin >= 1.0) return sharp_edge(discharge, reynolds_ideal);
  const DischargePoint tube = short_tube(reynolds_ideal, length_ratio);
  if (thin <= 0.0) return tube;
  const DischargePoint sharp = sharp_edge(discharge, reynolds_ideal);
  return {std::exp(thin * std::log(sharp.cd) + (1.0 - thin) * std::log(tube.cd)),
          thin * sharp.exponent + (1.0 - thin) * tube.exponent};
}

}  // namespace

Discharge fixed_discharge(double coefficient) {
  return {.law = Discharge::Law::Fixed, .coefficient = coefficient};
}

Discharge sharp_discharge(double coefficient, Discharge::Laminar laminar) {
  return {.law = Discharge::Law::SharpEdge, .coefficient = coefficient, .laminar = laminar};
}

double thin_edge_share(double length_ratio) {
  constexpr double kLength = 2.4;  // from here on the jet fills the tube
  if (length_ratio <= 0.0) return 1.0;
  if (length_ratio >= kLength) return 0.0;
  const double l7 = std::pow(length_ratio, 7);
  return (1.0 - length_ratio / kLength) * std::pow(10.0, -0.535 * length_ratio * l7 / (0.05 + l7));
}

LossPoint short_tube_loss(double y) {
  const LossPoint slow{2.28 + 64.0 / y, -64.0 / y};
  if (y <= kJoin) return slow;
  const double root = 13.74 / std::sqrt(y);
  const LossPoint fast{1.5 + root, -0.5 * root};
  if (y >= kJoinEnd) return fast;
  const double span = std::log(kJoinEnd / kJoin);
  const double t = std::log(y / kJoin) / span;
  const double weight = t * t * (3.0 - 2.0 * t);
  const double weight_slope = 6.0 * t * (1.0 - t) / span;
  return {slow.zeta + weight * (fast.zeta - slow.zeta),
          slow.slope + weight * (fast.slope - slow.slope) + weight_slope * (fast.zeta - slow.zeta)};
}

double long_orifice_limit(double length_ratio) {
  return length_ratio < 2.0 ? 0.810 : 0.827 - 0.0085 * length_ratio;
}

DischargePoint discharge_at(const Discharge& discharge, double reynolds_ideal, double length_ratio) {
  using enum Discharge::Law;
  switch (discharge.law) {
    case Fixed:
      return {discharge.coefficient, 0.0};
    case SharpEdge:
      return sharp_edge(discharge, reynolds_ideal);
    case ShortTube:
      return short_tube(reynolds_ideal, length_ratio);
    case ThickEdge:
      return thick_edge(discharge, reynolds_ideal, length_ratio);
    case LongOrifice:
      return long_orifice(reynolds_ideal, length_ratio);
  }
  SW_CHECK(false, static_cast<int>(discharge.law));
  return {};
}

double laminar_slope(const Discharge& discharge, double length_ratio) {
  using enum Discharge::Law;
  switch (discharge.law) {
    case Fixed:
      return std::numeric_limits<double>::infinity();
    case SharpEdge:
      return sharp_slope(discharge.laminar);
    case ShortTube:
      return 1.0 / (64.0 * length_ratio);
    case ThickEdge: {
      const double thin = thin_edge_share(length_ratio);
      const double sharp = sharp_slope(discharge.laminar);
      return thin >= 1.0 ? sharp : std::pow(sharp, thin) * std::pow(64.0 * length_ratio, thin - 1.0);
    }
    case LongOrifice:
      return 1.0 / long_orifice_entry(length_ratio);
  }
  SW_CHECK(false, static_cast<int>(discharge.law));
  return 0.0;
}

}  // namespace shimwright::flow
