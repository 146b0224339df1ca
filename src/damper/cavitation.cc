#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "damper/damper.h"
#include "damper/drops.h"
#include "num/root.h"

namespace shimwright::damper {
namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

// Speeds of the scan for the first crossing in compression: even in the root of speed, where laws are smooth.
constexpr int kScanSteps = 400;

/// Pressure of the chamber that runs short above release, as if it could go below; speed signed.
double margin_at(const Chambers& chambers, const DamperLaws& laws, double speed) {
  const FullFlowDrops drops = full_flow_drops(chambers, laws, speed);
  const double spare = chambers.reservoir_pressure - chambers.release_pressure + drops.foot;
  return speed > 0.0 ? spare - drops.piston : spare;
}

double first_loss(const Chambers& chambers, const DamperLaws& laws, double sign, double speed_max) {
  const auto margin = [&](double speed) { return margin_at(chambers, laws, sign * speed); };
  double last = 0.0;
  for (int i = 1; i <= kScanSteps; ++i) {
    const double share = static_cast<double>(i) / kScanSteps;
    const double speed = speed_max * share * share;
    if (margin(speed) < 0.0) return num::root_between(margin, last, speed).x;
    last = speed;
  }
  return kNever;
}

}  // namespace

CavitationReport cavitation(const Chambers& chambers, const DamperLaws& laws, Stroke stroke, double speed_max,
                            double margin_wanted) {
  SW_CHECK(speed_max > 0.0, speed_max);
  const bool compression = stroke == Stroke::Compression;
  const double sign = compression ? 1.0 : -1.0;
  CavitationReport report{.stroke = stroke, .speed_max = speed_max, .margin_wanted = margin_wanted};
  report.onset_speed = first_loss(chambers, laws, sign, speed_max);
  report.margin = margin_at(chambers, laws, sign * speed_max);
  const FullFlowDrops drops = full_flow_drops(chambers, laws, sign * speed_max);
  report.foot_drop = std::abs(drops.foot);
  report.piston_drop = std::abs(drops.piston);

  // what each part would have to give at speed_max, the others as built
  const double floor = chambers.release_pressure + margin_wanted;
  if (compression) {
    report.needed_foot_drop = std::max(0.0, floor + report.piston_drop - chambers.reservoir_pressure);
    report.needed_reservoir_pressure = std::max(floor, floor + report.piston_drop - report.foot_drop);
    report.allowed_piston_drop = std::max(0.0, chambers.reservoir_pressure + report.foot_drop - floor);
  } else {
    report.needed_foot_drop = std::max(0.0, chambers.reservoir_pressure - floor);
    report.needed_reservoir_pressure = floor + report.foot_drop;
    report.allowed_piston_drop = kNever;
  }

  const bool lost = report.onset_speed < kNever || report.margin < margin_wanted;
  if (!lost) return report;
  if (!compression)
    report.cure = CavitationCure::OpenFootRebound;
  else
    report.cure = laws.foot ? CavitationCure::StiffenFootCompression : CavitationCure::RaiseReservoirPressure;
  return report;
}

}  // namespace shimwright::damper
