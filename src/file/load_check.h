#pragma once
#include "base/diagnostic.h"
#include "file/load_codes.h"
#include "file/load_reading.h"
#include "file/spec.h"

namespace shimwright::file {

/// Checks of parts that must belong together, once all files are read. Only what was given is compared.
struct Checks {
  const JobSpec& job;
  Diagnostics& diagnostics;

  void fault(Code code, const Origin& origin, FaultText words) const;

  /// True when the key was there and is faulty, or is lost with a line that is no TOML.
  bool is_faulty(const Origin& table, const std::string& key) const;
  /// A key that is missing from the table at `table`; nothing when it is faulty.
  void missing(const Origin& table, const std::string& key, const std::string& example) const;
};

/// The stack of a direction or of a lone stack.
void check_stack(const Checks& checks, const DirectionSpec& direction);

/// A valve, its post and its bleeds.
void check_valve(const Checks& checks, const ValveSpec& valve);

/// A unit with all that is in it.
void check_unit(const Checks& checks, const UnitSpec& unit);

/// What a unit is like in motion.
void check_motion(const Checks& checks, const UnitSpec& unit);

/// How the bench moves.
void check_bench(const Checks& checks, const BenchSpec& bench);

void check_disc(const Checks& checks, const DiscSpec& disc);
void check_spring(const Checks& checks, const CoilSpringSpec& spring);
void check_oil(const Checks& checks, const OilSpec& oil);
void check_nut(const Checks& checks, const NutSpec& nut);
void check_strength_class(const Checks& checks, const Text& strength_class);

/// Everything of a job.
void check_job(const JobSpec& job, Diagnostics& diagnostics);

}  // namespace shimwright::file
