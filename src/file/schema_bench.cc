#include "file/schema_bounds.h"
#include "file/schema_build.h"
#include "file/schema_tables.h"

namespace shimwright::file {
namespace {

using units::Kind;

constexpr Bounds kOpening{0.01e-6, 2e-3, "it is an opening inside a damper"};
constexpr Bounds kChamber{1e-7, 5e-3, "it is a chamber of a fork or shock"};
constexpr Bounds kBenchFrequency{1e-3, 60.0, "no bench and no wheel moves at a higher frequency"};
constexpr Bounds kRigStiffness{10e3, 100e6, "a load frame gives 0.01 to 100 micrometres for each newton"};
constexpr Bounds kBenchTime{1e-4, 600.0, "a step takes milliseconds to minutes"};

const TableSchema& restriction_schema() {
  static const TableSchema schema = schema_of<RestrictionSpec>(
      "restriction",
      "An oil lock or a bottoming cone: near the end of the stroke it presses oil out of a cup.",
      {
          text("name", &RestrictionSpec::name, "Its name.", R"("oil lock")"),
          required(quantity("begins", &RestrictionSpec::begins, Kind::Length, kTravel,
                            "Travel at which it enters the cup.", R"("275 mm")")),
          required(quantity("ends", &RestrictionSpec::ends, Kind::Length, kTravel,
                            "Travel from which the opening no longer changes.", R"("298 mm")")),
          required(quantity("diameter", &RestrictionSpec::diameter, Kind::Length, kTube,
                            "Diameter of the cup.", R"("20 mm")")),
          required(quantity("opening_first", &RestrictionSpec::opening_first, Kind::Area, kOpening,
                            "Free opening at the entry.", R"("40 mm2")")),
          required(quantity("opening_last", &RestrictionSpec::opening_last, Kind::Area, kOpening,
                            "Free opening at the end.", R"("4 mm2")")),
      });
  return schema;
}

const TableSchema& position_bleed_schema() {
  static const TableSchema schema = schema_of<PositionBleedSpec>(
      "position bleed row", "The opening past the piston at one travel.",
      {
          required(quantity("travel", &PositionBleedSpec::travel, Kind::Length,
                            {0.0, 0.6, "a fork or shock moves a few millimetres to 600 mm"},
                            "Travel from fully out.", R"("100 mm")")),
          required(quantity("area", &PositionBleedSpec::area, Kind::Area,
                            {0.0, 2e-3, "it is an opening inside a damper"}, "Open area at this travel.",
                            R"("3 mm2")")),
      });
  return schema;
}

const TableSchema& relief_port_schema() {
  static const TableSchema schema = schema_of<ReliefPortSpec>(
      "relief port", "A hole that lets oil past the free piston when the piston has moved far enough.",
      {
          required(quantity("position", &ReliefPortSpec::position, Kind::Length, kTravel,
                            "Travel of the free piston at which the hole starts to open, counted from its "
                            "position with the rod fully out.",
                            R"("70 mm")")),
          required(quantity("area", &ReliefPortSpec::area, Kind::Area, kOpening, "Area of the hole.",
                            R"("3 mm2")")),
      });
  return schema;
}

const TableSchema& air_left_schema() {
  constexpr Bounds air{0.0, 1e-3, "a poor bleed leaves less air"};
  static const TableSchema schema =
      schema_of<AirLeftSpec>("air left", "Air left after bleeding, as a volume at one atmosphere.",
                             {
                                 quantity("compression", &AirLeftSpec::compression, Kind::Volume, air,
                                          "Between piston and foot valve. Default: none.", R"("1 mL")"),
                                 quantity("rod", &AirLeftSpec::rod, Kind::Volume, air,
                                          "Around the rod, under the seal head. Default: none.", R"("2 mL")"),
                                 quantity("reservoir", &AirLeftSpec::reservoir, Kind::Volume, air,
                                          "On the oil side of the reservoir. Default: none.", R"("1 mL")"),
                             });
  return schema;
}

const TableSchema& hand_test_schema() {
  static const TableSchema schema = schema_of<HandTestSpec>(
      "hand test", "The hand test: push the rod in, let go.",
      {
          quantity("pushed_to", &HandTestSpec::pushed_to, Kind::Length, kTravel,
                   "How far the rod is pushed in. Default: 80 % of the travel.", R"("240 mm")"),
          quantity("moving_mass", &HandTestSpec::moving_mass, Kind::Mass,
                   {0.01, 20.0, "it is a rod with its piston and the parts fixed to it"},
                   "Mass of the parts that come out. Default: 0.5 kg, an assumption.", R"("0.5 kg")"),
          flag("with_springs", &HandTestSpec::with_springs,
               "true: the main spring, the air spring and the stops are fitted in the hand test. Default: as "
               "in [bench].",
               "false"),
      });
  return schema;
}

const TableSchema& drive_schema() {
  static const TableSchema schema = schema_of<DriveSpec>(
      "drive", "One way to move the rod. A list of frequencies or speeds gives one run for each.",
      {
          required(word("kind", &DriveSpec::kind, {"sine", "triangle", "step", "recorded"}, "How it moves.",
                        R"("sine")")),
          quantity("stroke", &DriveSpec::stroke, Kind::Length, kTravel,
                   "Sine, triangle: distance from end to end. Default: calculated from speed and frequency.",
                   R"("50 mm")"),
          quantity_list("frequency", &DriveSpec::frequency, Kind::Frequency, kBenchFrequency,
                        "Sine, triangle: one or several. Default: calculated from speed and stroke.",
                        R"("0.5 Hz, 1 Hz, 2 Hz")"),
          quantity_list(
              "speed", &DriveSpec::speed, Kind::Speed, kBenchSpeed,
              "Sine, triangle: top speed, one or several. Default: calculated from stroke and frequency.",
              R"("0.05 m/s, 0.25 m/s, 1 m/s")"),
          quantity("middle", &DriveSpec::middle, Kind::Length, kTravel,
                   "Sine, triangle: travel in the middle of the stroke. Default: half of the unit's travel.",
                   R"("150 mm")"),
          quantity("from", &DriveSpec::from, Kind::Length,
                   {0.0, 0.6, "a fork or shock moves a few millimetres to 600 mm"},
                   "Step: travel before the step.", R"("50 mm")"),
          quantity("to", &DriveSpec::to, Kind::Length,
                   {0.0, 0.6, "a fork or shock moves a few millimetres to 600 mm"},
                   "Step: travel after the step.", R"("250 mm")"),
          quantity("rise_time", &DriveSpec::rise_time, Kind::Time, kBenchTime, "Step: duration.",
                   R"("0.1 s")"),
          quantity("hold_time", &DriveSpec::hold_time, Kind::Time, kBenchTime,
                   "Step: how long the run goes on after the step. Default: as long as the step.",
                   R"("0.3 s")"),
          text("file", &DriveSpec::file,
               "Recorded: a CSV file with time and travel. The name starts from the folder of this file.",
               R"("lap-3.csv")"),
          text("time_column", &DriveSpec::time_column,
               "Recorded: heading of the time column. Default: the column named time, t or similar.",
               R"("time")"),
          text("travel_column", &DriveSpec::travel_column,
               "Recorded: heading of the travel column. Default: the column named travel, stroke, position "
               "or displacement.",
               R"("fork")"),
          text("force_column", &DriveSpec::force_column,
               "Recorded: heading of the force that the bench measured, positive against compression. The "
               "program compares it with the calculated force and looks for air. Default: none.",
               R"("load")"),
          quantity("sample_rate", &DriveSpec::sample_rate, Kind::Frequency,
                   {0.1, 100e3, "loggers take from a few to some thousand samples per second"},
                   "Recorded: samples per second, for a file without a time column.", R"("500 Hz")"),
          quantity("zero_at", &DriveSpec::zero_at, Kind::Length,
                   {-0.6, 0.6, "a fork or shock moves a few millimetres to 600 mm"},
                   "Recorded: travel of the unit when the record reads zero. Default: fully out.",
                   R"("0 mm")"),
          flag("outwards", &DriveSpec::outwards,
               "Recorded: true when the recorded value increases in rebound.", "false"),
          quantity("stiffness", &DriveSpec::stiffness, Kind::SpringRate, kRigStiffness,
                   "Recorded, with a measured force: stiffness of the frame, the mounts and the load cell "
                   "together, if the travel was measured at the drive. What they give looks like air. "
                   "Default: the program finds it from the loop, together with the air.",
                   R"("2000 N/mm")"),
      });
  return schema;
}

}  // namespace

const TableSchema& motion_schema() {
  static const TableSchema schema = schema_of<MotionSpec>(
      "motion", "More about a unit, for a run in motion. Only the command `bench` needs it.",
      {
          quantity("compression_volume", &MotionSpec::compression_volume, Kind::Volume, kChamber,
                   "Oil between piston and foot valve, rod fully out. Default: from the space of the fill, "
                   "otherwise from bore and travel.",
                   R"("150 mL")"),
          quantity("rod_volume", &MotionSpec::rod_volume, Kind::Volume, kChamber,
                   "Oil around the rod, rod fully out. Default: from the space of the fill, otherwise 30 mm "
                   "of length.",
                   R"("12 mL")"),
          quantity("reservoir_oil", &MotionSpec::reservoir_oil, Kind::Volume, kChamber,
                   "Oil on the reservoir side of the foot valve, rod fully out. Default: `elsewhere` in the "
                   "space of the fill, otherwise 50 mL.",
                   R"("45 mL")"),
          quantity("tube_wall", &MotionSpec::tube_wall, Kind::Length,
                   {0.2e-3, 20e-3, "it is the wall of a damper tube"},
                   "Wall thickness of the tube, which stretches a little. Default: rigid.", R"("1.5 mm")"),
          quantity("tube_modulus", &MotionSpec::tube_modulus, Kind::Stress, kModulus,
                   "Young's modulus of the tube. Default: aluminium, 70 GPa.", R"("70 GPa")"),
          quantity("free_piston_mass", &MotionSpec::free_piston_mass, Kind::Mass,
                   {1e-3, 2.0, "it is a small piston"},
                   "Mass of the free piston. Default: 50 g if its seal drags, otherwise none.", R"("40 g")"),
          quantity("free_piston_inward", &MotionSpec::free_piston_inward, Kind::Length,
                   {0.0, 0.2, "it is the rest of its stroke"},
                   "How far the free piston can move inwards when oil is missing. Default: 5 mm.",
                   R"("5 mm")"),
          table("relief_port", &MotionSpec::relief_port, relief_port_schema(),
                "A hole that lets oil past the free piston.", R"({ position = "70 mm", area = "3 mm2" })"),
          table_list("restriction", &MotionSpec::restrictions, restriction_schema(),
                     "Oil locks and bottoming cones."),
          table_list("position_bleed", &MotionSpec::position_bleed, position_bleed_schema(),
                     "Grooves or holes that the piston uncovers, from fully out to fully in.",
                     R"([{ travel = "0 mm", area = "4 mm2" }, { travel = "120 mm", area = "0 mm2" }])"),
          flag("with_leg_air", &MotionSpec::with_leg_air,
               "true: the cartridge is inside its leg, and the air above the oil in the leg pushes too.",
               "false"),
          quantity("metal_mass", &MotionSpec::metal_mass, Kind::Mass,
                   {0.01, 20.0, "it is the metal of one fork leg or shock"},
                   "Metal that warms with the oil. Default: the temperature stays the same.", R"("0.9 kg")"),
          quantity("cooling_time", &MotionSpec::cooling_time, Kind::Time,
                   {1.0, 1e5, "a damper cools in minutes"},
                   "Time in which the temperature difference to the air drops to 37 %. Default: the unit "
                   "loses no heat.",
                   R"("12 min")"),
      });
  return schema;
}

const TableSchema& bench_schema() {
  static const TableSchema schema = schema_of<BenchSpec>(
      "bench", "What the command `bench` does with the damper.",
      {
          text("unit", &BenchSpec::unit, "The unit on the bench. Default: every unit with a damper.",
               R"("fork leg")"),
          flag("with_springs", &BenchSpec::with_springs,
               "true: the whole leg or shock is on the bench, with main spring, air spring, top-out spring "
               "and "
               "bump stop. Default: the bare damper.",
               "true"),
          table_list("drive", &BenchSpec::drives, drive_schema(), "How the bench moves the rod."),
          count("cycles", &BenchSpec::cycles, {1, 2000, "a bench run takes a few cycles"},
                "Cycles of each run. Default: 4.", "4"),
          count("samples", &BenchSpec::samples, {16, 5000, "a loop needs some hundred points"},
                "Points of each loop. Default: 240.", "240"),
          number("tolerance", &BenchSpec::tolerance, {1e-10, 1e-3, "1e-6 gives six correct digits"},
                 "Relative tolerance of each time step. Default: 1e-6.", "1e-6"),
          quantity("oil_temperature", &BenchSpec::oil_temperature, Kind::Temperature, kWorkTemperature,
                   "Oil temperature at the start of each run. Default: from [conditions].", R"("25 degC")"),
          table("air_left", &BenchSpec::air_left, air_left_schema(),
                "Air left after bleeding. Default: none.", R"({ rod = "2 mL" })"),
          table("hand_test", &BenchSpec::hand_test, hand_test_schema(),
                "The hand test: push the rod in, let go.", R"({ pushed_to = "240 mm" })"),
      });
  return schema;
}

}  // namespace shimwright::file
