#include "damper/release_rest.h"

#include <algorithm>

#include "base/check.h"
#include "num/root.h"

namespace shimwright::damper {
namespace {

constexpr int kLooks = 50;        // along the way out, before the first root is closed in on
constexpr double kClose = 1e-9;   // of a travel [m]
constexpr double kMostAir = 0.5;  // of all the room for oil: with more there is no damper left

/// What friction takes off the oil's pressure while a free piston follows.
double piston_drag(const MotionModel& model) {
  const auto& piston = model.reservoir.piston;
  return piston ? piston->friction / piston->area : 0.0;
}

/// Push on a rod that moves out; one that rests where this is negative stays.
double push_out(const MotionModel& model, double travel) {
  return rest_at(model, travel, piston_drag(model)).force - model.seal_friction;
}

/// The same for a rod that springs draw in: positive where it does not start inwards.
double push_in(const MotionModel& model, double travel) {
  return rest_at(model, travel, -piston_drag(model)).force + model.seal_friction;
}

MotionModel with_air_only(const MotionModel& model, double air) {
  MotionModel filled = model;
  filled.rod.trapped_air = filled.reservoir.oil.trapped_air = 0.0;
  filled.compression.trapped_air = air;  // at rest one pressure is everywhere, and any chamber is as good
  return filled;
}

}  // namespace

RestBand rest_band(const MotionModel& model, double pushed_to) {
  SW_CHECK(pushed_to > 0.0 && pushed_to <= model.travel, pushed_to, model.travel);
  const auto out = [&](double travel) { return push_out(model, travel); };
  const auto in = [&](double travel) { return push_in(model, travel); };
  RestBand band;
  double from = pushed_to;
  if (out(from) <= 0.0) {
    band.inner = pushed_to;
  } else {
    for (int i = 1; i <= kLooks && band.inner == 0.0; ++i) {
      const double to = pushed_to * (kLooks - i) / kLooks;
      if (out(to) <= 0.0) band.inner = num::root_between(out, to, from, {.x_tolerance = kClose}).x;
      from = to;
    }
  }
  if (band.inner > 0.0 && in(0.0) < 0.0)
    band.outer = in(band.inner) <= 0.0 ? band.inner
                                       : num::root_between(in, 0.0, band.inner, {.x_tolerance = kClose}).x;
  return band;
}

std::optional<double> air_that_stops_at(const MotionModel& model, double travel) {
  SW_CHECK(travel >= 0.0 && travel <= model.travel, travel, model.travel);
  const auto push = [&](double air) { return push_out(with_air_only(model, air), travel); };
  if (push(0.0) <= 0.0) return 0.0;
  const double most = kMostAir * (model.compression.volume + model.rod.volume + model.reservoir.oil.volume);
  if (push(most) > 0.0) return std::nullopt;
  constexpr double kDrop = 1e-12;  // a thousandth of a cubic millimetre [m^3]
  return num::root_between(push, 0.0, most, {.x_tolerance = kDrop}).x;
}

}  // namespace shimwright::damper
