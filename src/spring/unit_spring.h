#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/outcome.h"
#include "base/problem.h"
#include "spring/air_spring.h"
#include "spring/coil.h"

namespace shimwright::spring {

/// Pulls the leg in near fully out, so that it does not knock.
struct TopOutSpring {
  double rate = 0.0;        // [N/m]
  double engagement = 0.0;  // travel below which it acts [m]
};

/// Rubber or cone near fully in: rate c + cubic c^3, c the travel past its start.
struct BumpStop {
  double start = 0.0;  // travel at first touch [m]
  double rate = 0.0;   // there [N/m]
  double cubic = 0.0;  // how it stiffens [N/m^3]
};

struct SpringElement {
  std::string name;  // as the reader will see it
  std::variant<CoilStack, AirSpring, TopOutSpring, BumpStop> law;
};

/// All springs of one leg or shock, side by side along its travel. Check it with `problems_in` before use.
struct UnitSpring {
  double travel = 0.0;                  // full, from fully out [m]
  std::vector<SpringElement> elements;  // all act at once and add up
};

/// What is wrong with the model, by field. What merely ends the travel early is no problem but a limit.
Problems problems_in(const UnitSpring& unit);

/// Force over the travel of a unit, with the part of each element. Positive pushes the leg apart.
struct ForceBreakdown {
  double travel = 0.0;                 // [m]
  double force = 0.0;                  // of all elements [N]
  double rate = 0.0;                   // d force / d travel [N/m]
  double energy = 0.0;                 // taken up since fully out [J]
  std::vector<ElementForce> elements;  // as UnitSpring::elements
};

/// Springs only: no friction, no damper, no static rod force (a gas reservoir may be given as an air
/// element).
///
/// Valid:  0 <= travel <= `unit_limits(...).usable_travel`. A little outside, values go on smoothly, so that
/// a
///         root finder may look there; past a limit they are a continuation and no spring.
/// Errors: SW_CHECK on a unit that `problems_in` refuses where it would divide by zero.
/// Tested: unit_spring_test.cc, spring_property_test.cc
ForceBreakdown force_at(const UnitSpring& unit, const Conditions& conditions, double travel);

struct SpringCurve {
  std::vector<ForceBreakdown> points;  // evenly spaced from fully out to full travel (n)
  Outcome outcome;                     // OutOfRange when a limit ends the travel early
};
SpringCurve spring_curve(const UnitSpring& unit, const Conditions& conditions, int n_points);

/// Where the springs come to their ends.
struct UnitLimits {
  double usable_travel = 0.0;              // the least of full travel and the two ends below [m]
  std::optional<double> coil_bind_travel;  // a coil stack is solid, inside the travel [m]
  std::optional<double> air_end_travel;    // the air is used up, inside the travel [m]
  std::vector<double> crossover_travels;   // coils dropping out of their stack inside the travel, rising [m]
  double force_out = 0.0;                  // fully out [N]; negative: the springs pull the leg in
  double force_in = 0.0;                   // at usable travel [N]
  double energy_in = 0.0;                  // taken up to there [J]
  double rest_travel = 0.0;                // where the unloaded unit comes to rest; 0 when it tops out [m]
  Outcome outcome;                         // OutOfRange when usable travel is less than full travel
};
UnitLimits unit_limits(const UnitSpring& unit, const Conditions& conditions);

}  // namespace shimwright::spring
