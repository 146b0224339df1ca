#pragma once
#include <optional>
#include <string>
#include <vector>

#include "damper/motion_model.h"
#include "resolve/resolve_damper.h"

namespace shimwright::resolve {

/// A damper that can be moved, with what was taken for what the job does not say.
struct MotionParts {
  damper::MotionModel model;
  std::vector<std::string> assumptions;  // one sentence each
  FieldPlaces places;
};

struct MotionRequest {
  double oil_temperature = 0.0;   // at the start [K]
  double air_temperature = 0.0;   // around the damper [K]
  double ambient_pressure = 0.0;  // [Pa]
  double top_speed = 0.0;         // that the valves must be solved for [m/s]
  const file::AirLeftSpec* air_left = nullptr;
  const damper::SolvedDamper* solved =
      nullptr;           // its stacks are taken; null: they are solved up to top_speed
  bool at_rest = false;  // without the laws of the valves: for what only asks where the rod rests
  Theory theory = Theory::Large;
};

/// The damper of a unit in motion.
///
/// Model:  chambers from the motion table, or else from the fill's space (the rod inside it is the
/// length
///         of the rod chamber), else from bore and travel with 30 mm to spare at each end. A piston valve
///         that floats in compression sweeps its volume before it passes oil. Heat: 900 J/(kg K) for metal,
///         1900 for oil (both from memory).
/// Errors: what physics refuses comes as diagnostics at its place; what is not stated as `report`.
/// Tested: resolve_motion_test.cc
std::optional<MotionParts> resolve_motion(const file::JobSpec& job, const file::UnitSpec& unit,
                                          const DamperParts& damper, const MotionRequest& request,
                                          ResolveReport& report, plate::Workspace& workspace);

}  // namespace shimwright::resolve
