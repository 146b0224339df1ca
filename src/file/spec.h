#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "file/spec_parts.h"
#include "file/spec_unit.h"
#include "file/spec_value.h"

namespace shimwright::file {

/// The **Spec**: one job as it was written, units read and part names followed, nothing computed and nothing
/// filled in. Everything is optional; a verb asks for what it needs and says what is missing.

/// One file that was read.
struct SourceFile {
  std::string name;  // as the user named it
  std::string text;
};

/// What a rider feels, each with an answer in the settings guide.
enum class Feel { Dives, Harsh, Bottoms, PacksDown, KicksBack, LosesGrip, Other };

struct RiderSpec {
  Text name;
  Quantity mass;  // Mass, in riding gear
  Text pace;
  Text terrain;
  std::vector<Text> complaints;     // in the rider's own words; they are printed, nothing follows from them
  std::vector<Choice<Feel>> feels;  // what of it the guide answers first
  Origin origin;
};

/// What is aimed for, as travel from fully out, at the wheel.
struct SagSpec {
  QuantityRange fixed;  // key `static`: the machine alone
  QuantityRange rider;
  Origin origin;
};

struct MachineSpec {
  Text name;
  Quantity front_mass;         // Mass carried by the front springs without the rider
  Quantity rear_mass;          // Mass carried by the rear spring without the rider
  Quantity rider_front_share;  // Fraction of the rider that the front carries
  Quantity head_angle;         // Angle from the vertical
  std::optional<SagSpec> front_sag;
  std::optional<SagSpec> rear_sag;
  Origin origin;
};

struct ConditionsSpec {
  Quantity oil_temperature;   // Temperature, working
  Quantity fill_temperature;  // Temperature at the bench
  Quantity air_temperature;   // Temperature of the air springs, working; the fill temperature when left out
  Quantity altitude;          // Length
  Origin origin;
};

struct JobSpec {
  Count format;
  Text title;
  Text scenario;
  Text revision;
  Text date;  // YYYY-MM-DD
  Text shop;
  std::vector<Text> notes;
  std::vector<Text> parts_files;  // as named in the job

  std::optional<RiderSpec> rider;
  std::optional<MachineSpec> machine;
  std::optional<ConditionsSpec> conditions;
  std::vector<UnitSpec> units;
  std::optional<DirectionSpec> stack;  // a lone stack
  std::optional<BenchSpec> bench;
  PartsSpec parts;  // of this file and of the parts files

  std::vector<SourceFile> files;  // [0] is the job itself
};

/// One thing that a part of the result needs and the job does not say.
struct Missing {
  std::string part;  // "the force curve"
  std::string what;  // "the rod's diameter"
  std::string key;   // "rod"
  Origin origin;     // of the table it belongs in
};

/// A diagnostic at `origin`: file, line, column and path are filled in, the words are the
/// caller's.
Diagnostic diagnostic_at(const JobSpec& job, const Origin& origin, std::string code);

/// The material of a disc that names none: plain spring steel, 206 GPa and 0.30, density 7850 kg/m3 (common
/// practice, no source). No strength: a margin is only given for a material that states one.
MaterialSpec default_spring_steel();

}  // namespace shimwright::file
