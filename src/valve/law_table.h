#pragma once
#include <cmath>

#include "valve/valve.h"

// The cubics between the nodes of a law. Private to the module.

namespace shimwright::valve {

/// Where a value of LawNode and its slope are kept.
struct Column {
  double LawNode::* value;
  double LawNode::* slope;
};

inline constexpr Column kFlow{&LawNode::q, &LawNode::q_slope};
inline constexpr Column kStackFlow{&LawNode::q_stack, &LawNode::q_stack_slope};
inline constexpr Column kPocket{&LawNode::pocket, &LawNode::pocket_slope};
inline constexpr Column kLift{&LawNode::lift, &LawNode::lift_slope};

struct CubicPoint {
  double value = 0.0;
  double slope = 0.0;  // with root_drop
};

/// Hermite cubic between two nodes at a root of the drop between theirs.
inline CubicPoint between(const LawNode& a, const LawNode& b, const Column& column, double root_drop) {
  const double h = b.root_drop - a.root_drop;
  const double t = (root_drop - a.root_drop) / h;
  const double rise = b.*column.value - a.*column.value;
  const double slope_a = h * (a.*column.slope);
  const double slope_b = h * (b.*column.slope);
  const double c2 = 3.0 * rise - 2.0 * slope_a - slope_b;
  const double c3 = slope_a + slope_b - 2.0 * rise;
  return {a.*column.value + t * (slope_a + t * (c2 + t * c3)), (slope_a + t * (2.0 * c2 + t * 3.0 * c3)) / h};
}

}  // namespace shimwright::valve
