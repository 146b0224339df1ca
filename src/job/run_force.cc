#include "job/run_force.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numeric>
#include <string>

#include "job/cavitation_advice.h"
#include "job/run_memo.h"
#include "job/value_key.h"

namespace shimwright::job {
namespace {

/// Clicks of an adjuster that states no end, and the least that is drawn.
constexpr int kUsualClicks = 24;

double sign_of(Stroke stroke) {
  return stroke == Stroke::Compression ? 1.0 : -1.0;
}

document::Carrier carrier_of(valve::Carrier carrier) {
  if (carrier == valve::Carrier::Stack) return document::Carrier::Stack;
  return carrier == valve::Carrier::Port ? document::Carrier::Port : document::Carrier::Bleed;
}

document::ForcePoint force_point(const damper::Chambers& chambers, const damper::SteadyPoint& from) {
  document::ForcePoint point;
  point.speed = std::abs(from.speed);
  point.force = std::abs(from.force_damping + from.force_friction);
  point.damping = std::abs(from.force_damping);
  point.friction = std::abs(from.force_friction);
  point.compression_pressure = from.p_compression;
  point.rod_pressure = from.p_rod;
  point.reservoir_pressure = chambers.reservoir_pressure;
  point.piston_flow = std::abs(from.piston.q);
  point.foot_flow = std::abs(from.foot.q);
  point.margin = from.margin;
  point.cavitated = from.cavitated;
  point.piston_carrier = carrier_of(from.piston.carrier);
  point.foot_carrier = carrier_of(from.foot.carrier);
  return point;
}

std::vector<double> signed_speeds(const std::vector<double>& speeds, Stroke stroke) {
  std::vector<double> result = speeds;
  for (double& speed : result) speed *= sign_of(stroke);
  return result;
}

document::ForceCurve force_curve(const resolve::DamperParts& parts, const ForceRun& run, Stroke stroke) {
  const damper::Chambers chambers = resolve::chambers_in(parts, stroke);
  const damper::ForceCurve solved =
      damper::force_curve(chambers, run.solved->laws, signed_speeds(run.speeds, stroke));
  document::ForceCurve curve;
  curve.stroke = stroke;
  curve.outcome = solved.outcome;
  for (const damper::SteadyPoint& point : solved.points) curve.points.push_back(force_point(chambers, point));
  return curve;
}

/// True when a stroke drives oil one way alone through each valve, whatever its speed: a valve that passes
/// nothing stands between two ways, and a reservoir below the release pressure fills a void backwards.
bool flows_one_way(const damper::Chambers& chambers, const std::vector<double>& speeds) {
  return chambers.rod_area > 0.0 && chambers.piston_area > chambers.rod_area &&
         chambers.reservoir_pressure > chambers.release_pressure && !speeds.empty() && speeds.front() > 0.0;
}

/// All that the forces of one stroke follow from, where oil flows one way alone: the laws of that way.
internal::ValueKey stroke_key(const damper::Chambers& chambers, const ForceRun& run, Stroke stroke) {
  const auto way = [&](const auto& valve) -> const valve::DirectionLaw& {
    return stroke == Stroke::Compression ? valve.compression : valve.rebound;
  };
  internal::ValueKey key;
  key.add(chambers, stroke, run.speeds, way(run.solved->laws.piston), run.solved->laws.foot.has_value());
  if (run.solved->laws.foot) key.add(way(*run.solved->laws.foot));
  return key;
}

const valve::ValveModel& valve_of(const resolve::DamperParts& parts, const resolve::AdjusterModel& adjuster) {
  const bool at_piston = adjuster.adjuster.valve == ValvePlace::Piston;
  return at_piston ? parts.model.piston_valve : *parts.model.foot_valve;
}

const valve::ValveSweep& sweep_of(const ForceRun& run, const resolve::AdjusterModel& adjuster) {
  const bool at_piston = adjuster.adjuster.valve == ValvePlace::Piston;
  return at_piston ? run.solved->sweeps.piston : run.solved->sweeps.foot;
}

/// All that the laws of an adjuster's valve at its clicks follow from.
std::string turned_key(const resolve::DamperParts& parts, const ForceRun& run,
                       const resolve::AdjusterModel& adjuster) {
  const bool at_piston = adjuster.adjuster.valve == ValvePlace::Piston;
  internal::ValueKey key;
  key.add(adjuster.adjuster, most_clicks(adjuster), valve_of(parts, adjuster), parts.liquid,
          sweep_of(run, adjuster), at_piston ? run.solved->stacks.piston : run.solved->stacks.foot);
  return std::move(key.bytes);
}

document::ClickFamily computed_family(const resolve::DamperParts& parts, const ForceRun& run,
                                      const resolve::AdjusterModel& adjuster) {
  document::ClickFamily family;
  family.adjuster = adjuster.name;
  family.place = adjuster.adjuster.valve;
  family.stroke = adjuster.stroke;
  family.speed = run.speeds;

  std::vector<double> clicks(static_cast<std::size_t>(most_clicks(adjuster)) + 1);
  std::iota(clicks.begin(), clicks.end(), 0.0);
  damper::DamperModel model = parts.model;
  model.chambers = resolve::chambers_in(parts, adjuster.stroke);
  const auto turn = [&] {
    return damper::turned_laws(model, *run.solved, parts.liquid, adjuster.adjuster, clicks);
  };
  const auto turned = run.memo ? run.memo->turned.get(turned_key(parts, run, adjuster), turn)
                               : std::make_shared<const damper::TurnedLaws>(turn());
  const damper::ForceFamily solved =
      damper::force_family(model.chambers, run.solved->laws, adjuster.adjuster, clicks, *turned,
                           signed_speeds(run.speeds, adjuster.stroke));
  for (std::size_t i = 0; i < solved.curves.size(); ++i) {
    document::FamilyMember& member = family.members.emplace_back();
    member.clicks = static_cast<int>(i);
    member.present = member.clicks == adjuster.clicks;
    for (const damper::SteadyPoint& point : solved.curves[i].points) {
      member.force.push_back(std::abs(point.force_damping + point.force_friction));
      member.cavitated.push_back(point.cavitated);
    }
  }
  return family;
}

document::ClickFamily click_family(const resolve::DamperParts& parts, const ForceRun& run,
                                   const resolve::AdjusterModel& adjuster) {
  const damper::Chambers chambers = resolve::chambers_in(parts, adjuster.stroke);
  if (!run.memo || !flows_one_way(chambers, run.speeds)) return computed_family(parts, run, adjuster);
  const valve::ValveModel& valve = valve_of(parts, adjuster);
  const valve::ValveSweep& sweep = sweep_of(run, adjuster);
  internal::ValueKey key = stroke_key(chambers, run, adjuster.stroke);
  key.add(adjuster, valve.bleeds, valve.leakage, parts.liquid,
          adjuster.stroke == Stroke::Compression ? sweep.compression : sweep.rebound);
  return *run.memo->families.get(std::move(key.bytes), [&] { return computed_family(parts, run, adjuster); });
}

document::CavitationResult cavitation_result(const resolve::DamperParts& parts, const ForceRun& run,
                                             Stroke stroke, const document::Phrase& phrase) {
  const bool compression = stroke == Stroke::Compression;
  const damper::Chambers chambers = resolve::chambers_in(parts, stroke);
  const double working = compression ? run.judged.working_compression : run.judged.working_rebound;
  const double top = run.judged.top;  // not that of the curve: the figures are the same whatever is drawn
  const auto report_to = [&](double speed) {
    return damper::cavitation(chambers, run.solved->laws, stroke, speed, kMarginWanted);
  };
  const damper::CavitationReport at_working = report_to(working);
  const damper::CavitationReport at_top = report_to(top);

  document::CavitationResult result;
  result.stroke = stroke;
  result.chamber = compression ? "rod chamber" : "compression chamber";
  result.release_pressure = chambers.release_pressure;
  result.working_speed = working;
  result.margin_at_working_speed = at_working.margin;
  result.margin_wanted = at_working.margin_wanted;
  result.top_speed = top;
  result.margin_at_top_speed = at_top.margin;
  const double onset = std::min(at_working.onset_speed, at_top.onset_speed);
  if (std::isfinite(onset)) result.speed_lost = onset;
  result.foot_drop = at_working.foot_drop;
  result.piston_drop = at_working.piston_drop;
  if (at_working.cure == damper::CavitationCure::StiffenFootCompression) {
    result.stiffen = ValvePlace::Foot;
    result.missing_drop = std::max(0.0, at_working.needed_foot_drop - at_working.foot_drop);
  }
  if (std::isfinite(at_working.needed_reservoir_pressure)) {
    result.needed_reservoir_pressure = at_working.needed_reservoir_pressure;
  }
  add_cavitation_advice(parts, run, at_working, phrase, result);
  return result;
}

}  // namespace

int most_clicks(const resolve::AdjusterModel& adjuster) {
  if (adjuster.clicks_max > 0) return std::max(adjuster.clicks_max, adjuster.clicks);
  return std::max(kUsualClicks, adjuster.clicks + adjuster.clicks / 2);
}

double damping_force(const resolve::DamperParts& parts, const damper::DamperLaws& laws, Stroke stroke,
                     double speed) {
  const damper::SteadyPoint point =
      damper::steady_point(resolve::chambers_in(parts, stroke), laws, sign_of(stroke) * speed);
  return std::abs(point.force_damping + point.force_friction);
}

damper::DamperLaws laws_at_clicks(const resolve::DamperParts& parts, const damper::SolvedDamper& solved,
                                  const resolve::AdjusterModel& adjuster, int clicks) {
  damper::DamperModel model = parts.model;
  damper::set_clicks(model, adjuster.adjuster, clicks);
  return damper::damper_laws(model, solved.stacks, parts.liquid);
}

int restoring_clicks(const resolve::DamperParts& parts, const damper::SolvedDamper& solved,
                     const resolve::AdjusterModel& adjuster, const oil::Liquid& liquid, double speed) {
  const double wanted = damping_force(parts, solved.laws, adjuster.stroke, speed);
  damper::DamperModel model = parts.model;
  const auto excess = [&](int clicks) {
    damper::set_clicks(model, adjuster.adjuster, clicks);
    const damper::DamperLaws laws = damper::damper_laws(model, solved.stacks, liquid);
    return damping_force(parts, laws, adjuster.stroke, speed) - wanted;
  };
  // the force never rises with clicks out: a bisection finds the two counts beside the old force
  int low = 0;                       // too firm, or the end
  int high = most_clicks(adjuster);  // too soft, or the end
  while (high - low > 1) {
    const int middle = (low + high) / 2;
    (excess(middle) > 0.0 ? low : high) = middle;
  }
  const double firm = std::abs(excess(low));
  const double soft = std::abs(excess(high));
  constexpr double kFelt = 0.1;  // less than a tenth of a newton is not worth a click
  if (std::abs(excess(adjuster.clicks)) <= std::min(firm, soft) + kFelt) return 0;
  return (firm < soft ? low : high) - adjuster.clicks;
}

document::ForceResult force_result(const resolve::DamperParts& parts, const ForceRun& run,
                                   const document::Phrase& phrase) {
  document::ForceResult result;
  result.temperature = parts.temperature;
  const damper::Chambers& chambers = parts.model.chambers;
  result.static_rod_force = (chambers.reservoir_pressure - chambers.atmospheric_pressure) * chambers.rod_area;
  result.seal_friction = chambers.seal_friction;
  for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
    result.curves.push_back(force_curve(parts, run, stroke));
    result.outcome = worse(result.outcome, result.curves.back().outcome);
    result.cavitation.push_back(cavitation_result(parts, run, stroke, phrase));
  }
  for (const resolve::AdjusterModel& adjuster : parts.adjusters) {
    result.families.push_back(click_family(parts, run, adjuster));
  }
  for (const double speed : run.judged.key) {
    const auto at = [&](Stroke stroke) {
      return damper::steady_point(resolve::chambers_in(parts, stroke), run.solved->laws,
                                  sign_of(stroke) * speed);
    };
    const damper::SteadyPoint in = at(Stroke::Compression);
    const damper::SteadyPoint out = at(Stroke::Rebound);
    result.outcome = worse(result.outcome, worse(in.outcome, out.outcome));
    result.key_forces.push_back({speed, std::abs(in.force_damping + in.force_friction),
                                 std::abs(out.force_damping + out.force_friction), in.cavitated,
                                 out.cavitated});
  }
  return result;
}

}  // namespace shimwright::job
