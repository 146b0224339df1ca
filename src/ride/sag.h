#pragma once
#include <optional>
#include <vector>

#include "ride/wheel_spring.h"

namespace shimwright::ride {

inline constexpr double kGravity = 9.80665;  // standard [m/s^2]

/// What the springs of one end carry, wheel and other unsprung parts left out [kg].
struct SprungMass {
  double machine = 0.0;
  double rider = 0.0;  // the rider's share on this end, in riding gear
};

/// Position of the machine under a load. Friction is left out: it is what the average of two readings, one
/// coming from above and one from below, is meant to take away.
struct Sag {
  double load = 0.0;          // on the springs of this end [N]
  double wheel_travel = 0.0;  // straight up, from fully out [m]
  double unit_travel = 0.0;   // of each leg or the shock [m]
  double share = 0.0;         // of the full wheel travel [-]
  bool topped_out = false;    // the springs push harder than the load even fully out
  bool bottomed = false;      // the load is more than the springs carry fully in
  Outcome outcome;            // OutOfRange when bottomed
};

/// Sag under a mass [kg].
///
/// Model:  spring force straight up at the axle = mass x gravity; each end of the machine by itself.
/// Valid:  springs whose force rises over the travel, as all here do unless a linkage falls away too fast;
/// then
///         one of the balances is found.
/// Tested: sag_test.cc
Sag sag_under(double mass, const WheelSpring& wheel, const spring::Conditions& conditions);

/// Range of wheel travel, as a share of all of it.
struct SagRange {
  double low = 0.0;
  double high = 0.0;
};
struct SagTarget {
  SagRange machine_alone;  // static or free sag
  SagRange with_rider;     // rider or race sag
};

enum class Use { Road, OffRoad };
enum class End { Front, Rear };

/// What is usually aimed for: a start, to be edited. Common practice, no source.
SagTarget usual_sag(Use use, End end);

enum class Knob {
  Preload,   // of every coil of this end, by the same length [m]
  Rate,      // of every coil, by the same factor; change = factor - 1
  Pressure,  // of every positive air chamber when sealed, by the same amount [Pa]
};

/// One setting that alone brings the rider's sag to its target.
struct SagSetting {
  Knob knob = Knob::Preload;
  double change = 0.0;  // as the knob says; 0 leaves it
  Sag machine_alone;    // static sag with it: too little of it says that the spring is too soft, too much too
                        // hard
};

struct SagAdvice {
  double target = 0.0;               // wheel travel aimed for [m]
  double missing_force = 0.0;        // load less spring force there; above zero: it needs more spring [N]
  std::vector<SagSetting> settings;  // those that can do it; empty when none can
};

/// Settings that bring the machine with its rider to a wheel travel [m].
///
/// Valid:  target between 0 and full wheel travel. Preload is sought from zero to as much as the travel, rate
/// from
///         a fifth to five times, pressure from a tenth to ten times what it is.
/// Tested: sag_test.cc
SagAdvice advice_for(double target, const SprungMass& mass, const WheelSpring& wheel,
                     const spring::Conditions& conditions);

/// The wheel's springs with one setting changed.
WheelSpring with_setting(const WheelSpring& wheel, Knob knob, double change);

}  // namespace shimwright::ride
