#include "ride/wheel_spring.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <sstream>

#include "base/check.h"
#include "num/bounds.h"

namespace shimwright::ride {
namespace {

constexpr double kMostRake = 0.8;     // 46 degrees, far beyond any fork [rad]
constexpr double kTableSlack = 0.01;  // a table that ends within 1 % of the travel covers it

/// A linkage table shorter than the travel of its shock goes on straight; that is a guess, and said.
Outcome table_outcome(const WheelSpring& wheel) {
  const auto* linkage = std::get_if<Linkage>(&wheel.path);
  if (linkage == nullptr) return {};
  const double missing = 1.0 - linkage->shock_travel.y.back() / wheel.units.front().travel;
  if (missing <= kTableSlack) return {};
  std::ostringstream note;
  note.precision(3);
  note << "The linkage table ends " << 100.0 * missing
       << " % before the full travel of the shock. The program continues it in a straight line.";
  return {Status::OutOfRange, 0, missing, note.str()};
}

}  // namespace

Problems problems_in(const WheelSpring& wheel) {
  num::Bounds bounds;
  if (wheel.units.empty()) bounds.add({"units", 0.0, 1.0, "at least one leg or shock"});
  for (std::size_t i = 1; i < wheel.units.size(); ++i) {
    if (wheel.units[i].travel != wheel.units[0].travel) {
      bounds.add({"units[" + std::to_string(i) + "].travel", wheel.units[i].travel, wheel.units[0].travel,
                  "the travel of the other leg"});
    }
  }
  if (const auto* fork = std::get_if<ForkAngle>(&wheel.path)) {
    bounds.check("path.rake", fork->rake, 0.0, kMostRake, "0 to 45 degrees from the vertical");
  }
  return bounds.take();
}

LinkagePoint unit_motion_at(const WheelSpring& wheel, double wheel_travel) {
  if (const auto* linkage = std::get_if<Linkage>(&wheel.path)) return linkage_at(*linkage, wheel_travel);
  const double ratio = 1.0 / std::cos(std::get<ForkAngle>(wheel.path).rake);
  return {ratio * wheel_travel, ratio, 0.0};
}

double wheel_travel_at_unit(const WheelSpring& wheel, double unit_travel) {
  if (const auto* linkage = std::get_if<Linkage>(&wheel.path)) return wheel_travel_at(*linkage, unit_travel);
  return unit_travel * std::cos(std::get<ForkAngle>(wheel.path).rake);
}

double full_wheel_travel(const WheelSpring& wheel, const spring::Conditions& conditions) {
  SW_CHECK(!wheel.units.empty());
  double unit_travel = std::numeric_limits<double>::max();
  for (const spring::UnitSpring& unit : wheel.units) {
    unit_travel = std::min(unit_travel, spring::unit_limits(unit, conditions).usable_travel);
  }
  return wheel_travel_at_unit(wheel, unit_travel);
}

WheelForce wheel_force_at(const WheelSpring& wheel, const spring::Conditions& conditions,
                          double wheel_travel) {
  const LinkagePoint motion = unit_motion_at(wheel, wheel_travel);
  WheelForce result;
  result.wheel_travel = wheel_travel;
  result.unit_travel = motion.shock_travel;
  result.motion_ratio = motion.motion_ratio;
  for (const spring::UnitSpring& unit : wheel.units) {
    result.units.push_back(spring::force_at(unit, conditions, motion.shock_travel));
    const spring::ForceBreakdown& part = result.units.back();
    result.force += motion.motion_ratio * part.force;
    result.rate +=
        motion.motion_ratio * motion.motion_ratio * part.rate + motion.motion_ratio_slope * part.force;
  }
  return result;
}

WheelCurve wheel_curve(const WheelSpring& wheel, const spring::Conditions& conditions, int n_points) {
  SW_CHECK(!wheel.units.empty());
  WheelCurve curve;
  const double full = wheel_travel_at_unit(wheel, wheel.units.front().travel);
  for (const double travel : num::evenly_spaced(0.0, full, n_points)) {
    curve.points.push_back(wheel_force_at(wheel, conditions, travel));
  }
  curve.outcome = table_outcome(wheel);
  for (const spring::UnitSpring& unit : wheel.units) {
    curve.outcome = worse(curve.outcome, spring::unit_limits(unit, conditions).outcome);
  }
  return curve;
}

double wheel_damping(double unit_damping, double motion_ratio) {
  return unit_damping * motion_ratio * motion_ratio;
}

}  // namespace shimwright::ride
