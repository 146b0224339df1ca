#include "file/schema_bounds.h"
#include "file/schema_build.h"
#include "file/schema_tables.h"

namespace shimwright::file {
namespace {

using units::Kind;

const TableSchema& rider_schema() {
  static const TableSchema schema = schema_of<RiderSpec>(
      "rider", "The rider. A kit is a job without a rider.",
      {
          text("name", &RiderSpec::name, "Name of the rider.", R"("Rider 7")"),
          quantity("mass", &RiderSpec::mass, Kind::Mass, {10.0, 300.0, "riders weigh between 10 and 300 kg"},
                   "Mass in riding gear.", R"("92 kg")"),
          text("pace", &RiderSpec::pace, "How fast the rider is.", R"("club")"),
          text("terrain", &RiderSpec::terrain, "Where.", R"("rocky single track with braking bumps")"),
          text_list(
              "complaints", &RiderSpec::complaints,
              "What is wrong now, in the rider's words. The packet prints them; `feels` gives their meaning.",
              R"(["harsh on braking bumps", "dives"])"),
          word_list("feels", &RiderSpec::feels,
                    {"dives", "harsh", "bottoms", "packs down", "kicks back", "loses grip", "other"},
                    "The feels that the settings guide answers first.", R"(["harsh", "dives"])"),
      });
  return schema;
}

const TableSchema& sag_schema() {
  static const Bounds bounds{0.0, 0.4, "sag is a part of the travel"};
  static const TableSchema schema =
      schema_of<SagSpec>("sag", "Target sag at the wheel, counted from fully out.",
                         {
                             quantity_range("static", &SagSpec::fixed, Kind::Length, bounds,
                                            "With the machine alone.", R"("25 to 40 mm")"),
                             quantity_range("rider", &SagSpec::rider, Kind::Length, bounds,
                                            "With the rider on it.", R"("65 to 80 mm")"),
                         });
  return schema;
}

const TableSchema& machine_schema() {
  static const Bounds mass{1.0, 400.0, "it is the part of a motorcycle or bicycle that the springs carry"};
  static const TableSchema schema = schema_of<MachineSpec>(
      "machine", "The machine.",
      {
          text("name", &MachineSpec::name, "Its name.", R"("300 mm enduro machine")"),
          quantity("front_mass", &MachineSpec::front_mass, Kind::Mass, mass,
                   "Mass carried by the front springs, without the rider.", R"("46 kg")"),
          quantity("rear_mass", &MachineSpec::rear_mass, Kind::Mass, mass,
                   "Mass carried by the rear spring, without the rider.", R"("48 kg")"),
          quantity("rider_front_share", &MachineSpec::rider_front_share, Kind::Fraction, kFraction,
                   "Share of the rider that the front carries; the rear carries the rest.", R"("45 %")"),
          quantity("head_angle", &MachineSpec::head_angle, Kind::Angle,
                   {0.0, 0.9, "the angle of a fork is below 50 degrees"},
                   "Angle of the fork from the vertical. Default: upright.", R"("26.5 deg")"),
          table("front_sag", &MachineSpec::front_sag, sag_schema(), "Target sag at the front.",
                R"({ static = "25 to 40 mm", rider = "65 to 80 mm" })"),
          table("rear_sag", &MachineSpec::rear_sag, sag_schema(), "Target sag at the rear.",
                R"({ static = "30 to 40 mm", rider = "95 to 110 mm" })"),
      });
  return schema;
}

const TableSchema& conditions_schema() {
  static const TableSchema schema = schema_of<ConditionsSpec>(
      "conditions", "Conditions when riding, and at the bench when filling.",
      {
          quantity("oil_temperature", &ConditionsSpec::oil_temperature, Kind::Temperature, kWorkTemperature,
                   "Working temperature of the oil. Default: 40 degC.", R"("45 degC")"),
          quantity("fill_temperature", &ConditionsSpec::fill_temperature, Kind::Temperature, kWorkTemperature,
                   "Temperature at the bench. Default: 20 degC.", R"("20 degC")"),
          quantity("air_temperature", &ConditionsSpec::air_temperature, Kind::Temperature, kWorkTemperature,
                   "Working temperature of air springs. Default: the fill temperature.", R"("30 degC")"),
          quantity("altitude", &ConditionsSpec::altitude, Kind::Height, kAltitude,
                   "Height above sea level. Default: 0 m.", R"("200 m")"),
      });
  return schema;
}

std::vector<KeySchema> head_keys() {
  return {
      count("format", &JobSpec::format, {1, 1000000, "formats count from 1"},
            "Format of the file. This program reads format 1.", "1"),
      text("title", &JobSpec::title, "Title of the job.", R"("Enduro fork, 92 kg rider")"),
      text("scenario", &JobSpec::scenario, "Where the job comes from, if it is not a real one.",
           R"("Invented for the manual")"),
      text_list("notes", &JobSpec::notes, "Anything worth keeping.", R"(["second build, softer mid-valve"])"),
      text_list("parts", &JobSpec::parts_files, "Parts files. The names start from the folder of this file.",
                R"(["shop.parts.toml"])"),
  };
}

std::vector<KeySchema> part_keys() {
  return {
      parts("material", &PartsSpec::materials, material_schema(), "Materials by name.",
            "[material.spring-steel]"),
      parts("oil", &PartsSpec::oils, oil_schema(), "Oils by name.", "[oil.light-fork-fluid]"),
      parts("shim", &PartsSpec::shims, disc_schema(), "Shims by name. Put a name with a dot in quotes.",
            R"([shim."20x0.15"])"),
      parts("spring", &PartsSpec::springs, spring_schema(), "Coil springs by name.",
            R"([spring."outer-4.6"])"),
      parts("spacer", &PartsSpec::spacers, spacer_schema(), "Spacers by name.", R"([spacer."6x0.3"])"),
      parts("fastener", &PartsSpec::fasteners, nut_schema(), "Nuts by name.", "[fastener.post-nut]"),
  };
}

/// The top level has no place of its own: it is the file.
TableSchema top_level(std::string name, std::string doc, std::vector<KeySchema> keys) {
  TableSchema schema{std::move(name), std::move(doc), std::move(keys), nullptr, std::nullopt};
  schema.place = [](Reading&, const toml::Node&, void*) {};
  return schema;
}

}  // namespace

const TableSchema& job_schema() {
  static const TableSchema schema = [] {
    std::vector<KeySchema> keys = head_keys();
    const std::vector<KeySchema> own = {
        text("revision", &JobSpec::revision, "Which build of the job this is.", R"("B")"),
        date("date", &JobSpec::date, "Day of this revision.", R"("2026-11-20")"),
        text("shop", &JobSpec::shop, "Who builds it. Printed on every page.", R"("Bench 3")"),
        table("rider", &JobSpec::rider, rider_schema(), "The rider."),
        table("machine", &JobSpec::machine, machine_schema(), "The machine."),
        table("conditions", &JobSpec::conditions, conditions_schema(), "Temperatures and height."),
        at(Station::Hardware,
           table_list("unit", &JobSpec::units, unit_schema(), "Its fork legs and shocks.")),
        at(Station::Valving,
           table("stack", &JobSpec::stack, lone_stack_schema(), "A stack alone, for the command `stack`.")),
        at(Station::Effect, table("bench", &JobSpec::bench, bench_schema(),
                                  "How the bench moves the damper, for the command `bench`.")),
    };
    keys.insert(keys.end(), own.begin(), own.end());
    for (KeySchema& key : part_keys()) keys.push_back(at(Station::Hardware, std::move(key)));
    return keys_at(Station::Rider, top_level("the job file", "One job.", std::move(keys)));
  }();
  return schema;
}

const TableSchema& parts_schema() {
  static const TableSchema schema = [] {
    std::vector<KeySchema> keys = head_keys();
    for (KeySchema& key : part_keys()) keys.push_back(std::move(key));
    return top_level("the parts file", "Parts that jobs can name.", std::move(keys));
  }();
  return schema;
}

}  // namespace shimwright::file
