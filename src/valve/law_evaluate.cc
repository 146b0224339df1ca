#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "valve/law_table.h"
#include "valve/valve.h"

namespace shimwright::valve {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

/// Index of the node at or below a root of the drop; the last node when it lies beyond.
size_t node_below(const DirectionLaw& law, double root_drop) {
  const auto after = std::upper_bound(law.nodes.begin() + 1, law.nodes.end(), root_drop,
                                      [](double x, const LawNode& node) { return x < node.root_drop; });
  return static_cast<size_t>(after - law.nodes.begin()) - 1;
}

/// One column at a root of the drop; beyond the last node it goes on straight in the root, as an orifice
/// does.
CubicPoint column_at(const DirectionLaw& law, size_t i, const Column& column, double root_drop) {
  if (i + 1 < law.nodes.size()) return between(law.nodes[i], law.nodes[i + 1], column, root_drop);
  const LawNode& last = law.nodes.back();
  return {last.*column.value + last.*column.slope * (root_drop - last.root_drop), last.*column.slope};
}

/// Root of the drop at a flow inside one cell: Newton on a rising cubic, kept inside the cell.
double root_in_cell(const LawNode& a, const LawNode& b, double q) {
  double low = a.root_drop;
  double high = b.root_drop;
  const double share = (q - a.q) / (b.q - a.q);
  // the first cell starts as a parabola, the others nearly straight
  double root = low + (high - low) * (low == 0.0 ? std::sqrt(share) : share);
  for (int i = 0; i < 100; ++i) {
    const CubicPoint point = between(a, b, kFlow, root);
    const double excess = point.value - q;
    (excess > 0.0 ? high : low) = root;
    double next = root - excess / point.slope;
    if (!(next >= low && next <= high)) next = 0.5 * (low + high);
    const double moved = std::abs(next - root);
    root = next;
    if (moved <= 4e-16 * root) break;
  }
  return root;
}

double one_way_drop(const DirectionLaw& law, double q) {
  if (q == 0.0) return 0.0;
  const LawNode& last = law.nodes.back();
  if (q >= last.q) {
    if (q == last.q) return last.root_drop * last.root_drop;
    if (!(last.q_slope > 0.0)) return kInfinity;
    const double root = last.root_drop + (q - last.q) / last.q_slope;
    return root * root;
  }
  const auto after = std::upper_bound(law.nodes.begin() + 1, law.nodes.end(), q,
                                      [](double x, const LawNode& node) { return x < node.q; });
  const double root = root_in_cell(*(after - 1), *after, q);
  return root * root;
}

const DirectionLaw& law_of(const ValveLaw& law, double sign) {
  return sign < 0.0 ? law.rebound : law.compression;
}

Carrier carrier_of(const DirectionLaw& law, const ValveState& state) {
  if (state.q == 0.0) return Carrier::Nothing;
  if (state.q_bleed + state.q_leakage > 0.5 * state.q) return Carrier::Bleed;
  if (law.has_stack && state.pocket >= state.port_drop) return Carrier::Stack;
  return Carrier::Port;
}

/// Ports against stack at a node: positive where the ports resist more.
double choke_excess(double root_drop, double pocket) {
  return root_drop * root_drop - 2.0 * pocket;
}

}  // namespace

flow::FlowPoint flow_at(const ValveLaw& law, double drop) {
  SW_CHECK(std::isfinite(drop), drop);
  const DirectionLaw& way = law_of(law, drop);
  const double root = std::sqrt(std::abs(drop));
  const size_t i = node_below(way, root);
  const CubicPoint point = column_at(way, i, kFlow, root);
  if (root == 0.0) {
    // q = c root^2 to first order: the slope with the drop is c
    const LawNode& next = way.nodes[i + 1];
    const double h = next.root_drop;
    return {0.0, (3.0 * next.q - h * next.q_slope) / (h * h)};
  }
  return {std::copysign(point.value, drop), point.slope / (2.0 * root)};
}

double drop_at(const ValveLaw& law, double q) {
  SW_CHECK(std::isfinite(q), q);
  return std::copysign(one_way_drop(law_of(law, q), std::abs(q)), q);
}

ValveState state_at(const ValveLaw& law, double drop) {
  SW_CHECK(std::isfinite(drop), drop);
  const DirectionLaw& way = law_of(law, drop);
  const double size = std::abs(drop);
  const double root = std::sqrt(size);
  const size_t i = node_below(way, root);

  // the table, positive in its own way; the parts never exceed the whole
  ValveState state;
  state.q = column_at(way, i, kFlow, root).value;
  state.q_leakage = std::min(state.q, way.leakage_conductance * size);
  state.q_stack = std::clamp(column_at(way, i, kStackFlow, root).value, 0.0, state.q - state.q_leakage);
  state.q_bleed = state.q - state.q_leakage - state.q_stack;
  const double pocket = std::clamp(column_at(way, i, kPocket, root).value, 0.0, size);
  state.pocket = !way.has_stack ? 0.0 : way.has_ports ? pocket : size;
  state.port_drop = way.has_ports ? size - state.pocket : 0.0;
  state.lift = std::max(0.0, column_at(way, i, kLift, root).value);
  state.beyond_table = root > way.nodes.back().root_drop;
  state.carrier = carrier_of(way, state);

  // signed as the drop
  state.drop = drop;
  for (double* part :
       {&state.q, &state.q_stack, &state.q_bleed, &state.q_leakage, &state.pocket, &state.port_drop})
    *part = std::copysign(*part, drop);
  return state;
}

double choke_drop(const DirectionLaw& law) {
  if (!law.has_ports || !law.has_stack) return kInfinity;
  for (size_t i = 0; i + 1 < law.nodes.size(); ++i) {
    const LawNode& a = law.nodes[i];
    const LawNode& b = law.nodes[i + 1];
    if (b.q_stack <= 0.0 || choke_excess(b.root_drop, b.pocket) <= 0.0) continue;
    // halve down to where the two drops are equal
    double low = a.root_drop;
    double high = b.root_drop;
    for (int k = 0; k < 60 && high - low > 1e-14 * high; ++k) {
      const double root = 0.5 * (low + high);
      (choke_excess(root, between(a, b, kPocket, root).value) > 0.0 ? high : low) = root;
    }
    return high * high;
  }
  return kInfinity;
}

double largest_drop(const DirectionLaw& law) {
  return law.nodes.back().root_drop * law.nodes.back().root_drop;
}

double largest_flow(const DirectionLaw& law) {
  return law.nodes.back().q;
}

}  // namespace shimwright::valve
