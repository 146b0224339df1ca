#pragma once
#include <memory>
#include <span>
#include <vector>

#include "base/outcome.h"
#include "karman/disc_table.h"
#include "plate/stack.h"

namespace shimwright::karman {

/// Lift at the seat over pressure: cubics in the root of the pressure between points solved with their slope.
struct Curve {
  std::vector<double> pressure;   // ascending, from 0; a kink is two points at one pressure [Pa]
  std::vector<double> lift;       // at each [m]
  std::vector<double> slope;      // d lift / d pressure at each [m/Pa]
  double opening_pressure = 0.0;  // below it the stack seals [Pa]
  double seat_radius = 0.0;       // [m]
  double arc_fraction = 1.0;      // [-]
  Outcome outcome;                // Stalled: there is no curve; its iterations are Newton's steps
};

/// A slope beyond which the curve says OutOfRange: no test holds it to the full solver there [rad].
inline constexpr double kSteepest = 0.2;

/// Scratch memory; keep one per thread. Results do not depend on what it was used for before.
class Workspace {
 public:
  Workspace();
  ~Workspace();
  Workspace(Workspace&&) noexcept;
  Workspace& operator=(Workspace&&) noexcept;

  struct Impl;
  Impl& impl() { return *impl_; }

 private:
  std::unique_ptr<Impl> impl_;
};

/// The lift of a stack from zero to p_max, into `curve`, whose memory is used again.
///
/// Model:  README.md.
/// Units:  p_max > 0 [Pa].
/// Valid:  stacks that the table covers (SW_CHECK).
/// Errors: Stalled when Newton or the contact did not settle, or gave no finite number; OutOfRange beyond
///         `kSteepest`.
/// Tested: full_solver_test.cc, textbook_test.cc, karman_curve_test.cc
void find_curve(const DiscTable& table, const plate::Stack& stack, double p_max, Workspace& workspace,
                Curve& curve);

/// Lift at a pressure [m]; never negative. Beyond the last pressure the curve goes on straight; below zero it
/// is the lift at rest. Not for a curve that stalled (SW_CHECK).
double lift_at(const Curve& curve, double pressure);

/// 2 pi r_seat arc_fraction lift, as plate::opening_area_at [m^2].
double opening_area_at(const Curve& curve, double pressure);

/// `lift_at` at ascending pressures, quicker than one by one.
void lifts_at(const Curve& curve, std::span<const double> pressures, std::span<double> lifts);

}  // namespace shimwright::karman
