#include "resolve/resolve_reservoir.h"

#include <gtest/gtest.h>

#include <numbers>

#include "file/test_jobs.h"
#include "resolve/resolve_leg_air.h"

namespace shimwright::resolve {
namespace {

using file::testing_jobs::changed;
using file::testing_jobs::job_text;
using file::testing_jobs::read;

double bore_area(double diameter) {
  return 0.25 * std::numbers::pi * diameter * diameter;
}

std::optional<ReservoirModel> model_of(const std::string& text) {
  const file::JobSpec job = read(text);
  return resolve_reservoir(job.units.at(0), resolve_conditions(job));
}

const std::string kSpace =
    "space     = { bore = \"46 mm\", length = \"215 mm\", rod_inside = \"25 mm\", solids = \"28 mL\", "
    "elsewhere = "
    "\"75 mL\" }\n";

TEST(ResolveReservoir, TheOilIsWhatTheSpaceHoldsThenWhatIsStatedThenWhatIsAssumed) {
  const double room = bore_area(0.046) * 0.215 - bore_area(0.016) * 0.025 - 28e-6 + 75e-6;
  EXPECT_NEAR(model_of(job_text("shock"))->oil_volume, room, 1e-12);
  const std::string stated = changed(job_text("shock"), kSpace, "");
  EXPECT_NEAR(model_of(stated)->oil_volume, 399e-6, 1e-12);
  EXPECT_FALSE(model_of(stated)->oil_assumed);
  const std::string nothing = changed(stated, "cartridge = \"399 mL\"\n", "");
  // 46 mm over 108 mm and 30 mm to spare at each end, 50 mL in the reservoir
  const double assumed = bore_area(0.046) * 0.138 + (bore_area(0.046) - bore_area(0.016)) * 0.03 + 50e-6;
  EXPECT_NEAR(model_of(nothing)->oil_volume, assumed, 1e-12);
  EXPECT_TRUE(model_of(nothing)->oil_assumed);
}

TEST(ResolveReservoir, EachKindHoldsItsOwn) {
  const double ambient = resolve_conditions(read(job_text("shock"))).ambient_pressure;
  const auto gas = model_of(job_text("shock"));
  EXPECT_NEAR(gas->reservoir.gas_pressure, 10e5 + ambient, 1e-6);
  EXPECT_NEAR(gas->reservoir.gas_volume, 70e-6, 1e-15);
  EXPECT_NEAR(gas->reservoir.capacity, bore_area(0.052) * 0.04, 1e-12);  // the stroke of its free piston
  const auto stated =
      model_of(changed(job_text("shock"), "[unit.fill]\n", "[unit.fill]\ncapacity = \"44 mL\"\n"));
  EXPECT_NEAR(stated->reservoir.capacity, 44e-6, 1e-15);
  const auto sprung = model_of(job_text("fork"));
  EXPECT_EQ(sprung->reservoir.gas_volume, 0.0);
  EXPECT_NEAR(sprung->reservoir.piston_area, bore_area(0.026), 1e-12);
  EXPECT_NEAR(sprung->reservoir.outside_pressure, ambient, 1e-6);
}

TEST(ResolveReservoir, AClosedUnitWithoutReservoirHasNone) {
  std::string text = job_text("shock");
  const auto begin = text.find("[unit.reservoir]");
  text.erase(begin, text.find("# ---- the valve on the rod") - begin);
  EXPECT_FALSE(model_of(text));
}

// the level goes before the volume, and the air's own level before that of the fill
TEST(ResolveLegAir, TheLevelOfTheOuterOilComesFromWhereItIsStated) {
  const auto level_of = [](const std::string& air, const std::string& fill) {
    const file::JobSpec job =
        read(changed(job_text("fork"), "[unit.fill]\n",
                     "[unit.trapped_air]\nbore = \"37 mm\"\n" + air + "[unit.fill]\n" + fill));
    return outer_level(job.units.at(0));
  };
  EXPECT_FALSE(level_of("", ""));
  const std::string tube = "tube = { bore = \"40 mm\", height = \"500 mm\" }\n";
  // 250 mL of the job in a bare tube of 40 mm
  EXPECT_NEAR(*level_of("", tube), 0.5 - 250e-6 / bore_area(0.04), 1e-12);
  const std::string with_level = "tube = { bore = \"40 mm\", height = \"500 mm\", level = \"140 mm\" }\n";
  EXPECT_NEAR(*level_of("", with_level), 0.14, 1e-12);
  EXPECT_NEAR(*level_of("level = \"120 mm\"\n", with_level), 0.12, 1e-12);
}

TEST(ResolveLegAir, ItsAirIsLongerByTheTravelFullyOut) {
  const file::JobSpec job = read(changed(
      job_text("fork"), "[unit.fill]\n",
      "[unit.trapped_air]\nbore = \"37 mm\"\nlevel = \"120 mm\"\nspring_volume = \"30 mL\"\n[unit.fill]\n"));
  const auto air = leg_air(job.units.at(0), 1e5);
  ASSERT_TRUE(air);
  EXPECT_NEAR(air->volume, bore_area(0.037) * (0.12 + 0.3) - 30e-6, 1e-12);
  EXPECT_EQ(air->pressure, 1e5);
}

}  // namespace
}  // namespace shimwright::resolve
