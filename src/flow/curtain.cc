#include "flow/curtain.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"
#include "flow/orifice.h"

namespace shimwright::flow {
namespace {

struct EdgePoint {
  FlowPoint flow;
  double growth = 0.0;  // d ln(q) / d ln(lift)
};

EdgePoint edge_flow(const Curtain& curtain, const oil::Liquid& liquid, double lift, double drop) {
  const Orifice edge{
      .area = curtain_area(curtain, lift), .hydraulic_diameter = 2.0 * lift, .discharge = curtain.discharge};
  const FlowPoint flow = orifice_flow(edge, liquid, drop);
  // the coefficient sees the lift only through Re_h, which also carries the drop's root
  const bool bends = curtain.discharge.law != Discharge::Law::Fixed && flow.q != 0.0;
  const double growth = bends ? 2.0 * drop * flow.dq_ddp / flow.q : 1.0;
  return {flow, growth};
}

/// Film first, then edge: find the share of the drop that the edge takes, drop > 0.
CurtainPoint with_land(const Curtain& curtain, const oil::Liquid& liquid, double lift, double drop) {
  const double width = 2.0 * std::numbers::pi * curtain.seat_radius * curtain.arc_fraction;
  const double film = 12.0 * liquid.viscosity * curtain.land_width / (width * lift * lift * lift);

  // the flow through the edge rises with its share, that through the film falls: one root
  double low = 0.0;
  double high = drop;
  // exact where the edge's coefficient is constant: film c u + u^2 = drop with u the root of the share
  const double film_slope = film * edge_flow(curtain, liquid, lift, drop).flow.q / std::sqrt(drop);
  const double root = 2.0 * drop / (film_slope + std::sqrt(film_slope * film_slope + 4.0 * drop));
  double share = std::min(root * root, drop);
  EdgePoint edge = edge_flow(curtain, liquid, lift, share);
  for (int i = 0; i < 200; ++i) {
    const double excess = film * edge.flow.q + share - drop;
    (excess > 0.0 ? high : low) = share;
    double next = share - excess / (film * edge.flow.dq_ddp + 1.0);
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    const double moved = std::abs(next - share);
    share = next;
    edge = edge_flow(curtain, liquid, lift, share);
    if (moved <= 1e-15 * drop || high - low <= 1e-16 * high) break;
  }

  // the part with more of the drop gives the flow more exactly
  const double q = share < 0.5 * drop ? (drop - share) / film : edge.flow.q;

  // tangent of the two in a row
  const double slack = 1.0 + film * edge.flow.dq_ddp;
  const double film_by_lift = -3.0 * film / lift;
  const double edge_by_lift = edge.growth * q / lift;
  return {q, edge.flow.dq_ddp / slack, (edge_by_lift - edge.flow.dq_ddp * film_by_lift * q) / slack};
}

}  // namespace

double curtain_area(const Curtain& curtain, double lift) {
  return 2.0 * std::numbers::pi * curtain.seat_radius * curtain.arc_fraction * lift;
}

CurtainPoint curtain_flow(const Curtain& curtain, const oil::Liquid& liquid, double lift, double drop) {
  SW_CHECK(lift >= 0.0 && std::isfinite(drop), lift, drop);
  if (lift == 0.0) {
    if (curtain.discharge.law != Discharge::Law::Fixed || curtain.land_width > 0.0) return {};
    // a fixed coefficient opens in proportion to lift from the first micrometre
    const EdgePoint unit = edge_flow(curtain, liquid, 1e-6, drop);
    return {0.0, 0.0, unit.flow.q / 1e-6};
  }
  if (curtain.land_width > 0.0 && drop != 0.0) {
    CurtainPoint point = with_land(curtain, liquid, lift, std::abs(drop));
    point.q = std::copysign(point.q, drop);
    point.dq_dlift = std::copysign(point.dq_dlift, drop);
    return point;
  }
  const EdgePoint edge = edge_flow(curtain, liquid, lift, drop);
  CurtainPoint point{edge.flow.q, edge.flow.dq_ddp, edge.growth * edge.flow.q / lift};
  if (curtain.land_width > 0.0) {
    const double width = 2.0 * std::numbers::pi * curtain.seat_radius * curtain.arc_fraction;
    const double film = 12.0 * liquid.viscosity * curtain.land_width / (width * lift * lift * lift);
    point.dq_ddp /= 1.0 + film * point.dq_ddp;
  }
  return point;
}

void find_problems(const Curtain& curtain, const std::string& field, Problems& problems) {
  const auto complain = [&](const char* name, double got, double limit, const char* allowed) {
    problems.push_back({field + "." + name, got, limit, allowed});
  };
  if (!(curtain.seat_radius > 0.0)) complain("seat_radius", curtain.seat_radius, 0.0, "more than zero");
  if (!(curtain.arc_fraction > 0.0 && curtain.arc_fraction <= 1.0))
    complain("arc_fraction", curtain.arc_fraction, 1.0, "more than 0, at most 1");
  if (!(curtain.land_width >= 0.0)) complain("land_width", curtain.land_width, 0.0, "zero or more");
  const double cd = curtain.discharge.coefficient;
  if (!(cd > 0.0 && cd <= 1.0)) complain("discharge.coefficient", cd, 1.0, "more than 0, at most 1");
  const auto law = curtain.discharge.law;
  if (law != Discharge::Law::Fixed && law != Discharge::Law::SharpEdge)
    complain("discharge.law", static_cast<double>(law), 0.0, "fixed or sharp-edged: a curtain is no tube");
}

}  // namespace shimwright::flow
