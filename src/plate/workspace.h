#pragma once
#include <list>
#include <vector>

#include "plate/lift_curve.h"
#include "plate/limits.h"
#include "plate/solver.h"

namespace shimwright::plate {

/// A lift curve and all it was drawn from.
struct KnownCurve {
  Stack stack;
  double p_max = 0.0;
  Options options;
  LiftCurve curve;
};

/// What is used again for every point that is collected.
struct CollectScratch {
  std::vector<Section> sections;
  std::vector<WavyRim> rims;  // by layer; as many as any stack had
};

struct Workspace::Impl {
  StackSolver solver;
  StackSolver other;  // for runs next to the main one: a float's stop, a disc left out
  CollectScratch scratch;
  std::vector<int> order;
  std::vector<StackSolver::Knot> knots;  // of a curve that is being built; as many as any had
  std::list<KnownCurve> known_curves;    // the newest first
  int most_known_curves = 0;
};

/// Pressure at which a floating stack meets its stop [Pa].
double slide_end(const Stack& stack, double load_force);

/// A floating stack at a pressure.
struct Lifted {
  double lift = 0.0;  // at the seat [m]
  double centre =
      0.0;  // travel of its middle; below zero where the disc is dished before it leaves the seat [m]
  double slope = 0.0;  // of the travel over pressure [m/Pa]
};

/// What a floating stack lifts where it would bend by `bend` if its middle were held [m].
///
/// Model:  it hangs on its spring in the middle and is pressed all over, so it bends on the way as it does at
/// the
///         stop. It leaves the seat where middle and bend together are up.
Lifted floated(const Stack& stack, double load_force, double pressure, double bend);

/// The stack as the bending solver takes it: one that floats has no seat to bend against.
Stack bending_stack(const Stack& stack);

/// All results of the solver's present state except the float; after `begin_collecting` for its stack.
void begin_collecting(const Stack& stack, const StackSolver& solver, CollectScratch& scratch);
void collect_point(const Stack& stack, StackSolver& solver, CollectScratch& scratch, StackPoint& point);

}  // namespace shimwright::plate
