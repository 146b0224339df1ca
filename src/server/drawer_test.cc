// What lies in the drawer, as GET /api/jobs/{id}/parts gives it: numbers that the parts file states, and no
// others.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "file/load.h"
#include "server/encode.h"

namespace shimwright::server {
namespace {

using Json = nlohmann::json;

file::Quantity stated(double si, const std::string& text = "") {
  file::Quantity quantity;
  quantity.si = si;
  quantity.given = true;
  quantity.text = text;
  return quantity;
}

Json drawer(const file::PartsSpec& parts) {
  return Json::parse(to_json(parts));
}

TEST(Drawer, AnOilHasItsViscositiesWithinHalfAKelvinOfFortyAndAHundredDegrees) {
  constexpr double k40 = 273.15 + 40, k100 = 273.15 + 100;
  struct Point {
    double at;
    bool is_40, is_100;
  };
  for (const Point& point : {Point{k40, true, false},
                             {k40 + 0.49, true, false},
                             {k40 - 0.49, true, false},
                             {k40 + 0.51, false, false},
                             {k40 - 0.51, false, false},
                             {k100, false, true},
                             {k100 + 0.49, false, true},
                             {k100 - 0.49, false, true},
                             {k100 + 0.51, false, false},
                             {k100 - 0.51, false, false}}) {
    file::PartsSpec parts;
    parts.oils.emplace_back();
    parts.oils[0].name = "oil";
    parts.oils[0].viscosity = {{stated(point.at), stated(1.5e-5), {}}};
    const Json oil = drawer(parts)["oils"][0];
    EXPECT_EQ(oil["name"], "oil");
    EXPECT_EQ(oil.contains("kinematic_viscosity_40"), point.is_40) << point.at;
    EXPECT_EQ(oil.contains("kinematic_viscosity_100"), point.is_100) << point.at;
    EXPECT_EQ(oil.value("kinematic_viscosity_40", 0.0), point.is_40 ? 1.5e-5 : 0.0);
    EXPECT_EQ(oil.value("kinematic_viscosity_100", 0.0), point.is_100 ? 1.5e-5 : 0.0);
  }
  // half a point is none
  for (const bool has_temperature : {false, true}) {
    file::PartsSpec parts;
    parts.oils.emplace_back();
    file::ViscosityPoint half;
    (has_temperature ? half.at : half.value) = stated(has_temperature ? k40 : 1.5e-5);
    if (!has_temperature) half.at.si = k40;
    parts.oils[0].viscosity = {half};
    EXPECT_FALSE(drawer(parts)["oils"][0].contains("kinematic_viscosity_40")) << has_temperature;
  }
}

TEST(Drawer, AShimIsCalledByItsSizeInTheUnitsOfItsPartsFileElseByItsName) {
  const auto label = [](const file::Quantity& diameter, const file::Quantity& thickness) {
    file::PartsSpec parts;
    parts.shims.emplace_back();
    parts.shims[0].name = "face";
    parts.shims[0].outer_diameter = diameter;
    parts.shims[0].thickness = thickness;
    return drawer(parts)["shims"][0]["label"].get<std::string>();
  };
  EXPECT_EQ(label(stated(0.024, "24 mm"), stated(0.00015, "0.15 mm")), "24 x 0.15 mm");
  EXPECT_EQ(label(stated(0.0254, "1 in"), stated(0.000254, "0.01 in")), "1 x 0.0100 in");
  EXPECT_EQ(label(stated(0.024, "24 mm"), {}), "face");
  EXPECT_EQ(label({}, stated(0.00015, "0.15 mm")), "face");
}

TEST(Drawer, HasOnlyTheNumbersThatAreStated) {
  file::PartsSpec parts;
  parts.shims.resize(2);
  parts.shims[0].bore = stated(0.008);
  parts.shims[0].in_hand = {4, true, {}};
  parts.springs.resize(2);
  parts.springs[0].rate = stated(9000);
  parts.spacers.resize(2);
  parts.spacers[0].thickness = stated(0.002);
  const Json json = drawer(parts);
  EXPECT_EQ(json["shims"][0]["bore"], 0.008);
  EXPECT_EQ(json["shims"][0]["in_hand"], 4);
  EXPECT_EQ(json["springs"][0]["rate"], 9000);
  EXPECT_EQ(json["spacers"][0]["thickness"], 0.002);
  for (const char* key : {"bore", "in_hand", "thickness"})
    EXPECT_FALSE(json["shims"][1].contains(key)) << key;
  for (const char* key : {"rate", "free_length", "in_hand"})
    EXPECT_FALSE(json["springs"][1].contains(key)) << key;
  EXPECT_FALSE(json["spacers"][1].contains("thickness"));
}

}  // namespace
}  // namespace shimwright::server
