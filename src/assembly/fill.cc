#include "assembly/fill.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "base/check.h"

namespace shimwright::assembly {
namespace {

double circle(double diameter) {
  return 0.25 * std::numbers::pi * diameter * diameter;
}

void require(Problems& problems, bool holds, const std::string& field, double got, double limit,
             const char* allowed) {
  if (!holds) problems.push_back({field, got, limit, allowed});
}

// bleeding by hand, common practice, no source
constexpr double kBleedStrokeLow = 125e-3;
constexpr double kBleedStrokeHigh = 150e-3;
constexpr double kBleedSecondsLow = 300.0;
constexpr double kBleedSecondsHigh = 600.0;

/// "Almost nothing": what 2 mm of rod push out. Common practice, no source.
constexpr double kPurgeAcceptedStroke = 2e-3;

/// Free area of the tube at height z above the floor.
double free_area(const OuterTube& tube, double z) {
  double area = circle(tube.bore);
  for (const Standing& part : tube.standing) {
    if (z >= part.bottom && z < part.top) area -= circle(part.diameter);
  }
  return area;
}

/// Heights at which the free area changes, ascending.
std::vector<double> steps_of(const OuterTube& tube) {
  std::vector<double> steps;
  for (const Standing& part : tube.standing) {
    steps.push_back(part.bottom);
    steps.push_back(part.top);
  }
  std::ranges::sort(steps);
  return steps;
}

/// Volume between the floor and height `level`.
double volume_below(const OuterTube& tube, double level) {
  double volume = circle(tube.bore) * level;
  for (const Standing& part : tube.standing) {
    volume -= circle(part.diameter) * std::max(0.0, std::min(level, part.top) - std::min(level, part.bottom));
  }
  return volume;
}

}  // namespace

double rod_volume(double rod_diameter, double stroke) {
  return circle(rod_diameter) * stroke;
}

Problems problems_in(const CartridgeFill& fill) {
  Problems problems;
  require(problems, fill.bore > 0.0, "bore", fill.bore, 0.0, "larger than zero");
  require(problems, fill.length > 0.0, "length", fill.length, 0.0, "larger than zero");
  require(problems, fill.rod_diameter >= 0.0 && fill.rod_diameter < fill.bore, "rod_diameter",
          fill.rod_diameter, fill.bore, "smaller than the bore");
  require(problems, fill.rod_bore >= 0.0 && fill.rod_bore <= fill.rod_diameter, "rod_bore", fill.rod_bore,
          fill.rod_diameter, "no larger than the rod");
  require(problems, fill.rod_inside >= 0.0 && fill.rod_inside <= fill.length, "rod_inside", fill.rod_inside,
          fill.length, "no longer than the tube");
  require(problems, fill.elsewhere >= 0.0, "elsewhere", fill.elsewhere, 0.0, "zero or larger");
  const double room =
      circle(fill.bore) * fill.length - (circle(fill.rod_diameter) - circle(fill.rod_bore)) * fill.rod_inside;
  require(problems, fill.solids >= 0.0 && fill.solids < room, "solids", fill.solids, room,
          "smaller than the room in the tube");
  return problems;
}

double oil_volume(const CartridgeFill& fill) {
  SW_CHECK(problems_in(fill).empty(), fill.bore, fill.length, fill.rod_diameter, fill.solids);
  const double rod = circle(fill.rod_diameter) - circle(fill.rod_bore);
  return circle(fill.bore) * fill.length - rod * fill.rod_inside - fill.solids + fill.elsewhere;
}

Problems problems_in(const OuterTube& tube) {
  Problems problems;
  require(problems, tube.bore > 0.0, "bore", tube.bore, 0.0, "larger than zero");
  require(problems, tube.height > 0.0, "height", tube.height, 0.0, "larger than zero");
  for (std::size_t i = 0; i < tube.standing.size(); ++i) {
    const Standing& part = tube.standing[i];
    const std::string field = "standing[" + std::to_string(i) + "]";
    require(problems, part.diameter > 0.0, field + ".diameter", part.diameter, 0.0, "larger than zero");
    require(problems, part.bottom >= 0.0 && part.bottom < part.top, field + ".bottom", part.bottom, part.top,
            "zero or larger, and below the top");
    // side by side or one above the other, there must be room for oil everywhere
    const double left = free_area(tube, part.bottom);
    require(problems, left > 0.0, field + ".diameter", part.diameter, tube.bore,
            "so small that oil finds room beside all that stands at this height");
  }
  return problems;
}

double oil_at_air_gap(const OuterTube& tube, double air_gap) {
  SW_CHECK(problems_in(tube).empty(), tube.bore, tube.height);
  SW_CHECK(air_gap <= tube.height, air_gap, tube.height);
  return volume_below(tube, tube.height - air_gap);
}

double air_gap_at_oil(const OuterTube& tube, double oil) {
  SW_CHECK(problems_in(tube).empty(), tube.bore, tube.height);
  SW_CHECK(oil >= 0.0, oil);

  // fill step by step; between two steps the area is constant
  double level = 0.0;
  double left = oil;
  for (double step : steps_of(tube)) {
    const double room = volume_below(tube, step) - volume_below(tube, level);
    if (left <= room) break;
    left -= room;
    level = step;
  }
  return tube.height - level - left / free_area(tube, level);
}

double air_at_air_gap(const OuterTube& tube, double air_gap) {
  SW_CHECK(air_gap >= 0.0, air_gap);
  return volume_below(tube, tube.height) - oil_at_air_gap(tube, air_gap);
}

Problems problems_in(const Warming& warming) {
  Problems problems;
  require(problems, warming.oil_volume >= 0.0, "oil_volume", warming.oil_volume, 0.0, "zero or larger");
  require(problems, warming.body_expansion >= 0.0, "body_expansion", warming.body_expansion, 0.0,
          "zero or larger");
  const bool by_density = warming.fill_density > 0.0 && warming.work_density > 0.0;
  require(problems, by_density || warming.oil_expansion > 0.0, "oil_expansion", warming.oil_expansion, 0.0,
          "larger than zero, or both densities given");
  require(problems, std::isfinite(warming.rise), "rise", warming.rise, 0.0, "a number");
  return problems;
}

double oil_growth(const Warming& warming) {
  SW_CHECK(problems_in(warming).empty(), warming.oil_volume, warming.oil_expansion);
  const bool by_density = warming.fill_density > 0.0 && warming.work_density > 0.0;
  const double oil =
      by_density ? warming.fill_density / warming.work_density - 1.0 : warming.oil_expansion * warming.rise;
  return warming.oil_volume * (oil - 3.0 * warming.body_expansion * warming.rise);
}

Problems problems_in(const PurgeCase& purge_case) {
  Problems problems;
  require(problems, purge_case.rod_diameter > 0.0, "rod_diameter", purge_case.rod_diameter, 0.0,
          "larger than zero");
  require(problems, purge_case.stroke > 0.0, "stroke", purge_case.stroke, 0.0, "larger than zero");
  require(problems, purge_case.capacity >= 0.0, "capacity", purge_case.capacity, 0.0, "zero or larger");
  require(problems, std::isfinite(purge_case.extra_oil), "extra_oil", purge_case.extra_oil, 0.0, "a number");
  require(problems, std::isfinite(purge_case.growth), "growth", purge_case.growth, 0.0, "a number");
  return problems;
}

Purge expected_purge(const PurgeCase& purge_case) {
  SW_CHECK(problems_in(purge_case).empty(), purge_case.rod_diameter, purge_case.stroke, purge_case.capacity);
  const double pushed_in = rod_volume(purge_case.rod_diameter, purge_case.stroke) + purge_case.extra_oil;
  Purge purge;
  purge.first_stroke = std::max(0.0, pushed_in - purge_case.capacity);
  const double still_in = pushed_in - purge.first_stroke;
  purge.when_warm = std::max(0.0, still_in + purge_case.growth - purge_case.capacity);
  purge.spare = purge_case.capacity - still_in - purge_case.growth;
  return purge;
}

BleedPlan bleed_plan(double rod_diameter, double stroke) {
  SW_CHECK(rod_diameter > 0.0 && stroke > 0.0, rod_diameter, stroke);
  return {.stroke_low = std::min(kBleedStrokeLow, stroke),
          .stroke_high = std::min(kBleedStrokeHigh, stroke),
          .seconds_low = kBleedSecondsLow,
          .seconds_high = kBleedSecondsHigh,
          .purge_accepted = rod_volume(rod_diameter, std::min(kPurgeAcceptedStroke, stroke))};
}

}  // namespace shimwright::assembly
