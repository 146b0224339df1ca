#include <cmath>
#include <sstream>
#include <string>

#include "num/bounds.h"
#include "oil/oil.h"

namespace shimwright::oil {
namespace {

// Bounds of physical sense, wide on purpose: a typing slip is caught, an unusual fluid is not.
constexpr double kThinnest = 0.21e-6;       // end of the viscosity law [m^2/s] ([astmD341], from memory)
constexpr double kThickest = 0.1;           // [m^2/s]
constexpr double kLightest = 600.0;         // [kg/m^3]
constexpr double kHeaviest = 1500.0;        // [kg/m^3]
constexpr double kLargestExpansion = 2e-3;  // [1/K]
constexpr double kClosestPoints = 5.0;      // nearer points magnify their own error too much [K]
constexpr double kSoftest = 1e8;            // [Pa]
constexpr double kStiffest = 1e10;          // [Pa]
constexpr double kMostBubbles = 0.5;        // beyond, it is a foam and no oil [-]
constexpr double kMostDissolved = 1.0;      // [-]

void check_viscosity(const OilModel& oil, num::Bounds& bounds) {
  const auto& points = oil.viscosity_points;
  if (points.size() != 2) {
    bounds.add(
        {"viscosity_points", static_cast<double>(points.size()), 2.0,
         "two viscosities at two temperatures, usually 40 and 100 degC; one point does not give the slope"});
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    const std::string field = "viscosity_points[" + std::to_string(i) + "]";
    bounds.check(field + ".temperature", points[i].temperature, 200.0, 500.0,
                 "a temperature of liquid oil, 200 to 500 K");
    bounds.check(field + ".viscosity", points[i].viscosity, kThinnest, kThickest, "0.21 to 100000 mm2/s");
  }
  if (points.size() != 2) return;
  const double apart = points[1].temperature - points[0].temperature;
  if (std::abs(apart) < kClosestPoints) {
    bounds.add({"viscosity_points[1].temperature", points[1].temperature,
                points[0].temperature + kClosestPoints, "at least 5 K from the other point"});
  } else if ((points[1].viscosity - points[0].viscosity) * apart >= 0.0) {
    bounds.add({"viscosity_points[1].viscosity", points[1].viscosity, points[0].viscosity,
                "thinner where it is hotter"});
  }
}

}  // namespace

Problems problems_in(const OilModel& oil) {
  num::Bounds bounds;
  check_viscosity(oil, bounds);
  bounds.check("density_15", oil.density_15, kLightest, kHeaviest, "600 to 1500 kg/m3");
  bounds.check("expansion", oil.expansion, 0.0, kLargestExpansion, "0 to 0.002 per kelvin");
  bounds.check("bulk_modulus", oil.bulk_modulus, kSoftest, kStiffest, "0.1 to 10 GPa, without air");
  bounds.check("entrained_air", oil.entrained_air, 0.0, kMostBubbles, "0 to 50 % of the volume");
  bounds.check("bunsen", oil.bunsen, 0.0, kMostDissolved, "0 to 1");
  bounds.check("release_pressure", oil.release_pressure, 1.0, kAtmosphere,
               "above zero, at most one atmosphere, absolute");
  bounds.check("coldest", oil.coldest, 150.0, 500.0, "a temperature of liquid oil");
  if (!(oil.hottest > oil.coldest)) {
    bounds.add({"hottest", oil.hottest, oil.coldest, "above the coldest temperature of the range"});
  }
  return bounds.take();
}

Outcome validity_at(const OilModel& oil, double temperature) {
  if (temperature >= oil.coldest && temperature <= oil.hottest) return {};
  const bool cold = temperature < oil.coldest;
  const double by = cold ? oil.coldest - temperature : temperature - oil.hottest;
  std::ostringstream note;
  note.precision(3);
  note << "Oil data are extrapolated: " << by << " K " << (cold ? "below" : "above")
       << " the range that the data are good for.";
  return {Status::OutOfRange, 0, by / temperature, note.str()};
}

}  // namespace shimwright::oil
