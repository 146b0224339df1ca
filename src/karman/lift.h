#pragma once
#include <memory>
#include <span>
#include <string_view>
#include <vector>

#include "base/outcome.h"
#include "karman/disc_table.h"
#include "plate/stack.h"

namespace shimwright::karman {

/// Why a stack is not covered.
enum class Cover {
  Covered,
  Ring,           // a disc that nothing clamps
  Float,          // the stack slides
  BackSpring,     // a spring on its back
  Notches,        // in a rim
  SlippingClamp,  // discs slide in the clamp
  Washer,         // its edge is not the boss's
  OtherValve,     // another clamp, pocket, land or seat radius than the table's
  Material,       // another modulus or Poisson's ratio than the table's
  Rim,            // of a radius that the table has not, or a face disc that ends inside the seat
  Layers,         // more different layers in a row than there is room for, or none
};

/// Whether the table covers the stack. What it does not cover is for plate::lift_curve.
Cover covers(const DiscTable& table, const plate::Stack& stack);

/// The reason in a few words.
std::string_view word(Cover cover);

/// Lift at the seat over pressure: cubics in the root of the pressure between points solved with their slope.
struct QuickCurve {
  std::vector<double> pressure;   // ascending, from 0; a kink is two points at one pressure [Pa]
  std::vector<double> lift;       // at each [m]
  std::vector<double> slope;      // d lift / d pressure at each [m/Pa]
  double opening_pressure = 0.0;  // below it the stack seals [Pa]
  double seat_radius = 0.0;       // [m]
  double arc_fraction = 1.0;      // [-]
  Outcome outcome;                // Stalled: the numbers are worth nothing; its iterations are Newton steps
};

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

/// The lift of a stack from zero to p_max, in place of `curve`.
///
/// Model:  README.md.
/// Units:  p_max > 0 [Pa].
/// Valid:  stacks that the table covers (SW_CHECK).
/// Tested: lift_test.cc
void quick_curve(const DiscTable& table, const plate::Stack& stack, double p_max, Workspace& workspace,
                 QuickCurve& curve);

/// Lift at a pressure [m]; never negative. Beyond the last pressure the curve goes on straight; below zero it
/// is the lift at rest.
double lift_at(const QuickCurve& curve, double pressure);

/// 2 pi r_seat arc_fraction lift, as plate::opening_area_at [m^2].
double opening_area_at(const QuickCurve& curve, double pressure);

/// `lift_at` at ascending pressures, quicker than one by one.
void lifts_at(const QuickCurve& curve, std::span<const double> pressures, std::span<double> lifts);

}  // namespace shimwright::karman
