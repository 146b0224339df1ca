#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "file/load_check.h"
#include "file/schema_bounds.h"

namespace shimwright::file {
namespace {

constexpr std::size_t kMostRuns = 400;  // of one bench job

bool swings(const DriveSpec& drive) {
  return drive.kind.value == DriveKind::Sine || drive.kind.value == DriveKind::Triangle;
}

// ---- keys that suit the kind

void refuse_others(const Checks& checks, const DriveSpec& drive) {
  const auto refuse = [&](bool given, const Origin& origin, const char* name) {
    if (!given) return;
    checks.fault(Code::DriveKeyOfOtherKind, origin,
                 {fmt::format("a drive of the kind \"{}\" has no {}", drive.kind.text, name), "", "",
                  fmt::format("remove {}, or change the kind", name)});
  };
  if (!swings(drive)) {
    refuse(bool(drive.stroke), drive.stroke.origin, "stroke");
    refuse(!drive.frequency.empty(), drive.frequency.empty() ? Origin{} : drive.frequency[0].origin,
           "frequency");
    refuse(!drive.speed.empty(), drive.speed.empty() ? Origin{} : drive.speed[0].origin, "speed");
    refuse(bool(drive.middle), drive.middle.origin, "middle");
  }
  if (drive.kind.value != DriveKind::Step) {
    refuse(bool(drive.from), drive.from.origin, "from");
    refuse(bool(drive.to), drive.to.origin, "to");
    refuse(bool(drive.rise_time), drive.rise_time.origin, "rise_time");
    refuse(bool(drive.hold_time), drive.hold_time.origin, "hold_time");
  }
  if (drive.kind.value != DriveKind::Recorded) {
    refuse(bool(drive.file), drive.file.origin, "file");
    refuse(bool(drive.time_column), drive.time_column.origin, "time_column");
    refuse(bool(drive.travel_column), drive.travel_column.origin, "travel_column");
    refuse(bool(drive.force_column), drive.force_column.origin, "force_column");
    refuse(bool(drive.sample_rate), drive.sample_rate.origin, "sample_rate");
    refuse(bool(drive.zero_at), drive.zero_at.origin, "zero_at");
    refuse(bool(drive.outwards), drive.outwards.origin, "outwards");
    refuse(bool(drive.stiffness), drive.stiffness.origin, "stiffness");
  }
}

// ---- what a drive must say

void check_swing(const Checks& checks, const DriveSpec& drive) {
  const int n_given = int(bool(drive.stroke)) + int(!drive.frequency.empty()) + int(!drive.speed.empty());
  if (n_given == 3)
    checks.fault(Code::DriveOverstated, drive.stroke.origin,
                 {"stroke, frequency and speed are all given", drive.stroke.text, "two of the three",
                  "remove one of them"});
  const auto faulty = [&](const char* key) { return checks.is_faulty(drive.origin, key); };
  if (n_given < 2 && !faulty("stroke") && !faulty("frequency") && !faulty("speed"))
    checks.fault(Code::DriveIncomplete, drive.origin,
                 {"the motion of the drive is not complete", "", "two of stroke, frequency and speed",
                  !drive.stroke ? "add stroke = \"50 mm\"" : "add frequency = \"1 Hz\", or speed"});
  if (drive.frequency.size() * std::max<std::size_t>(1, drive.speed.size()) > kMostRuns ||
      drive.speed.size() > kMostRuns)
    checks.fault(Code::TooMany, drive.origin,
                 {"too many runs for one drive", "", fmt::format("at most {}", kMostRuns),
                  "use fewer frequencies or speeds"});
}

void check_step(const Checks& checks, const DriveSpec& drive) {
  const auto need = [&](bool given, const char* name, const char* example) {
    if (!given && !checks.is_faulty(drive.origin, name))
      checks.fault(Code::DriveIncomplete, drive.origin,
                   {fmt::format("a step without its {}", name), "", fmt::format("{} = {}", name, example),
                    fmt::format("add {}", name)});
  };
  need(bool(drive.from), "from", "\"50 mm\"");
  need(bool(drive.to), "to", "\"250 mm\"");
  need(bool(drive.rise_time), "rise_time", "\"0.1 s\"");
  if (drive.from && drive.to && drive.from.si == drive.to.si)
    checks.fault(Code::DriveStandsStill, drive.to.origin,
                 {"the step ends where it begins", drive.to.text, "another travel than " + drive.from.text,
                  "correct one of the two"});
}

void check_record(const Checks& checks, const DriveSpec& drive) {
  if (!drive.file && !checks.is_faulty(drive.origin, "file"))
    checks.fault(Code::DriveIncomplete, drive.origin,
                 {"a recorded drive without its file", "", "file = \"lap-3.csv\"", "add file"});
  if (drive.sample_rate && drive.time_column)
    checks.fault(Code::StatedTwice, drive.sample_rate.origin,
                 {"the time is given by a column and by a rate", drive.sample_rate.text, "one of the two",
                  "remove one of them"});
  if (drive.stiffness && !drive.force_column && !checks.is_faulty(drive.origin, "force_column"))
    checks.fault(Code::DriveIncomplete, drive.stiffness.origin,
                 {"a stiffness without a measured force", drive.stiffness.text, "force_column",
                  "add force_column, or remove stiffness"});
  const std::vector<double>& travel = drive.record.travel;
  if (!travel.empty() && std::ranges::min(travel) == std::ranges::max(travel))
    checks.fault(Code::DriveStandsStill, drive.file.origin,
                 {"the record does not move", fmt::format("{:.4g} mm all the time", 1e3 * travel.front()),
                  "a travel that changes", "name the column of the travel"});
}

/// Speeds that follow from other keys are bounded as a stated speed is.
void check_speed(const Checks& checks, const DriveSpec& drive) {
  const auto judge = [&](double speed, const Origin& origin, const char* what, const char* remedy) {
    if (!(speed > kBenchSpeed.high)) return;
    checks.fault(Code::DriveTooFast, origin,
                 {what, fmt::format("{:.4g} m/s", speed),
                  fmt::format("at most {:g} m/s: {}", kBenchSpeed.high, kBenchSpeed.reason), remedy});
  };
  if (swings(drive) && drive.stroke)
    for (const Quantity& frequency : drive.frequency)
      judge(top_speed_factor(drive.kind.value) * drive.stroke.si * frequency.si, frequency.origin,
            "the speed that follows from stroke and frequency is too high", "use a lower frequency");
  if (drive.kind.value == DriveKind::Step && drive.from && drive.to && drive.rise_time)
    judge(top_speed_factor(DriveKind::Step) * std::abs(drive.to.si - drive.from.si) / drive.rise_time.si,
          drive.rise_time.origin, "the step is too fast", "use a longer rise_time");
  double fastest = 0.0;
  const RecordedStroke& record = drive.record;
  for (std::size_t i = 1; i < record.travel.size(); ++i)
    if (record.time[i] > record.time[i - 1])
      fastest = std::max(
          fastest, std::abs(record.travel[i] - record.travel[i - 1]) / (record.time[i] - record.time[i - 1]));
  judge(fastest, drive.file.origin, "the record jumps from one sample to the next",
        "check the unit of time and travel, and take out the faulty rows");
}

// ---- inside the travel

void check_within(const Checks& checks, const DriveSpec& drive, const Quantity& travel) {
  if (!travel) return;
  const auto beyond = [&](const Origin& origin, const std::string& got) {
    checks.fault(Code::DriveBeyondTravel, origin,
                 {"the drive goes beyond the travel of the unit", got, "0 mm to " + travel.text,
                  "correct the stroke or its position"});
  };
  if (swings(drive) && drive.stroke) {
    const double middle = drive.middle.value_or(0.5 * travel.si);
    const double half = 0.5 * drive.stroke.si;
    if (middle - half < -1e-9 || middle + half > travel.si + 1e-9)
      beyond(drive.stroke.origin,
             fmt::format("{:.4g} to {:.4g} mm", 1e3 * (middle - half), 1e3 * (middle + half)));
  }
  for (const Quantity& end : {drive.from, drive.to})
    if (end && end.si > travel.si) beyond(end.origin, end.text);
  if (drive.record.travel.empty()) return;
  const auto [least, most] = std::ranges::minmax(drive.record.travel);
  // a logger's zero is good to a millimetre
  if (least < -1e-3 || most > travel.si + 1e-3)
    beyond(drive.file.origin, fmt::format("{:.4g} to {:.4g} mm", 1e3 * least, 1e3 * most));
}

/// The hand can push a rod no further than in.
void check_push(const Checks& checks, const BenchSpec& bench, const Quantity& travel) {
  if (!bench.hand_test || !bench.hand_test->pushed_to || !travel) return;
  const Quantity& pushed_to = bench.hand_test->pushed_to;
  if (pushed_to.si <= travel.si) return;
  checks.fault(Code::DriveBeyondTravel, pushed_to.origin,
               {"the hand test pushes the rod beyond the travel of the unit", pushed_to.text,
                "at most " + travel.text, "correct the push or the travel"});
}

/// Springs can only be put in where a unit has some.
void check_springs(const Checks& checks, const BenchSpec& bench, const Flag& asked) {
  if (!asked.value_or(false)) return;
  bool any_unit = false;
  for (const UnitSpec& unit : checks.job.units) {
    if (bench.unit && bench.unit.value != unit.name.value) continue;
    any_unit = true;
    if (!unit.coil_springs.empty() || unit.air_spring || unit.trapped_air) return;
  }
  if (!any_unit) return;  // that is the fault
  checks.fault(
      Code::BenchHasNoSprings, asked.origin,
      {"the bench should run with springs, but no unit on it has any", "true",
       "a unit with a coil_spring or an air_spring", "add the springs of the unit, or remove this key"});
}

}  // namespace

void check_bench(const Checks& checks, const BenchSpec& bench) {
  std::vector<std::string> names;
  for (const UnitSpec& unit : checks.job.units) names.push_back(unit.name.value);
  if (bench.unit && std::ranges::find(names, bench.unit.value) == names.end()) {
    const std::string nearest = nearest_name(bench.unit.value, names);
    checks.fault(Code::BenchUnitUnknown, bench.unit.origin,
                 {"no unit of this job has this name", "\"" + bench.unit.value + "\"", "",
                  nearest.empty() ? "write the name of a unit" : "did you mean \"" + nearest + "\"?"});
  }
  for (const Flag& asked : {bench.with_springs, bench.hand_test ? bench.hand_test->with_springs : Flag{}})
    check_springs(checks, bench, asked);
  for (const UnitSpec& unit : checks.job.units)
    if (!bench.unit || bench.unit.value == unit.name.value) check_push(checks, bench, unit.travel);
  for (const DriveSpec& drive : bench.drives) {
    if (!drive.kind) continue;
    refuse_others(checks, drive);
    if (swings(drive)) check_swing(checks, drive);
    if (drive.kind.value == DriveKind::Step) check_step(checks, drive);
    if (drive.kind.value == DriveKind::Recorded) check_record(checks, drive);
    check_speed(checks, drive);
    for (const UnitSpec& unit : checks.job.units)
      if (!bench.unit || bench.unit.value == unit.name.value) check_within(checks, drive, unit.travel);
  }
}

void check_motion(const Checks& checks, const UnitSpec& unit) {
  const MotionSpec& motion = *unit.motion;
  const auto misfit = [&](const Quantity& value, const char* what, const std::string& expected) {
    checks.fault(Code::MotionDoesNotFit, value.origin,
                 {what, value.text, expected, "correct one of the two"});
  };
  const bool has_piston = unit.reservoir && unit.reservoir->piston && unit.reservoir->kind &&
                          unit.reservoir->kind.value != ReservoirKind::AirOverOil;
  if (unit.reservoir && !has_piston) {
    for (const Quantity& value : {motion.free_piston_mass, motion.free_piston_inward})
      if (value) misfit(value, "the reservoir has no free piston", "a reservoir with its piston");
    if (motion.relief_port)
      misfit(motion.relief_port->position, "the reservoir has no free piston", "a reservoir with its piston");
  }
  if (motion.with_leg_air.value_or(false) && !(unit.trapped_air && has_piston))
    checks.fault(
        Code::MotionDoesNotFit, motion.with_leg_air.origin,
        {"the air of the leg is not given, or it is the reservoir itself", "true",
         "a cartridge with a free piston in a leg with trapped_air", "add trapped_air, or remove this key"});
  for (const RestrictionSpec& restriction : motion.restrictions) {
    if (restriction.begins && restriction.ends && restriction.begins.si >= restriction.ends.si)
      misfit(restriction.ends, "it ends before it begins", "more than " + restriction.begins.text);
    if (restriction.ends && unit.travel && restriction.ends.si > unit.travel.si)
      misfit(restriction.ends, "it is beyond the travel", "at most " + unit.travel.text);
  }
  for (std::size_t i = 1; i < motion.position_bleed.size(); ++i) {
    const Quantity& before = motion.position_bleed[i - 1].travel;
    const Quantity& here = motion.position_bleed[i].travel;
    if (before && here && here.si <= before.si)
      misfit(here, "the rows do not rise from fully out", "more than " + before.text);
  }
  if (motion.position_bleed.size() == 1)
    misfit(motion.position_bleed.front().travel, "one row says nothing about the rest of the travel",
           "two rows or more");
  if (motion.relief_port && motion.relief_port->position && unit.reservoir && unit.reservoir->stroke &&
      motion.relief_port->position.si > unit.reservoir->stroke.si)
    misfit(motion.relief_port->position, "the free piston cannot move that far",
           "at most " + unit.reservoir->stroke.text);
}

}  // namespace shimwright::file
