// Stacks of every shape that the formulation knows, drawn at random; for tests.
#pragma once
#include <rapidcheck.h>

#include <algorithm>
#include <sstream>
#include <string>

#include "plate/stack.h"

namespace shimwright::plate {

inline double between(double a, double b) {
  return a + (b - a) * *rc::gen::inRange(0, 1001) / 1000.0;
}

inline bool one_in(int n) {
  return *rc::gen::inRange(0, n) == 0;
}

/// A gap shim behind the last disc, and sometimes a ring around it that is as thick, thinner or thicker.
inline void add_gap_shim(Stack& stack, const Disc& like, double width) {
  Disc filler = like;
  filler.outer_radius = stack.clamp_radius + width * between(0.05, 0.3);
  stack.discs.push_back(filler);
  if (!one_in(3)) return;
  Disc ring = like;
  ring.outer_radius = stack.clamp_radius + width * between(0.7, 1.0);
  ring.bore_radius = filler.outer_radius + (ring.outer_radius - filler.outer_radius) * between(0.2, 0.7);
  ring.thickness = std::max(filler.thickness + 0.05e-3 * *rc::gen::inRange(-1, 2), 0.05e-3);
  stack.discs.push_back(ring);
}

inline void add_supports(Stack& stack, double width) {
  const double clamp = stack.clamp_radius;
  const double rim = stack.discs[0].outer_radius;
  const double seat = clamp + width * between(0.7, 0.97);
  const double pocket = clamp + (seat - clamp) * between(0.6, 1.0);
  stack.load = {clamp + (pocket - clamp) * between(0.0, 0.4), pocket, between(0.4, 1.0), 0.0};
  if (one_in(3)) stack.load.land_outer_radius = pocket + (rim - pocket) * between(0.2, 1.0);
  stack.seat = {!one_in(3), seat, 0.05e-3 * *rc::gen::inRange(-2, 5)};
  if (one_in(5)) stack.washer_radius = clamp * between(0.85, 1.1);
  if (one_in(6)) {
    stack.slide = {1e-4 * *rc::gen::inRange(1, 8), between(0.0, 10.0), 1e3 * between(1.0, 10.0)};
    stack.seat.height = 0.0;
  } else if (one_in(4)) {
    stack.back_spring = {true, clamp + width * between(0.3, 0.9), 1e3 * between(5.0, 100.0), 0.0, 0.0};
    (one_in(2) ? stack.back_spring.preload : stack.back_spring.gap) =
        stack.back_spring.preload == 0.0 && one_in(2) ? 0.0 : 1e-4;
  }
  if (one_in(8)) stack.clamp_slips = true;
}

/// One to a dozen discs in any order: gap shims, rings, two materials, notches; seat above and below the
/// clamp plane; pocket with arc and land; washer of any size; float, or a coil spring behind.
inline Stack any_shape() {
  Stack stack;
  stack.clamp_radius = 1e-3 * between(4.0, 8.0);
  const double width = 1e-3 * between(4.0, 10.0);
  const int n = *rc::gen::inRange(1, 12);
  for (int i = 0; i < n; ++i) {
    Disc disc;
    disc.bore_radius = 0.6 * stack.clamp_radius;
    disc.outer_radius = stack.clamp_radius + width * (i == 0 ? 1.0 : between(0.15, 1.0));
    disc.thickness = 0.05e-3 * *rc::gen::inRange(2, 7);
    if (one_in(8)) {  // bronze
      disc.youngs_modulus = 110e9;
      disc.poisson_ratio = 0.34;
    }
    if (one_in(10)) disc.notches = {4, 1e-3, 0.5e-3};
    if (i > 0 && one_in(5)) add_gap_shim(stack, disc, width);
    stack.discs.push_back(i > 0 && one_in(3) && stack.discs.back().bore_radius < stack.clamp_radius
                              ? stack.discs.back()
                              : disc);
  }
  add_supports(stack, width);
  return stack;
}

inline std::string described(const Stack& stack) {
  std::ostringstream text;
  text << "clamp " << stack.clamp_radius << " washer " << stack.washer_radius << " load "
       << stack.load.inner_radius << ' ' << stack.load.outer_radius << ' ' << stack.load.arc_fraction << ' '
       << stack.load.land_outer_radius << " seat " << stack.seat.present << ' ' << stack.seat.radius << ' '
       << stack.seat.height << " slide " << stack.slide.travel << " spring " << stack.back_spring.present
       << ' ' << stack.back_spring.radius << ' ' << stack.back_spring.rate << ' ' << stack.back_spring.preload
       << " slips " << stack.clamp_slips;
  for (const Disc& disc : stack.discs)
    text << "\n  " << disc.outer_radius << ' ' << disc.bore_radius << ' ' << disc.thickness << ' '
         << disc.youngs_modulus << " notches " << disc.notches.count;
  return text.str();
}

/// A pressure under which the stack without its seat lifts by some tenths of a millimetre in linear theory.
inline double any_pressure_for(const Stack& stack) {
  Stack open = stack;
  open.seat.present = false;
  open.slide = {};
  Options linear;
  linear.theory = Theory::Linear;
  linear.estimate_mesh_error = false;
  const double pressures[] = {1e3, 2e3};
  Workspace workspace;
  const StackResult result = stack_response(open, pressures, linear, workspace);
  const double rate = (result.points[1].lift_seat - result.points[0].lift_seat) / 1e3;
  return std::min(1e-3 * between(0.05, 0.5) / std::max(rate, 1e-12), 5e7);
}

}  // namespace shimwright::plate
