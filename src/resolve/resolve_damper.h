#pragma once
#include <optional>
#include <string>
#include <vector>

#include "damper/damper.h"
#include "file/judged_speeds.h"
#include "oil/oil.h"
#include "resolve/resolve_conditions.h"
#include "resolve/resolve_reservoir.h"
#include "resolve/resolve_valve.h"

namespace shimwright::resolve {

/// A needle of the unit with its range.
struct AdjusterModel {
  damper::Adjuster adjuster;
  std::string name;
  Stroke stroke = Stroke::Compression;  // that it acts in; a needle that acts in both counts for each
  int clicks = 0;
  int clicks_max = 0;   // as stated; 0: not stated
  file::Origin origin;  // of its clicks
};

/// One damper ready to be computed.
struct DamperParts {
  damper::DamperModel model;
  std::optional<ValveParts> foot;
  ValveParts piston;
  std::vector<AdjusterModel> adjusters;
  oil::OilModel oil;
  ReservoirModel reservoir;
  double temperature = 0.0;       // of the oil, working [K]
  oil::Liquid liquid;             // at that temperature
  double free_piston_drag = 0.0;  // its seal's friction over its area [Pa]
  double top_speed = 0.0;         // highest speed computed [m/s]
};

/// The damper of a unit; none when the unit states no valve (the other leg damps).
///
/// Model:  reservoir pressure at rest with the rod fully out and oil and gas at working temperature: with the
///         rod in it is higher, so the margins are on the safe side. A sprung piston works against the air
///         outside.
/// Tested: resolve_test.cc
std::optional<DamperParts> resolve_damper(const file::JobSpec& job, const file::UnitSpec& unit,
                                          const Conditions& conditions, ResolveReport& report);

/// Chambers for one stroke: the free piston's drag adds to the pressure going in and takes from it coming
/// out.
damper::Chambers chambers_in(const DamperParts& parts, Stroke stroke);

}  // namespace shimwright::resolve
