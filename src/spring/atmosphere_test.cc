#include "spring/atmosphere.h"

#include <gtest/gtest.h>

#include <utility>
#include <vector>

#include "base/check.h"

namespace shimwright::spring {
namespace {

TEST(Atmosphere, PressureByGeopotentialAltitude) {
  // ISO 2533 formula by an independent script (AT-01), two printed decimals
  const std::vector<std::pair<double, double>> rows{{0, 101325.00},   {500, 95460.84},  {1000, 89874.56},
                                                    {1500, 84555.99}, {2000, 79495.20}, {2500, 74682.52},
                                                    {3000, 70108.53}, {4000, 61640.21}, {5000, 54019.89}};
  for (const auto& [altitude, pressure] : rows)
    EXPECT_NEAR(ambient_pressure(altitude), pressure, 0.01) << altitude;
}

TEST(Atmosphere, StateByHeightAboveTheSea) {
  // AT-02, by an independent script; the pressures match the US Standard Atmosphere 1976 (table from memory)
  struct Row {
    double height, temperature, pressure, density;
  };
  const std::vector<Row> rows{{1000, 281.651, 89876.28, 1.11166},
                              {2000, 275.154, 79501.41, 1.00655},
                              {3000, 268.659, 70121.14, .90925},
                              {5000, 255.676, 54048.26, .73643}};
  for (const Row& row : rows) {
    const Atmosphere air = standard_atmosphere(geopotential_altitude(row.height));
    EXPECT_NEAR(air.temperature, row.temperature, 1e-5 * row.temperature);
    EXPECT_NEAR(air.pressure, row.pressure, 1e-5 * row.pressure);
    EXPECT_NEAR(air.density, row.density, 1e-5 * row.density);
  }
}

TEST(Atmosphere, HeightReadAsAltitudeErrsLittleWhereMotorcyclesGo) {
  for (const double height : {500.0, 2000.0, 5000.0}) {
    const double exact = ambient_pressure(geopotential_altitude(height));
    EXPECT_NEAR(ambient_pressure(height), exact, 6e-4 * exact);  // 0.053 % at 5000 m, as the header says
  }
}

TEST(Atmosphere, EndsWhereItsLapseEnds) {
  EXPECT_THROW(static_cast<void>(ambient_pressure(11001.0)), LogicFault);
  EXPECT_THROW(static_cast<void>(ambient_pressure(-2001.0)), LogicFault);
  EXPECT_GT(ambient_pressure(-400.0), ambient_pressure(0.0));  // there is land below the sea
}

}  // namespace
}  // namespace shimwright::spring
