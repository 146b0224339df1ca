#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "valve/law_table.h"
#include "valve/valve.h"

namespace shimwright::valve {
namespace {

constexpr int kMostLawHalvings = 10;

/// What lies across one way of the valve beside its ports, ready to evaluate.
struct Beside {
  oil::Liquid liquid;
  double tolerance = 0.0;
  std::vector<flow::Passage> bleeds;
  double leakage_conductance = 0.0;
};

Beside make_beside(const ValveModel& model, Way way, const oil::Liquid& liquid, double tolerance) {
  Beside beside{.liquid = liquid, .tolerance = tolerance};
  for (const Bleed& bleed : model.bleeds)
    if (way == Way::Compression ? bleed.compression : bleed.rebound)
      beside.bleeds.push_back(flow::settled(bleed.passage));
  if (model.leakage) beside.leakage_conductance = flow::gap_flow(*model.leakage, liquid, 0.0).dq_ddp;
  return beside;
}

/// A node of the sweep with the flow beside it put on top.
LawNode with_beside(const Beside& beside, LawNode node) {
  const double drop = node.root_drop * node.root_drop;
  const flow::FlowPoint point = flow::parallel_flow(beside.bleeds, beside.liquid, drop);
  node.q += point.q + beside.leakage_conductance * drop;
  node.q_slope += 2.0 * node.root_drop * (point.dq_ddp + beside.leakage_conductance);
  return node;
}

/// The sweep between two of its nodes.
LawNode sweep_between(const LawNode& a, const LawNode& b, double root_drop) {
  LawNode node;
  node.root_drop = root_drop;
  for (const Column& column : {kFlow, kStackFlow, kPocket, kLift}) {
    const CubicPoint point = between(a, b, column, root_drop);
    node.*column.value = point.value;
    node.*column.slope = point.slope;
  }
  return node;
}

/// Nodes between a and b, both left out, until the cubics follow the bleeds. `swept` are the ends
/// without bleeds: halving a cubic of the sweep changes nothing in it.
void refine(const Beside& beside, const LawNode& swept_a, const LawNode& a, const LawNode& swept_b,
            const LawNode& b, int halvings, DirectionLaw& law) {
  const LawNode swept = sweep_between(swept_a, swept_b, 0.5 * (a.root_drop + b.root_drop));
  const LawNode middle = with_beside(beside, swept);
  const double flow_misfit = misfit(a, b, middle, kFlow, kLeastFlow);
  if (flow_misfit <= beside.tolerance || halvings == 0) {
    law.table_error = std::max(law.table_error, flow_misfit);
    return;
  }
  refine(beside, swept_a, a, swept, middle, halvings - 1, law);
  law.nodes.push_back(middle);
  refine(beside, swept, middle, swept_b, b, halvings - 1, law);
}

/// Keeps every cubic rising: slopes at most three times the chord (Fritsch and Carlson 1980).
void keep_rising(std::vector<LawNode>& nodes) {
  for (size_t i = 0; i + 1 < nodes.size(); ++i) {
    LawNode& a = nodes[i];
    LawNode& b = nodes[i + 1];
    const double h = b.root_drop - a.root_drop;
    if (h <= 0.0) continue;
    const double steepest = 3.0 * std::max(0.0, b.q - a.q) / h;
    a.q_slope = std::clamp(a.q_slope, 0.0, steepest);
    b.q_slope = std::clamp(b.q_slope, 0.0, steepest);
  }
}

DirectionLaw direction_law(const DirectionLaw& sweep, const Beside& beside) {
  DirectionLaw law{.leakage_conductance = beside.leakage_conductance,
                   .has_stack = sweep.has_stack,
                   .has_ports = sweep.has_ports,
                   .outcome = sweep.outcome};
  law.nodes.reserve(2 * sweep.nodes.size());
  for (size_t i = 0; i < sweep.nodes.size(); ++i) {
    const LawNode node = with_beside(beside, sweep.nodes[i]);
    // the first cell lies below any drop that matters, and a pair of nodes at one drop has no inside
    if (i > 1 && node.root_drop > law.nodes.back().root_drop) {
      const LawNode last = law.nodes.back();
      refine(beside, sweep.nodes[i - 1], last, sweep.nodes[i], node, kMostLawHalvings, law);
    }
    law.nodes.push_back(node);
  }
  law.table_error += sweep.table_error;
  keep_rising(law.nodes);
  return law;
}

}  // namespace

DirectionLaw way_law_from_sweep(const ValveModel& model, Way way, const DirectionLaw& sweep,
                                const oil::Liquid& liquid, const LawOptions& options) {
  return direction_law(sweep, make_beside(model, way, liquid, options.tolerance));
}

ValveLaw valve_law_from_sweep(const ValveModel& model, const ValveSweep& sweep, const oil::Liquid& liquid,
                              const LawOptions& options) {
  return {way_law_from_sweep(model, Way::Compression, sweep.compression, liquid, options),
          way_law_from_sweep(model, Way::Rebound, sweep.rebound, liquid, options)};
}

ValveLaw valve_law(const ValveModel& model, const ValveStacks& stacks, const oil::Liquid& liquid,
                   const LawOptions& options) {
  return valve_law_from_sweep(model, sweep_valve(model, stacks, liquid, options), liquid, options);
}

}  // namespace shimwright::valve
