#include "file/schema_bounds.h"
#include "file/schema_build.h"
#include "file/schema_tables.h"

namespace shimwright::file {
namespace {

using units::Kind;

const TableSchema& space_schema() {
  static const TableSchema schema = schema_of<FillSpaceSpec>(
      "space", "The inside of a cartridge or shock body, completely filled.",
      {
          required(
              quantity("bore", &FillSpaceSpec::bore, Kind::Length, kTube, "Inner diameter.", R"("24 mm")")),
          required(quantity("length", &FillSpaceSpec::length, Kind::Length, kPartLength,
                            "Inner length from foot valve to seal head.", R"("390 mm")")),
          quantity("rod_bore", &FillSpaceSpec::rod_bore, Kind::Length, kHole,
                   "Bore of a hollow rod that fills with oil. Default: solid or sealed.", R"("6 mm")"),
          quantity("rod_inside", &FillSpaceSpec::rod_inside, Kind::Length, kPartLength,
                   "Length of rod inside at the position `rod_at`. Default: none.", R"("40 mm")"),
          quantity("solids", &FillSpaceSpec::solids, Kind::Volume, kOilVolume,
                   "Volume of the piston, valves, nut and springs inside. Default: none.", R"("12 mL")"),
          quantity("elsewhere", &FillSpaceSpec::elsewhere, Kind::Volume, kOilVolume,
                   "Volume outside that must be filled too: reservoir, bladder, hose. Default: none.",
                   R"("45 mL")"),
      });
  return schema;
}

const TableSchema& standing_schema() {
  static const TableSchema schema = schema_of<StandingSpec>(
      "standing", "A closed body in the outer tube that takes room from the oil.",
      {
          required(quantity("diameter", &StandingSpec::diameter, Kind::Length, kTube, "Outer diameter.",
                            R"("28 mm")")),
          required(quantity("bottom", &StandingSpec::bottom, Kind::Length, {-0.1, 1.2, "no leg is longer"},
                            "Height of its lower end above the floor of the tube.", R"("0 mm")")),
          required(quantity("top", &StandingSpec::top, Kind::Length, kPartLength,
                            "Height of its upper end above the floor of the tube.", R"("420 mm")")),
      });
  return schema;
}

const TableSchema& tube_schema() {
  static const TableSchema schema = schema_of<FillTubeSpec>(
      "tube", "The outer tube of a leg, upright, as when the oil level is measured.",
      {
          required(
              quantity("bore", &FillTubeSpec::bore, Kind::Length, kTube, "Inner diameter.", R"("43 mm")")),
          required(quantity("height", &FillTubeSpec::height, Kind::Length, kPartLength,
                            "Height from its floor to the rim from which the level is measured.",
                            R"("560 mm")")),
          quantity(
              "level", &FillTubeSpec::level, Kind::Length, kPartLength,
              "Distance from the rim down to the oil, leg fully in and spring out. Default: from the volume "
              "`outer`.",
              R"("130 mm")"),
          table_list("standing", &FillTubeSpec::standing, standing_schema(), "Bodies in the tube.",
                     R"([{ diameter = "28 mm", bottom = "0 mm", top = "420 mm" }])"),
      });
  return schema;
}

const TableSchema& acceptance_schema() {
  static const TableSchema schema = schema_of<AcceptanceSpec>(
      "acceptance",
      "What you saw when you tried the finished unit by hand. The program uses it to find what may be wrong.",
      {
          word("rod_comes_out", &AcceptanceSpec::rod_comes_out, {"fully", "stops short", "not at all"},
               "How far the rod came out.", R"("stops short")"),
          quantity("short_by", &AcceptanceSpec::short_by, Kind::Length, kPartLength,
                   "How much was missing at the end of the stroke.", R"("12 mm")"),
          word("bubbles", &AcceptanceSpec::bubbles, {"none", "stopped", "continue"},
               "Bubbles while bleeding.", R"("stopped")"),
          word("drag", &AcceptanceSpec::drag, {"smooth", "tight", "notchy"}, "How the stroke felt.",
               R"("smooth")"),
          quantity("purged", &AcceptanceSpec::purged, Kind::Volume, kOilVolume,
                   "Oil that came out in the last full stroke.", R"("1 mL")"),
          quantity("bled_for", &AcceptanceSpec::bled_for, Kind::Time,
                   {0.0, 86400.0, "bleeding takes minutes"}, "How long the unit was bled.", R"("8 min")"),
          flag("oil_outside", &AcceptanceSpec::oil_outside,
               "true: the rod or the seal head is wet after wiping.", "false"),
      });
  return schema;
}

}  // namespace

const TableSchema& fill_schema() {
  static const TableSchema schema = schema_of<FillSpec>(
      "fill", "Oil volumes, and the hand test of the finished unit.",
      {
          quantity("cartridge", &FillSpec::cartridge, Kind::Volume, kOilVolume,
                   "All oil of the cartridge or shock, with its reservoir: from the maker, or from the last "
                   "build.",
                   R"("210 mL")"),
          quantity("outer", &FillSpec::outer, Kind::Volume, kOilVolume,
                   "Oil in the leg around the cartridge.", R"("250 mL")"),
          quantity(
              "reservoir", &FillSpec::reservoir, Kind::Volume, kOilVolume,
              "The part of `cartridge` that goes into the reservoir. Default: it is not poured by itself.",
              R"("60 mL")"),
          word("rod_at", &FillSpec::rod_at, {"fully out", "fully in"},
               "Position of the rod when filling. Default: fully out.", R"("fully out")"),
          table("space", &FillSpec::space, space_schema(),
                "The inside. The program calculates the volume from it.",
                R"({ bore = "24 mm", length = "390 mm" })"),
          table("tube", &FillSpec::tube, tube_schema(), "The outer tube, if you measure an oil level in it.",
                R"({ bore = "43 mm", height = "560 mm", level = "130 mm" })"),
          quantity("capacity", &FillSpec::capacity, Kind::Volume, kOilVolume,
                   "Oil that the reservoir can take before it vents or reaches its stop.", R"("40 mL")"),
          quantity("body_expansion", &FillSpec::body_expansion, Kind::ThermalExpansion,
                   {0.0, 1e-3, "metals are between 10e-6 and 25e-6 1/K"},
                   "Growth of the length of the body with temperature. Default: aluminium, 23e-6 1/K.",
                   R"("23e-6 1/K")"),
          table("acceptance", &FillSpec::acceptance, acceptance_schema(), "What you saw in the hand test."),
      });
  return schema;
}

}  // namespace shimwright::file
