#include "file/schema_bounds.h"
#include "file/schema_build.h"
#include "file/schema_tables.h"

namespace shimwright::file {
namespace {

using units::Kind;

const TableSchema& reservoir_schema() {
  static const TableSchema schema = schema_of<ReservoirSpec>(
      "reservoir", "What makes room for the oil that the rod pushes out.",
      {
          required(
              meant_by(word("kind", &ReservoirSpec::kind, {"gas", "sprung piston", "air over oil"},
                            "What presses on the oil. Gas in a bladder is gas: a bladder has no friction.",
                            R"("sprung piston")"),
                       {{"bladder", "gas"},
                        {"nitrogen", "gas"},
                        {"spring", "sprung piston"},
                        {"air", "air over oil"}})),
          quantity("piston", &ReservoirSpec::piston, Kind::Length, kTube,
                   "Diameter of the free piston. Default: none; then gas is in a bladder.", R"("26 mm")"),
          quantity("stroke", &ReservoirSpec::stroke, Kind::Length, {0.0, 0.5, "it moves inside a reservoir"},
                   "How far the free piston can move. Default: as far as needed.", R"("60 mm")"),
          quantity("pressure", &ReservoirSpec::pressure, Kind::Pressure, kGasPressure,
                   "Pressure of the gas with the rod fully out.", R"~("10 bar(g)")~"),
          quantity("volume", &ReservoirSpec::volume, Kind::Volume, {1e-7, 5e-3, "it fits a fork or shock"},
                   "Volume of the gas with the rod fully out.", R"("55 mL")"),
          quantity("spring_force", &ReservoirSpec::spring_force, Kind::Force, kSpringForce,
                   "Sprung piston: force with the rod fully out.", R"("90 N")"),
          quantity("spring_rate", &ReservoirSpec::spring_rate, Kind::SpringRate, kSpringRate,
                   "Sprung piston: rate of its spring.", R"("3.0 N/mm")"),
          quantity("friction", &ReservoirSpec::friction, Kind::Force,
                   {0.0, 500.0, "it is the drag of a small seal"},
                   "Drag of the seal of the free piston. Default: none.", R"("5 N")"),
      });
  return schema;
}

const TableSchema& chamber_schema() {
  static const TableSchema schema = schema_of<AirChamberSpec>(
      "air chamber", "One air chamber, with the unit fully out.",
      {
          required(quantity("pressure", &AirChamberSpec::pressure, Kind::Pressure, kGasPressure,
                            "Pressure when the spring was set.", R"~("8.0 bar(g)")~")),
          required(quantity("bore", &AirChamberSpec::bore, Kind::Length, kTube,
                            "Diameter on which the air presses.", R"("33 mm")")),
          quantity("rod", &AirChamberSpec::rod, Kind::Length, kRod,
                   "Diameter of a rod that runs through the chamber. Default: none.", R"("10 mm")"),
          required(quantity("length", &AirChamberSpec::length, Kind::Length, kPartLength,
                            "Length of the chamber.", R"("330 mm")")),
          quantity("oil", &AirChamberSpec::oil, Kind::Volume, kOilVolume,
                   "Oil in the chamber. Default: none.", R"("15 mL")"),
      });
  return schema;
}

const TableSchema& set_at_schema() {
  static const TableSchema schema =
      schema_of<SetAtSpec>("set_at", "Conditions when the gauge was read.",
                           {
                               quantity("temperature", &SetAtSpec::temperature, Kind::Temperature,
                                        kWorkTemperature, "Temperature of the air.", R"("20 degC")"),
                               quantity("altitude", &SetAtSpec::altitude, Kind::Height, kAltitude,
                                        "Height above sea level.", R"("200 m")"),
                           });
  return schema;
}

const TableSchema& air_spring_schema() {
  static const TableSchema schema = schema_of<AirSpringSpec>(
      "air_spring", "A sealed air spring.",
      {
          required(
              table("positive", &AirSpringSpec::positive, chamber_schema(),
                    "The chamber that gets smaller when the unit goes in.",
                    R"~({ pressure = "8.0 bar(g)", bore = "33 mm", length = "330 mm", oil = "15 mL" })~")),
          table("negative", &AirSpringSpec::negative, chamber_schema(),
                "The chamber that gets larger when the unit goes in.",
                R"~({ pressure = "8.0 bar(g)", bore = "33 mm", length = "90 mm" })~"),
          table("set_at", &AirSpringSpec::set_at, set_at_schema(),
                "Conditions when the gauge was read. Default: the fill temperature and the altitude of "
                "[conditions].",
                R"({ temperature = "20 degC", altitude = "200 m" })"),
      });
  return schema;
}

const TableSchema& trapped_air_schema() {
  static const TableSchema schema = schema_of<TrappedAirSpec>(
      "trapped_air", "The air above the oil of an open leg.",
      {
          required(quantity("bore", &TrappedAirSpec::bore, Kind::Length, kTube,
                            "Diameter of the tube that slides in.", R"("39 mm")")),
          quantity("level", &TrappedAirSpec::level, Kind::Length, {5e-3, 0.8, "it is the air left in a leg"},
                   "Distance from the top of the tube down to the oil, leg fully in and spring out. Default: "
                   "the level in the `tube` of the fill.",
                   R"("140 mm")"),
          quantity("spring_volume", &TrappedAirSpec::spring_volume, Kind::Volume, kOilVolume,
                   "Volume of the steel that is fitted later and takes room from the air. Default: none.",
                   R"("60 mL")"),
          quantity("pressure", &TrappedAirSpec::pressure, Kind::Pressure, kGasPressure,
                   "Pressure when the leg was closed, fully out. Default: the pressure of the outside air.",
                   R"~("0 bar(g)")~"),
      });
  return schema;
}

const TableSchema& top_out_schema() {
  static const TableSchema schema = schema_of<TopOutSpec>(
      "top_out", "A spring that acts near fully out, against the main spring.",
      {
          required(
              quantity("rate", &TopOutSpec::rate, Kind::SpringRate, kSpringRate, "Rate.", R"("12 N/mm")")),
          required(quantity("length", &TopOutSpec::length, Kind::Length, kTravel,
                            "Travel over which it acts, from fully out.", R"("25 mm")")),
      });
  return schema;
}

const TableSchema& bump_stop_schema() {
  static const TableSchema schema = schema_of<BumpStopSpec>(
      "bump_stop", "A rubber stop near fully in.",
      {
          required(
              quantity("rate", &BumpStopSpec::rate, Kind::SpringRate, kSpringRate, "Rate.", R"("80 N/mm")")),
          required(quantity("length", &BumpStopSpec::length, Kind::Length, kTravel,
                            "Travel over which it acts, up to fully in.", R"("14 mm")")),
      });
  return schema;
}

const TableSchema& linkage_point_schema() {
  static const TableSchema schema = schema_of<LinkagePoint>(
      "linkage row", "One measured position.",
      {
          required(quantity("wheel", &LinkagePoint::wheel, Kind::Length, {0.0, 0.8, "no wheel moves further"},
                            "Wheel travel from fully out.", R"("50 mm")")),
          quantity("shock", &LinkagePoint::shock, Kind::Length, {0.0, 0.6, "no shock moves further"},
                   "Shock travel from fully out.", R"("16.5 mm")"),
          number(
              "leverage", &LinkagePoint::leverage, {0.3, 15.0, "linkages are between 1 and 5"},
              "Leverage at this position: wheel travel per shock travel. Use it instead of the shock travel.",
              "2.95"),
      });
  return schema;
}

const TableSchema& linkage_schema() {
  static const TableSchema schema = schema_of<LinkageSpec>(
      "linkage", "The linkage between wheel and shock.",
      {
          required(
              table_list("table", &LinkageSpec::table, linkage_point_schema(),
                         "Measured positions from fully out to fully in: shock travel or leverage, the same "
                         "in every row.",
                         R"([{ wheel = "0 mm", shock = "0 mm" }, { wheel = "300 mm", shock = "108 mm" }])")),
      });
  return schema;
}

}  // namespace

const TableSchema& unit_schema() {
  static const TableSchema schema = schema_of<UnitSpec>(
      "unit", "One fork leg, or both if they are the same, or one shock.",
      {
          text("name", &UnitSpec::name, "Its name. Default: its kind.", R"("fork leg")"),
          required(word("kind", &UnitSpec::kind, {"fork leg", "shock"}, "What it is.", R"("fork leg")")),
          word("layout", &UnitSpec::layout, {"closed cartridge", "open bath", "reservoir shock"},
               "How its damper is built. Default: a leg without damper.", R"("closed cartridge")"),
          count("count", &UnitSpec::count, {1, 4, "a machine has one or two of a kind"},
                "Number of equal units on the machine. Default: 1.", "2"),
          quantity("travel", &UnitSpec::travel, Kind::Length, kTravel,
                   "Its own travel, from fully out to fully in.", R"("300 mm")"),
          quantity("piston", &UnitSpec::piston, Kind::Length, kTube, "Bore in which the damper piston runs.",
                   R"("24 mm")"),
          quantity("rod", &UnitSpec::rod, Kind::Length, kRod, "Diameter of the damper rod.", R"("12 mm")"),
          part("oil", &UnitSpec::oil, &PartsSpec::oils, "oil", oil_schema(),
               "Its oil, by name or as a table.", R"("light-fork-fluid")"),
          quantity("seal_friction", &UnitSpec::seal_friction, Kind::Force,
                   {0.0, 2000.0, "it is the drag of seals and bushes"},
                   "Drag of seals and bushes. Default: none.", R"("15 N")"),
          at(Station::Valving,
             table("piston_valve", &UnitSpec::piston_valve, valve_schema(),
                   "The valve on the moving piston; its compression side is the mid-valve.")),
          at(Station::Valving, table("foot_valve", &UnitSpec::foot_valve, valve_schema(),
                                     "The valve between the compression chamber and the reservoir.")),
          table("reservoir", &UnitSpec::reservoir, reservoir_schema(),
                "What makes room for the oil that the rod pushes out.",
                R"~({ kind = "gas", pressure = "10 bar(g)", volume = "55 mL" })~"),
          at(Station::Springs,
             table_list(
                 "coil_spring", &UnitSpec::coil_springs, spring_schema(),
                 "Its main springs. They act in parallel, unless one is stacked on the spring before it.",
                 R"({ part = "outer-4.6", preload = "8 mm" })")),
          at(Station::Springs, table("air_spring", &UnitSpec::air_spring, air_spring_schema(),
                                     "A sealed air spring that carries the machine.")),
          at(Station::Springs,
             table("trapped_air", &UnitSpec::trapped_air, trapped_air_schema(),
                   "The air above the oil of an open leg.", R"({ bore = "39 mm", level = "140 mm" })")),
          at(Station::Springs,
             table("top_out", &UnitSpec::top_out, top_out_schema(), "A spring that acts near fully out.",
                   R"({ rate = "12 N/mm", length = "25 mm" })")),
          at(Station::Springs,
             table("bump_stop", &UnitSpec::bump_stop, bump_stop_schema(), "A rubber stop near fully in.",
                   R"({ rate = "80 N/mm", length = "14 mm" })")),
          at(Station::Springs,
             table("linkage", &UnitSpec::linkage, linkage_schema(),
                   "The linkage between wheel and shock. Default: the unit moves like the wheel.")),
          at(Station::Build, table("fill", &UnitSpec::fill, fill_schema(),
                                   "Oil volumes, and the hand test of the finished unit.",
                                   R"({ cartridge = "210 mL", rod_at = "fully out" })")),
          at(Station::Effect, table("motion", &UnitSpec::motion, motion_schema(),
                                    "Chambers, walls, oil locks and heat, for the command `bench`.")),
      });
  return schema;
}

}  // namespace shimwright::file
