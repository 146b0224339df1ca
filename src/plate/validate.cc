#include <algorithm>
#include <cmath>

#include "plate/stack.h"

namespace shimwright::plate {
namespace {

class Checker {
 public:
  Problems problems;
  int disc = -1;  // whose fields are looked at; -1 for those of the stack

  void require(bool holds, const char* field, double got, double limit, const char* allowed) {
    if (holds) return;  // a name is only put together where it is needed
    const std::string before = disc < 0 ? "" : "discs[" + std::to_string(disc) + "].";
    problems.push_back({before + field, got, limit, allowed});
  }
  void positive(const char* field, double got) {
    require(std::isfinite(got) && got > 0.0, field, got, 0.0, "larger than 0");
  }
  void not_negative(const char* field, double got) {
    require(std::isfinite(got) && got >= 0.0, field, got, 0.0, "0 or larger");
  }
};

void check_disc(const Disc& disc, Checker& check) {
  check.positive("outer_radius", disc.outer_radius);
  check.not_negative("bore_radius", disc.bore_radius);
  check.require(disc.bore_radius < disc.outer_radius, "bore_radius", disc.bore_radius, disc.outer_radius,
                "smaller than the outer radius");
  check.positive("thickness", disc.thickness);
  check.positive("youngs_modulus", disc.youngs_modulus);
  check.require(disc.poisson_ratio >= 0.0 && disc.poisson_ratio < 0.5, "poisson_ratio", disc.poisson_ratio,
                0.5, "0 or larger and below 0.5");
  check.not_negative("yield_strength", disc.yield_strength);
  check.not_negative("fatigue_strength", disc.fatigue_strength);
  check.not_negative("ultimate_strength", disc.ultimate_strength);
  const RimNotches& notches = disc.notches;
  if (notches.count == 0) return;
  check.require(notches.count > 0, "notches.count", notches.count, 0.0, "0 or larger");
  check.positive("notches.width", notches.width);
  check.positive("notches.depth", notches.depth);
  const double around = 2.0 * 3.14159265358979 * (disc.outer_radius - notches.depth);
  check.require(notches.count * notches.width < 0.9 * around, "notches.width", notches.width,
                0.9 * around / notches.count, "so that the notches leave a tenth of the rim");
}

void check_load(const Stack& stack, double fixed, Checker& check) {
  const Load& load = stack.load;
  const double rim = stack.discs[0].outer_radius;
  check.not_negative("load.inner_radius", load.inner_radius);
  check.require(load.outer_radius > std::max(load.inner_radius, fixed), "load.outer_radius",
                load.outer_radius, std::max(load.inner_radius, fixed),
                "larger than the inner radius and the clamp radius");
  check.require(load.outer_radius <= rim, "load.outer_radius", load.outer_radius, rim,
                "within the face disc's rim");
  check.require(load.arc_fraction > 0.0 && load.arc_fraction <= 1.0, "load.arc_fraction", load.arc_fraction,
                1.0, "above 0 and up to 1");
  check.not_negative("load.land_outer_radius", load.land_outer_radius);
  check.require(load.land_outer_radius == 0.0 || load.land_outer_radius >= load.outer_radius,
                "load.land_outer_radius", load.land_outer_radius, load.outer_radius,
                "0, or at least the pocket's outer radius");
}

void check_supports(const Stack& stack, double fixed, Checker& check) {
  const double rim = stack.discs[0].outer_radius;
  check.require(stack.seat.radius > fixed && stack.seat.radius <= rim, "seat.radius", stack.seat.radius, rim,
                "between the clamp radius and the face disc's rim");
  check.require(std::isfinite(stack.seat.height), "seat.height", stack.seat.height, 0.0, "a number");
  const double widest =
      stack.washer_radius > 0.0 ? std::max(stack.clamp_radius, stack.washer_radius) : stack.clamp_radius;
  check.require(widest < rim, "washer_radius", widest, rim, "smaller than the face disc's rim");
  check.require(!stack.seat.present || stack.seat.radius > stack.clamp_radius, "seat.radius",
                stack.seat.radius, stack.clamp_radius, "larger than the boss's edge");
  if (stack.back_spring.present) {
    const BackSpring& spring = stack.back_spring;
    check.require(spring.radius > fixed && spring.radius <= rim, "back_spring.radius", spring.radius, rim,
                  "between the clamp radius and the face disc's rim");
    check.positive("back_spring.rate", spring.rate);
    check.not_negative("back_spring.preload", spring.preload);
    check.not_negative("back_spring.gap", spring.gap);
    check.require(spring.preload == 0.0 || spring.gap == 0.0, "back_spring.gap", spring.gap, 0.0,
                  "0 when the spring has a preload");
  }
  check.not_negative("slide.travel", stack.slide.travel);
  if (stack.slide.travel <= 0.0) return;
  check.not_negative("slide.spring_force", stack.slide.spring_force);
  check.positive("slide.spring_rate", stack.slide.spring_rate);
  check.require(stack.seat.height == 0.0, "seat.height", stack.seat.height, 0.0, "0 when the stack floats");
  check.require(!stack.back_spring.present, "back_spring.present", 1.0, 0.0,
                "left out when the stack floats");
}

}  // namespace

Problems validate(const Stack& stack) {
  Checker check;
  check.require(!stack.discs.empty(), "discs", 0.0, 1.0, "at least one disc");
  check.positive("clamp_radius", stack.clamp_radius);
  check.not_negative("washer_radius", stack.washer_radius);
  for (const Disc& disc : stack.discs) {
    ++check.disc;
    check_disc(disc, check);
  }
  check.disc = -1;
  if (stack.discs.empty() || !check.problems.empty()) return check.problems;

  const double fixed =
      stack.washer_radius > 0.0 ? std::min(stack.clamp_radius, stack.washer_radius) : stack.clamp_radius;
  const Disc& face = stack.discs[0];
  check.require(face.outer_radius > fixed, "discs[0].outer_radius", face.outer_radius, fixed,
                "larger than the clamp radius");
  check.require(face.bore_radius <= fixed, "discs[0].bore_radius", face.bore_radius, fixed,
                "within the clamp radius: the face disc must be held");
  check_load(stack, fixed, check);
  check_supports(stack, fixed, check);
  return check.problems;
}

}  // namespace shimwright::plate
