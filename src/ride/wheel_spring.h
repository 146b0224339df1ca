#pragma once
#include <variant>
#include <vector>

#include "base/outcome.h"
#include "base/problem.h"
#include "ride/linkage.h"
#include "spring/unit_spring.h"

namespace shimwright::ride {

/// A telescopic fork: its legs move along the steering head's angle, the wheel is judged straight up.
struct ForkAngle {
  double rake = 0.0;  // angle of the legs from the vertical [rad]
};

/// The springs that carry one end of the machine: both legs of a fork, which may differ, or one shock.
struct WheelSpring {
  std::vector<spring::UnitSpring> units;  // move together (n >= 1)
  std::variant<ForkAngle, Linkage> path;  // how they follow the wheel
};

/// What is wrong with the model, by field; those of the units and of a linkage table are their own.
Problems problems_in(const WheelSpring& wheel);

/// How the units follow the wheel at a wheel travel.
LinkagePoint unit_motion_at(const WheelSpring& wheel, double wheel_travel);

/// Wheel travel with the units at a travel of their own [m].
double wheel_travel_at_unit(const WheelSpring& wheel, double unit_travel);

/// Wheel travel at which the first of the units is at its usable end [m].
double full_wheel_travel(const WheelSpring& wheel, const spring::Conditions& conditions);

struct WheelForce {
  double wheel_travel = 0.0;                  // straight up, from fully out [m]
  double unit_travel = 0.0;                   // of each leg or the shock [m]
  double motion_ratio = 0.0;                  // d unit / d wheel [-]
  double force = 0.0;                         // straight up at the axle [N]
  double rate = 0.0;                          // d force / d wheel travel [N/m]
  std::vector<spring::ForceBreakdown> units;  // as WheelSpring::units
};

/// Spring force at the axle.
///
/// Model:  virtual work without friction: force = R sum F, rate = R^2 sum k + R' sum F, R the motion ratio.
/// For a
///         fork R = 1 / cos(rake): a leg that leans carries more than the wheel shows, by what its bushings
///         hold.
/// Tested: wheel_spring_test.cc (RD-14)
WheelForce wheel_force_at(const WheelSpring& wheel, const spring::Conditions& conditions,
                          double wheel_travel);

struct WheelCurve {
  std::vector<WheelForce> points;  // evenly spaced from fully out to full wheel travel (n)
  Outcome outcome;                 // the worst of the units' limits and of a linkage table that is too short
};
WheelCurve wheel_curve(const WheelSpring& wheel, const spring::Conditions& conditions, int n_points);

/// Damping of a unit as the wheel feels it, c R^2 [N.s/m].
double wheel_damping(double unit_damping, double motion_ratio);

}  // namespace shimwright::ride
