#pragma once
#include <vector>

#include "base/problem.h"
#include "num/curve.h"

namespace shimwright::ride {

/// One measured position of a rear linkage: how far the shock has moved when the wheel has moved so far.
struct LinkageRow {
  double wheel_travel = 0.0;  // vertical, from fully out [m]
  double shock_travel = 0.0;  // along the shock, from fully out [m]
};

/// The other way to give a linkage: the leverage at a place.
struct LeverageRow {
  double wheel_travel = 0.0;  // vertical, from fully out [m]
  double leverage = 0.0;      // wheel travel per shock travel there [-]
};

/// A linkage over the travel of its wheel.
struct Linkage {
  num::Curve shock_travel;  // over wheel travel, both from fully out [m]
};

struct LinkagePoint {
  double shock_travel = 0.0;        // [m]
  double motion_ratio = 0.0;        // d shock / d wheel [-]; leverage is its inverse
  double motion_ratio_slope = 0.0;  // d motion ratio / d wheel [1/m]; below zero: the linkage falls away
};

/// What is wrong with a table, by row. The wheel must rise from row to row and take the shock with it,
/// smoothly.
Problems problems_in(const std::vector<LinkageRow>& table);
Problems problems_in(const std::vector<LeverageRow>& table);

/// The linkage through a table of travels.
///
/// Model:  cubic spline, so that the motion ratio and its slope are continuous; not-a-knot ends.
/// Valid:  a table without problems, which includes that the spline never turns back.
/// Tested: linkage_test.cc
Linkage linkage_through(const std::vector<LinkageRow>& table);

/// The linkage of a table of leverages; the first row lies at wheel travel 0.
///
/// Model:  spline of the motion ratio 1 / leverage, integrated exactly at 32 places between two rows.
/// Tested: linkage_test.cc
Linkage linkage_through(const std::vector<LeverageRow>& table);

/// Where the shock is and how it moves at a wheel travel; straight on beyond the table's ends.
LinkagePoint linkage_at(const Linkage& linkage, double wheel_travel);

/// The wheel travel at which the shock has moved so far [m].
double wheel_travel_at(const Linkage& linkage, double shock_travel);

}  // namespace shimwright::ride
