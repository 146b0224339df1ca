#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "valve/law_table.h"
#include "valve/valve.h"

namespace shimwright::valve {
namespace {

// The sweep starts here and takes this many steps per decade before it is refined [Pa].
constexpr double kFirstPocket = flow::kSmoothDrop;
constexpr double kStepsPerDecade = 3.0;
constexpr int kMostSweepHalvings = 10;

// Splits of the flow are reported, not computed with: they may be this much coarser than the flow itself.
constexpr double kSplitFactor = 1e3;

/// One way of the valve, made ready for the sweep.
struct Sweep {
  oil::Liquid liquid;
  double tolerance = 0.0;

  // ports, then the disc with what is always open beside it
  const flow::Orifice* ports = nullptr;
  const plate::LiftCurve* curve = nullptr;
  flow::Curtain curtain;
  std::vector<flow::Passage> face_bleeds;

  // the other way's ports, run backwards through its face bleeds and the opening its stack leaves at rest
  const flow::Orifice* back_ports = nullptr;
  flow::Curtain back_curtain;
  double back_lift = 0.0;
  std::vector<flow::Passage> back_bleeds;
};

/// Lift of the face disc and its slope on one side of a kink.
struct LiftPoint {
  double lift = 0.0;
  double slope = 0.0;
};

/// Flow backwards past a closed stack: its ports in a row with everything that is open on its face.
flow::FlowPoint back_flow(const Sweep& sweep, double drop) {
  const auto face = [&](double pocket) {
    flow::FlowPoint point = flow::parallel_flow(sweep.back_bleeds, sweep.liquid, pocket);
    if (sweep.back_lift > 0.0) {
      const flow::CurtainPoint gap =
          flow::curtain_flow(sweep.back_curtain, sweep.liquid, sweep.back_lift, pocket);
      point.q += gap.q;
      point.dq_ddp += gap.dq_ddp;
    }
    return point;
  };
  if (sweep.back_bleeds.empty() && sweep.back_lift == 0.0) return {};
  if (!sweep.back_ports || drop == 0.0) return face(drop);

  // pocket + port drop = drop, rising in the pocket pressure: Newton inside a bracket
  double low = 0.0;
  double high = drop;
  double pocket = drop;
  flow::FlowPoint point = face(pocket);
  double resistance = 0.0;
  for (int i = 0; i < 200; ++i) {
    const flow::DropPoint ports = flow::orifice_drop_point(*sweep.back_ports, sweep.liquid, point.q);
    resistance = ports.ddp_dq;
    const double excess = pocket + ports.drop - drop;
    (excess > 0.0 ? high : low) = pocket;
    double next = pocket - excess / (1.0 + resistance * point.dq_ddp);
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    const double moved = std::abs(next - pocket);
    pocket = next;
    point = face(pocket);
    if (moved <= 1e-14 * pocket || high - low <= 1e-15 * high) break;
  }
  return {point.q, point.dq_ddp / (1.0 + resistance * point.dq_ddp)};
}

/// The node at a pocket pressure; without a stack the pressure is the total drop.
LawNode node_at(const Sweep& sweep, double pocket, const LiftPoint& disc) {
  LawNode node;
  double drop = pocket;
  double drop_slope = 1.0;  // with pocket pressure
  flow::FlowPoint own;      // through this way's ports, slope with pocket pressure
  double stack_slope = 0.0;
  if (sweep.curve) {
    // lift -> curtain -> what the ports take on top
    const flow::CurtainPoint curtain = flow::curtain_flow(sweep.curtain, sweep.liquid, disc.lift, pocket);
    const flow::FlowPoint face = flow::parallel_flow(sweep.face_bleeds, sweep.liquid, pocket);
    stack_slope = curtain.dq_ddp + curtain.dq_dlift * disc.slope;
    own = {curtain.q + face.q, stack_slope + face.dq_ddp};
    node.q_stack = curtain.q;
    node.pocket = pocket;
    node.lift = disc.lift;
    if (sweep.ports) {
      const flow::DropPoint ports = flow::orifice_drop_point(*sweep.ports, sweep.liquid, own.q);
      drop += ports.drop;
      drop_slope += ports.ddp_dq * own.dq_ddp;
    }
  } else if (sweep.ports) {
    own = flow::orifice_flow(*sweep.ports, sweep.liquid, pocket);
    stack_slope = own.dq_ddp;
    node.q_stack = own.q;
  }

  // the way back through the other ports sees the total drop
  const flow::FlowPoint back = back_flow(sweep, drop);
  node.root_drop = std::sqrt(drop);
  const double by_root = 2.0 * node.root_drop / drop_slope;  // d pocket / d root_drop
  node.q = own.q + back.q;
  node.q_slope = own.dq_ddp * by_root + 2.0 * node.root_drop * back.dq_ddp;
  node.q_stack_slope = stack_slope * by_root;
  node.pocket_slope = sweep.curve ? by_root : 0.0;
  node.lift_slope = disc.slope * by_root;
  return node;
}

LiftPoint disc_at(const Sweep& sweep, double pocket, double side) {
  if (!sweep.curve) return {};
  const double beside = pocket * (1.0 + side * 1e-12);
  return {plate::lift_at(*sweep.curve, pocket), plate::lift_slope_at(*sweep.curve, beside)};
}

/// Pocket pressures to start from: even in the logarithm, every point of the lift curve, and close behind the
/// opening, where the flow starts from nothing.
std::vector<double> first_pockets(const Sweep& sweep, double drop_max) {
  const double last = sweep.curve ? sweep.curve->pressure.back() : drop_max;
  std::vector<double> pockets;
  const double ratio = std::pow(10.0, 1.0 / kStepsPerDecade);
  for (double p = kFirstPocket; p < last; p *= ratio) pockets.push_back(p);
  if (sweep.curve) {
    for (const double p : sweep.curve->pressure)
      if (p > kFirstPocket && p < last) pockets.push_back(p);
    const double opening = sweep.curve->opening_pressure;
    for (double gap = 1e-6; gap < 1.0 && opening > 0.0; gap *= 10.0)
      if (opening * (1.0 + gap) < last) pockets.push_back(opening * (1.0 + gap));
  }
  pockets.push_back(last);
  std::sort(pockets.begin(), pockets.end());
  const auto same = [](double a, double b) { return b - a <= 1e-12 * b; };
  pockets.erase(std::unique(pockets.begin(), pockets.end(), same), pockets.end());
  return pockets;
}

/// Nodes between a and b, both left out, until the cubics follow the sweep.
void refine(const Sweep& sweep, double p_a, const LawNode& a, double p_b, const LawNode& b, int halvings,
            DirectionLaw& law) {
  const double root = 0.5 * (std::sqrt(p_a) + std::sqrt(p_b));
  const double p_m = root * root;
  const LawNode middle = node_at(sweep, p_m, disc_at(sweep, p_m, 0.0));
  const double flow_misfit = misfit(a, b, middle, kFlow, kLeastFlow);
  const double split_misfit =
      std::max(misfit(a, b, middle, kStackFlow, kLeastFlow), misfit(a, b, middle, kPocket, kLeastPressure));
  const bool good = flow_misfit <= sweep.tolerance && split_misfit <= kSplitFactor * sweep.tolerance;
  if (good || halvings == 0) {
    law.table_error = std::max(law.table_error, flow_misfit);
    return;
  }
  refine(sweep, p_a, a, p_m, middle, halvings - 1, law);
  law.nodes.push_back(middle);
  refine(sweep, p_m, middle, p_b, b, halvings - 1, law);
}

Sweep make_sweep(const ValveModel& model, const ValveStacks& stacks, Way way, const oil::Liquid& liquid,
                 double tolerance) {
  const bool compression = way == Way::Compression;
  const DirectionModel& own = compression ? model.compression : model.rebound;
  const DirectionModel& other = compression ? model.rebound : model.compression;
  const auto& own_curve = compression ? stacks.compression : stacks.rebound;
  const auto& other_curve = compression ? stacks.rebound : stacks.compression;
  SW_CHECK(own.stack.has_value() == own_curve.has_value());

  const auto curtain_of = [](const DirectionModel& direction, const plate::LiftCurve& curve) {
    return flow::Curtain{.seat_radius = curve.seat_radius,
                         .arc_fraction = curve.arc_fraction,
                         .land_width = direction.land_width,
                         .discharge = direction.curtain_discharge};
  };
  const auto settle = [](const std::vector<flow::Passage>& passages) {
    std::vector<flow::Passage> ready;
    for (const flow::Passage& passage : passages) ready.push_back(flow::settled(passage));
    return ready;
  };

  Sweep sweep{.liquid = liquid, .tolerance = tolerance};
  sweep.ports = own.ports ? &*own.ports : nullptr;
  sweep.face_bleeds = settle(own.face_bleeds);
  if (own_curve) {
    sweep.curve = &*own_curve;
    sweep.curtain = curtain_of(own, *own_curve);
  }
  sweep.back_ports = other.ports ? &*other.ports : nullptr;
  sweep.back_bleeds = settle(other.face_bleeds);
  if (other_curve) {
    sweep.back_curtain = curtain_of(other, *other_curve);
    sweep.back_lift = plate::lift_at(*other_curve, 0.0);
  }
  return sweep;
}

DirectionLaw direction_sweep(const Sweep& sweep, double drop_max) {
  DirectionLaw law;
  law.has_stack = sweep.curve != nullptr;
  law.has_ports = sweep.ports != nullptr;
  if (sweep.curve) law.outcome = sweep.curve->outcome;
  law.nodes.reserve(256);

  // from rest: no drop, no flow
  LawNode rest;
  rest.lift = sweep.curve ? plate::lift_at(*sweep.curve, 0.0) : 0.0;
  law.nodes.push_back(rest);

  // two nodes at one drop where the lift has a kink, so that each side keeps its own slope
  double p_last = 0.0;
  for (const double p : first_pockets(sweep, drop_max)) {
    const LawNode below = node_at(sweep, p, disc_at(sweep, p, -1.0));
    if (p_last > 0.0) {
      const LawNode last = law.nodes.back();
      refine(sweep, p_last, last, p, below, kMostSweepHalvings, law);
    }
    law.nodes.push_back(below);
    const LiftPoint above = disc_at(sweep, p, 1.0);
    const LawNode after = node_at(sweep, p, above);
    if (std::abs(after.q_slope - below.q_slope) > 1e-9 * (std::abs(after.q_slope) + std::abs(below.q_slope)))
      law.nodes.push_back(after);
    if (below.root_drop * below.root_drop >= drop_max) break;  // ports that choke: the drop runs away
    p_last = p;
  }
  return law;
}

}  // namespace

DirectionLaw sweep_way(const ValveModel& model, const ValveStacks& stacks, Way way, const oil::Liquid& liquid,
                       const LawOptions& options) {
  SW_CHECK(liquid.density > 0.0 && liquid.viscosity > 0.0, liquid.density, liquid.viscosity);
  return direction_sweep(make_sweep(model, stacks, way, liquid, options.tolerance), options.drop_max);
}

ValveSweep sweep_valve(const ValveModel& model, const ValveStacks& stacks, const oil::Liquid& liquid,
                       const LawOptions& options) {
  return {sweep_way(model, stacks, Way::Compression, liquid, options),
          sweep_way(model, stacks, Way::Rebound, liquid, options)};
}

}  // namespace shimwright::valve
