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

/// The rigid slide of a floating stack before it bends.
struct Slide {
  double begins = 0.0;  // pressure [Pa]
  double ends = 0.0;    // pressure at which it meets the stop [Pa]
};
Slide slide_of(const Stack& stack, double load_force);
double slide_travel(const Stack& stack, double load_force, double pressure);

/// The stack as the bending solver takes it: one that floats has no seat to bend against.
Stack bending_stack(const Stack& stack);

/// All results of the solver's present state except the float; after `begin_collecting` for its stack.
void begin_collecting(const Stack& stack, const StackSolver& solver, CollectScratch& scratch);
void collect_point(const Stack& stack, StackSolver& solver, CollectScratch& scratch, StackPoint& point);

}  // namespace shimwright::plate
