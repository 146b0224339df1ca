#pragma once
#include <optional>
#include <string>
#include <vector>

#include "file/spec_value.h"
#include "file/stroke_csv.h"

namespace shimwright::file {

// ---- what a unit is like in motion: `[unit.motion]`

/// A place near the end of the stroke where oil is squeezed out of a cup: an oil lock, a bottoming cone.
struct RestrictionSpec {
  Text name;
  Quantity begins;         // Length, travel where it enters
  Quantity ends;           // Length, travel from which the opening stays
  Quantity diameter;       // Length, of the cup
  Quantity opening_first;  // Area, free at the beginning
  Quantity opening_last;   // Area, free at the end
  Origin origin;
};

/// Grooves or holes that the piston uncovers.
struct PositionBleedSpec {
  Quantity travel;  // Length
  Quantity area;    // Area, open there
  Origin origin;
};

/// A hole that lets oil past the free piston.
struct ReliefPortSpec {
  Quantity position;  // Length, travel of the free piston from its place with the rod fully out
  Quantity area;      // Area
  Origin origin;
};

/// What a steady curve does not need to know. All of it may be left out.
struct MotionSpec {
  Quantity compression_volume;  // Volume of the compression chamber, rod fully out
  Quantity rod_volume;          // Volume of the rod chamber, rod fully out
  Quantity reservoir_oil;       // Volume of oil in the reservoir, rod fully out
  Quantity tube_wall;           // Length, thickness; rigid when left out
  Quantity tube_modulus;        // Stress
  Quantity free_piston_mass;    // Mass
  Quantity free_piston_inward;  // Length it can follow when oil is missing
  std::optional<ReliefPortSpec> relief_port;
  std::vector<RestrictionSpec> restrictions;
  std::vector<PositionBleedSpec> position_bleed;
  Flag with_leg_air;      // the leg's air over the oil pushes too
  Quantity metal_mass;    // Mass that warms with the oil
  Quantity cooling_time;  // Time until the difference to the air has fallen to 37 %
  Origin origin;
};

// ---- what the bench does: `[bench]`

enum class DriveKind { Sine, Triangle, Step, Recorded };

/// One way of moving the rod, at one or several frequencies or speeds.
struct DriveSpec {
  Choice<DriveKind> kind;
  Quantity stroke;                  // Length, from end to end
  std::vector<Quantity> frequency;  // Frequency
  std::vector<Quantity> speed;      // Speed, the largest
  Quantity middle;                  // Length, travel half way; half of the unit's travel when left out

  Quantity from;       // step: Length
  Quantity to;         // step: Length
  Quantity rise_time;  // step: Time
  Quantity hold_time;  // step: Time

  Text file;             // recorded: a CSV, named from the folder of the job
  Text time_column;      // recorded: heading; found by its name when left out
  Text travel_column;    // recorded: likewise
  Text force_column;     // recorded: heading of the measured force; none when left out
  Quantity sample_rate;  // recorded: Frequency, of a file without time
  Quantity zero_at;      // recorded: Length, travel of the unit where the record reads zero
  Flag outwards;         // recorded: the record counts outwards
  Quantity
      stiffness;  // recorded: SpringRate, of all that the travel was measured through; fitted when left out

  RecordedStroke record;  // of `file`, read with the job, as travel of the unit
  Origin origin;
};

/// Air left by the bleed, at one atmosphere.
struct AirLeftSpec {
  Quantity compression;  // Volume
  Quantity rod;          // Volume, under the seal head
  Quantity reservoir;    // Volume
  Origin origin;
};

/// The try by hand: push the rod in, let go.
struct HandTestSpec {
  Quantity pushed_to;    // Length, travel
  Quantity moving_mass;  // Mass of the rod and what hangs on it
  Flag with_springs;     // the springs push too; as the bench when left out
  Origin origin;
};

/// Largest speed of a drive: times its stroke and its frequency, or its stroke over its rise time.
double top_speed_factor(DriveKind kind);

struct BenchSpec {
  Text unit;          // name of the unit on the bench; every unit with a damper when left out
  Flag with_springs;  // main spring, air spring and stops are in; out when left out
  std::vector<DriveSpec> drives;
  Count cycles;
  Count samples;             // of each cycle
  Number tolerance;          // relative, of the integrator
  Quantity oil_temperature;  // Temperature at the start
  std::optional<AirLeftSpec> air_left;
  std::optional<HandTestSpec> hand_test;
  Origin origin;
};

}  // namespace shimwright::file
