#pragma once
#include <cmath>
#include <cstddef>
#include <vector>

#include "damper/motion_model.h"
#include "num/fixed_power.h"

// The parts of a damper in motion, each with its derivatives. Private to the module.

namespace shimwright::damper::motion {

/// Oil and air at one pressure, per volume at one atmosphere. Oil has its bubbles in it, wherever it goes.
struct Squeezed {
  double oil = 1.0;           // volume of oil with its bubbles [-]
  double oil_give = 0.0;      // what that loses with pressure [1/Pa]
  double bubbles = 0.0;       // their part of it [-]
  double oil_enthalpy = 0.0;  // integral of the volume over pressure, from one atmosphere [J/m^3]
  double air = 1.0;           // volume of free air [-]
  double air_give = 0.0;      // what that loses with pressure, over itself [1/Pa]
  double per_pressure = 0.0;  // [1/Pa]
  double air_enthalpy = 0.0;  // the same integral from the release pressure [J/m^3]
};

/// The same oil, evaluated again and again.
class SqueezedOil {
 public:
  explicit SqueezedOil(const MotionOil& oil);
  Squeezed at(double pressure) const;
  double per_modulus() const { return per_modulus_; }

 private:
  double bulk_modulus_ = 0.0;
  double per_modulus_ = 0.0;
  double per_exponent_ = 0.0;
  double share_ = 0.0;  // of bubbles
  bool isothermal_ = false;
  double per_work_ = 0.0;
  num::FixedPower volume_of_air_;
  double enthalpy_at_release_ = 0.0;
};

inline Squeezed squeezed_at(const MotionOil& oil, double pressure) {
  return SqueezedOil(oil).at(pressure);
}

/// Air coming out of solution, or going back.
struct ReleaseRate {
  double rate = 0.0;  // at one atmosphere [m^3/s]
  double by_pressure = 0.0, by_released = 0.0, by_volume = 0.0;
};

/// Model:  below release (1 - p/p_rel)(dissolved - released)/release_time, above -released (1 -
/// p_rel/p)/return_time;
///         dissolved = bunsen volume p_sat / one atmosphere. Both only ever turn work into heat.
ReleaseRate release_rate(const MotionOil& oil, double pressure, double released, double volume);

/// A law ready for every stage of every step: cubics in the root of the drop, and the last cell that was
/// used.
class QuickLaw {
 public:
  explicit QuickLaw(const valve::ValveLaw& law);

  struct Point {
    double q = 0.0;
    double by_drop = 0.0;
  };
  Point at(double drop);
  /// The same with the root of the drop, and its slope with it, that more laws share.
  Point at(double drop, double root, double root_by_drop);

  /// How far a drop lies along its own way's table; above 1 it is beyond.
  double share_of_table(double drop) const {
    const double largest = drop < 0.0 ? largest_rebound_ : largest_compression_;
    return largest > 0.0 ? std::abs(drop) / largest : 0.0;  // nothing passes this way: nothing was solved
  }

 private:
  struct Cell {
    double root = 0.0;                              // where it starts [Pa^(1/2)]
    double c0 = 0.0, c1 = 0.0, c2 = 0.0, c3 = 0.0;  // of root - start
  };
  struct OneWay {
    std::vector<Cell> cells;  // the last goes on straight
    std::size_t last = 0;
  };
  static OneWay one_way(const valve::DirectionLaw& law);

  OneWay compression_;
  OneWay rebound_;
  double largest_compression_ = 0.0;  // [Pa]
  double largest_rebound_ = 0.0;      // [Pa]
};

/// The law of one valve over temperature.
class WarmLaw {
 public:
  /// `of` picks the valve out of the laws.
  WarmLaw(const std::vector<LawsAt>& laws, const valve::ValveLaw& (*of)(const DamperLaws&));

  struct Point {
    double q = 0.0;
    double by_drop = 0.0;
    double by_temperature = 0.0;
  };
  Point at(double drop, double temperature);
  double share_of_table(double drop) const;  // the worst of all temperatures

 private:
  std::vector<double> temperature_;
  std::vector<QuickLaw> laws_;
};

/// Flow through an opening that may change over travel: smooth through zero.
/// Model:  cd area sqrt(2/rho) dp / (dp^2 + dp_smooth^2)^(1/4)
struct OpeningFlow {
  double q = 0.0;
  double by_drop = 0.0;
  double by_area = 0.0;
};
OpeningFlow opening_flow(double discharge, double area, double density, double drop);

struct Sloped {
  double value = 0.0;
  double slope = 0.0;
};

/// Area that is open at a travel.
Sloped bleed_area(const PositionBleed& bleed, double travel);
Sloped port_area(const ReliefPort& port, double piston_travel);

/// Friction over its size: tanh(speed / scale).
Sloped friction_share(double speed, double scale);

/// Pressure that the reservoir's dry side and springs hold against the oil.
struct HoldingPressure {
  double value = 0.0;
  double by_taken = 0.0, by_travel = 0.0;                  // first derivatives
  double by_taken_twice = 0.0, by_taken_and_travel = 0.0;  // second
  double gas_pressure = 0.0, gas_by_taken = 0.0, gas_by_travel = 0.0;
};
/// `power`: to the gas's exponent, for who asks again and again.
HoldingPressure holding_pressure(const MotionReservoir& reservoir, double taken, double travel,
                                 const num::FixedPower* power = nullptr);

/// Pressure that a stop takes up beside its spring, over the rate of what is taken; and how that changes with
/// it.
struct StopLoss {
  double by_rate = 0.0;            // [Pa s/m^3]
  double by_rate_and_taken = 0.0;  // [Pa s/m^6]
};
/// Model:  a dashpot that begins where the piston touches, in full a few micrometres further: it never jumps.
StopLoss stop_loss(const FreePiston& piston, double taken);

/// Energy in gas, spring and stops of the reservoir, zero with the rod fully out [J].
double holding_energy(const MotionReservoir& reservoir, double taken, double travel);

/// Force of an oil lock, and the pressure in it.
struct LockForce {
  double force = 0.0;
  double by_travel = 0.0, by_speed = 0.0;
  double drop = 0.0;
};
LockForce lock_force(const Restriction& lock, double density, double travel, double speed);

/// Outer air: force over the atmosphere and its energy.
Sloped outer_air_force(const OuterAir& air, double atmosphere, double travel);
double outer_air_energy(const OuterAir& air, double travel);

/// Lift that a floating valve goes to at a drop, and the drop that holds it at a lift.
Sloped floating_lift(const FloatingValve& valve, double drop_its_way);
double floating_drop(const FloatingValve& valve, double lift);
double floating_energy(const FloatingValve& valve, double lift);

}  // namespace shimwright::damper::motion
