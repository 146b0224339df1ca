#pragma once
#include <algorithm>
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

/// How far the cubic between a and b is off around a node in their middle, relative to its value; values
/// below `least` count as that.
///
/// The value alone can agree by chance where the true curve crosses the cubic in the middle. There the slope
/// cannot, and the cubic is off by up to a seventh of the slope's misfit times the span.
inline double misfit(const LawNode& a, const LawNode& b, const LawNode& middle, const Column& column,
                     double least) {
  const CubicPoint guess = between(a, b, column, middle.root_drop);
  const double off = std::abs(guess.value - middle.*column.value) +
                     std::abs(guess.slope - middle.*column.slope) * (b.root_drop - a.root_drop) / 7.0;
  return off / std::max(std::abs(middle.*column.value), least);
}

/// A cubic millimetre per second moves a rod of 10 mm at a hundredth of a millimetre per second: less need
/// not be given to the seventh digit.
inline constexpr double kLeastFlow = 1e-9;    // [m^3/s]
inline constexpr double kLeastPressure = 10;  // [Pa]

}  // namespace shimwright::valve
