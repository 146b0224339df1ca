#include "job/run_valve.h"

#include <algorithm>
#include <cmath>

#include "resolve/resolve_post.h"

namespace shimwright::job {
namespace {

document::Carrier carrier_of(valve::Carrier carrier) {
  switch (carrier) {
    case valve::Carrier::Stack:
      return document::Carrier::Stack;
    case valve::Carrier::Port:
      return document::Carrier::Port;
    case valve::Carrier::Nothing:
    case valve::Carrier::Bleed:
      break;
  }
  return document::Carrier::Bleed;
}

double sign_of(Stroke stroke) {
  return stroke == Stroke::Compression ? 1.0 : -1.0;
}

const valve::DirectionLaw& law_of(const ValveRun& run, Stroke stroke) {
  return stroke == Stroke::Compression ? run.solved->law.compression : run.solved->law.rebound;
}

/// The valve's state at a damper speed; none when it passes nothing at all.
std::optional<valve::ValveState> state_at_speed(const ValveRun& run, Stroke stroke, double speed) {
  const double drop = valve::drop_at(run.solved->law, sign_of(stroke) * run.area * speed);
  if (!std::isfinite(drop)) return std::nullopt;
  return valve::state_at(run.solved->law, drop);
}

document::LawPoint law_point(const valve::ValveState& state, double speed) {
  document::LawPoint point;
  point.flow = std::abs(state.q);
  point.drop = std::abs(state.drop);
  point.speed = speed;
  point.lift_at_seat = state.lift;
  point.bleed_flow = std::abs(state.q_bleed) + std::abs(state.q_leakage);
  point.stack_flow = std::abs(state.q_stack);
  point.port_drop = std::abs(state.port_drop);
  point.carrier = carrier_of(state.carrier);
  point.beyond_table = state.beyond_table;
  return point;
}

/// First speed of the table at which the stack lifts, refined between two rows.
std::optional<double> opening_speed(const ValveRun& run, Stroke stroke) {
  constexpr double kLifted = 1e-7;  // a tenth of a micrometre: less looks shut to everybody
  const auto lifted = [&](double speed) {
    const auto state = state_at_speed(run, stroke, speed);
    return state && state->lift > kLifted;
  };
  double low = 0.0;
  for (const double speed : run.speeds) {
    if (!lifted(speed)) {
      low = speed;
      continue;
    }
    double high = speed;
    for (int i = 0; i < 20; ++i) (lifted(0.5 * (low + high)) ? high : low) = 0.5 * (low + high);
    return high;
  }
  return std::nullopt;
}

std::optional<double> choking_speed(const ValveRun& run, Stroke stroke) {
  const double drop = valve::choke_drop(law_of(run, stroke));
  if (!std::isfinite(drop)) return std::nullopt;
  const double flow = std::abs(valve::flow_at(run.solved->law, sign_of(stroke) * drop).q);
  return run.area > 0.0 ? std::optional<double>(flow / run.area) : std::nullopt;
}

double opening_area(const flow::Passage& passage) {
  if (const auto* needle = std::get_if<flow::Needle>(&passage)) return flow::needle_opening(*needle).area;
  if (const auto* orifice = std::get_if<flow::Orifice>(&passage)) return orifice->area;
  if (const auto* notches = std::get_if<flow::Notches>(&passage)) return flow::notch_opening(*notches).area;
  return 0.0;  // a leak is no opening: its flow depends on the oil
}

double bleed_area(const resolve::ValveParts& parts, Stroke stroke) {
  double area = 0.0;
  for (const valve::Bleed& bleed : parts.model.bleeds) {
    if (stroke == Stroke::Compression ? bleed.compression : bleed.rebound)
      area += opening_area(bleed.passage);
  }
  const auto& direction = stroke == Stroke::Compression ? parts.model.compression : parts.model.rebound;
  for (const flow::Passage& passage : direction.face_bleeds) area += opening_area(passage);
  return area;
}

document::DirectionResult direction_result(const resolve::ValveParts& parts, const ValveRun& run,
                                           Stroke stroke) {
  const bool compression = stroke == Stroke::Compression;
  const auto& model = compression ? parts.model.compression : parts.model.rebound;
  const auto& spec = compression ? parts.spec->compression : parts.spec->rebound;

  document::DirectionResult result;
  result.stroke = stroke;
  result.check = spec && resolve::is_check(*spec);
  result.bleed_area = bleed_area(parts, stroke);
  if (model.ports) result.port_area = model.ports->area;
  result.outcome = law_of(run, stroke).outcome;
  for (const double speed : run.speeds) {
    const auto state = state_at_speed(run, stroke, speed);
    if (!state) {
      result.outcome =
          worse(result.outcome, Outcome{Status::OutOfRange, 0, 0.0, "This direction passes no oil."});
      break;
    }
    result.law.push_back(law_point(*state, speed));
  }
  if (model.stack) {
    result.opening_speed = opening_speed(run, stroke);
    result.choking_speed = choking_speed(run, stroke);
  }
  return result;
}

std::string kind_word(file::BleedKind kind) {
  switch (kind) {
    case file::BleedKind::Needle:
      return "needle";
    case file::BleedKind::Bored:
      return "bored";
    case file::BleedKind::Notch:
      return "notch";
    case file::BleedKind::Leakage:
      break;
  }
  return "leakage";
}

document::BleedResult bleed_result(const file::BleedSpec& spec, const flow::Passage* passage) {
  const file::ActsIn acts = spec.acts_in.value_or(file::ActsIn::Both);
  document::BleedResult result;
  result.name = spec.name.value;
  result.kind = kind_word(spec.kind.value);
  result.acts_in_compression = acts != file::ActsIn::Rebound;
  result.acts_in_rebound = acts != file::ActsIn::Compression;
  if (passage == nullptr) return result;
  result.area = opening_area(*passage);
  if (const auto* needle = std::get_if<flow::Needle>(passage)) {
    result.clicks = static_cast<int>(std::lround(needle->clicks));
    if (spec.clicks_max) result.clicks_max = spec.clicks_max.value;
    for (int clicks = 0; clicks <= spec.clicks_max.value_or(*result.clicks); ++clicks) {
      flow::Needle turned = *needle;
      turned.clicks = clicks;
      result.area_by_click.push_back(flow::needle_opening(turned).area);
    }
    result.full_area_clicks = (flow::needle_full_travel(*needle) - needle->seated_clearance) / needle->pitch;
  }
  return result;
}

}  // namespace

document::ValveResult valve_result(const resolve::ValveParts& parts, const ValveRun& run) {
  document::ValveResult result;
  result.place = parts.place;
  for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
    result.directions.push_back(direction_result(parts, run, stroke));
  }
  for (std::size_t i = 0; i < parts.spec->bleeds.size(); ++i) {
    const flow::Passage* passage = nullptr;
    for (std::size_t k = 0; k < parts.model.bleeds.size() && passage == nullptr; ++k) {
      if (parts.spec_of_bleed[k] == i) passage = &parts.model.bleeds[k].passage;
    }
    result.bleeds.push_back(bleed_result(parts.spec->bleeds[i], passage));
  }
  return result;
}

double pocket_at_speed(const ValveRun& run, Stroke stroke, double speed) {
  const auto state = state_at_speed(run, stroke, speed);
  return state ? std::abs(state->pocket) : 0.0;
}

}  // namespace shimwright::job
