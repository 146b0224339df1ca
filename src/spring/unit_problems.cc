#include <limits>
#include <string>

#include "num/bounds.h"
#include "spring/unit_spring.h"

namespace shimwright::spring {
namespace {

// Bounds of physical sense, wide on purpose: they catch a slip of unit, not an unusual spring.
constexpr double kLongestTravel = 1.0;    // [m]
constexpr double kStiffestSpring = 1e8;   // [N/m]
constexpr double kHighestPressure = 1e7;  // absolute [Pa]
constexpr double kUnbounded = std::numeric_limits<double>::max();

struct ElementCheck {
  const UnitSpring& unit;
  const std::string field;
  num::Bounds& bounds;

  void rate(const std::string& name, double value) const {
    bounds.check(field + name, value, std::numeric_limits<double>::min(), kStiffestSpring,
                 "above 0, below 1e8 N/m");
  }

  void operator()(const CoilStack& stack) const {
    if (stack.in_series.empty()) bounds.add({field + "in_series", 0.0, 1.0, "at least one coil"});
    double free_play = 0.0;
    bool binds = !stack.in_series.empty();
    for (std::size_t i = 0; i < stack.in_series.size(); ++i) {
      const Coil& coil = stack.in_series[i];
      const std::string name = "in_series[" + std::to_string(i) + "].";
      rate(name + "rate", coil.rate);
      binds = binds && coil.bind_compression.has_value();
      if (!coil.bind_compression) continue;
      bounds.check_positive(field + name + "bind_compression", *coil.bind_compression,
                            "longer free than solid");
      free_play += *coil.bind_compression;
    }
    // what pushes without an end of its own may stand for a soft spring, preloaded by metres
    const double most = binds ? free_play : kUnbounded;
    bounds.check(field + "preload", stack.preload, -unit.travel, most,
                 "less than the coil can be compressed, and a gap no longer than the travel");
  }

  void chamber(const std::string& name, const AirChamber& air, bool pressure_counts) const {
    bounds.check_positive(field + name + "area", air.area, "above zero");
    bounds.check(field + name + "oil_volume", air.oil_volume, 0.0, kUnbounded, "zero or more");
    if (!(air.empty_volume > air.oil_volume)) {
      bounds.add(
          {field + name + "empty_volume", air.empty_volume, air.oil_volume, "larger than the oil in it"});
    }
    if (pressure_counts) {
      bounds.check(field + name + "pressure", air.pressure, 1.0, kHighestPressure,
                   "absolute, above 0, up to 10 MPa");
    }
    bounds.check(field + name + "sealed_temperature", air.sealed_temperature, 200.0, 450.0, "200 to 450 K");
    bounds.check(field + name + "exponent", air.exponent, 1.0, 1.7, "1 (slow) to 1.4 (fast)");
  }

  void operator()(const AirSpring& air) const {
    chamber("positive.", air.positive, true);
    if (air.negative) chamber("negative.", *air.negative, !air.balance_travel);
    if (!air.balance_travel) return;
    if (!air.negative)
      bounds.add({field + "balance_travel", *air.balance_travel, 0.0, "only with a negative chamber"});
    bounds.check(field + "balance_travel", *air.balance_travel, 0.0, 0.5 * unit.travel,
                 "in the first half of the travel");
  }

  void operator()(const TopOutSpring& spring) const {
    rate("rate", spring.rate);
    bounds.check(field + "engagement", spring.engagement, 0.0, unit.travel, "inside the travel");
  }

  void operator()(const BumpStop& stop) const {
    bounds.check(field + "start", stop.start, 0.0, unit.travel, "inside the travel");
    bounds.check(field + "rate", stop.rate, 0.0, kStiffestSpring, "zero or more, below 1e8 N/m");
    bounds.check(field + "cubic", stop.cubic, 0.0, kUnbounded, "zero or more");
    if (stop.rate == 0.0 && stop.cubic == 0.0) bounds.add({field + "rate", 0.0, 0.0, "above zero"});
  }
};

}  // namespace

Problems problems_in(const UnitSpring& unit) {
  num::Bounds bounds;
  bounds.check("travel", unit.travel, 1e-3, kLongestTravel, "1 mm to 1 m");
  for (std::size_t i = 0; i < unit.elements.size(); ++i) {
    std::visit(ElementCheck{unit, "elements[" + std::to_string(i) + "].", bounds}, unit.elements[i].law);
  }
  return bounds.take();
}

}  // namespace shimwright::spring
