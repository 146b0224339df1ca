#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "judge/findings_rules.h"
#include "judge/pressure_limits.h"

namespace shimwright::judge::internal {
namespace {

document::Value speed(double si) {
  return document::computed(si, units::Kind::Speed);
}
document::Value drop(double si) {
  return document::computed(si, units::Kind::PressureDifference);
}

// cavitation

document::Finding begin_cavitation(const Judging& judging, const JudgedUnit& unit,
                                   const document::CavitationResult& result, const char* code,
                                   Severity severity) {
  const auto& valve = unit.spec.foot_valve ? unit.spec.foot_valve : unit.spec.piston_valve;
  document::Finding finding =
      begin_finding(judging, code, severity, unit, valve ? valve->origin : unit.spec.origin);
  finding.place.stroke = word(result.stroke);
  finding.place.valve =
      word(result.stiffen.value_or(unit.spec.foot_valve ? ValvePlace::Foot : ValvePlace::Piston));
  finding.numbers = {{"margin at the working speed", drop(result.margin_at_working_speed)},
                     {"working speed", speed(result.working_speed)},
                     {"air leaves the oil at", document::computed_absolute(result.release_pressure)},
                     {"pressure drop of the foot valve", drop(result.foot_drop)},
                     {"pressure drop of the piston valve", drop(result.piston_drop)}};
  if (result.speed_lost) finding.numbers.push_back({"margin lost from", speed(*result.speed_lost)});
  if (result.missing_drop > 0.0)
    finding.numbers.push_back({"missing at the foot valve", drop(result.missing_drop)});
  finding.remedy = result.advice;
  finding.cures = result.cures;
  return finding;
}

void chamber_runs_short(const Judging& judging, const JudgedUnit& unit,
                        const document::CavitationResult& result) {
  if (!(result.margin_at_working_speed < 0.0) &&
      !(result.speed_lost && *result.speed_lost < result.working_speed))
    return;
  const char* code = result.stroke == Stroke::Compression ? "F201" : "F202";
  document::Finding finding = begin_cavitation(judging, unit, result, code, Severity::Stop);
  finding.title =
      fmt::format("In the {} air comes out of the oil from {} in {}. Above this speed the damper goes slack.",
                  result.chamber, judging.phrase.speed(result.speed_lost.value_or(result.working_speed)),
                  word(result.stroke));
  judging.findings.push_back(std::move(finding));
}

void margin_is_thin(const Judging& judging, const JudgedUnit& unit,
                    const document::CavitationResult& result) {
  const double margin = result.margin_at_working_speed;
  if (margin < 0.0 || margin >= result.margin_wanted ||
      (result.speed_lost && *result.speed_lost < result.working_speed)) {
    return;
  }
  document::Finding finding = begin_cavitation(judging, unit, result, "F203", Severity::Look);
  finding.title = fmt::format(
      "The pressure is only {} above the pressure at which air leaves the oil, at {} in {}.",
      judging.phrase.drop(margin), judging.phrase.speed(result.working_speed), word(result.stroke));
  judging.findings.push_back(std::move(finding));
}

// flow

double working_speed(const JudgedDirection& direction) {
  if (!direction.valve.unit.force)
    return direction.result.law.empty() ? 0.0 : direction.result.law.back().speed;
  for (const document::CavitationResult& result : direction.valve.unit.force->cavitation) {
    if (result.stroke == direction.result.stroke) return result.working_speed;
  }
  return 0.0;
}

const file::Origin& origin_of(const JudgedDirection& direction) {
  return direction.spec != nullptr ? direction.spec->origin : direction.valve.unit_spec.origin;
}

void port_chokes(const Judging& judging, const JudgedDirection& direction) {
  const auto& choking = direction.result.choking_speed;
  if (direction.result.check || !choking || *choking >= working_speed(direction)) return;
  document::Finding finding = begin_finding(judging, "F204", Severity::Look, direction, origin_of(direction));
  finding.title = fmt::format(
      "From {} the ports restrict the oil more than the stack does: a softer or stiffer stack changes little "
      "there.",
      judging.phrase.speed(*choking));
  finding.numbers = {
      {"ports choke from", speed(*choking)},
      {"working speed", speed(working_speed(direction))},
      {"area of the ports", document::computed(direction.result.port_area, units::Kind::Area)}};
  finding.remedy = "Open the ports, or allow for the force from the ports before you change shims.";
  judging.findings.push_back(std::move(finding));
}

void stack_never_opens(const Judging& judging, const JudgedDirection& direction) {
  if (!direction.result.stack || direction.result.check || direction.result.law.empty()) return;
  const auto& opening = direction.result.opening_speed;
  if (opening && *opening < working_speed(direction)) return;
  document::Finding finding = begin_finding(judging, "F205", Severity::Look, direction, origin_of(direction));
  finding.title = fmt::format("The stack stays shut up to {}: the oil flows only through bleeds.",
                              judging.phrase.speed(working_speed(direction)));
  const std::optional<double> opens_at = direction.result.stack->opening_pressure;
  if (opens_at) finding.numbers.push_back({"opening pressure", drop(*opens_at)});
  finding.numbers.push_back({"bleed", document::computed(direction.result.bleed_area, units::Kind::Area)});
  if (opening) finding.numbers.push_back({"opens at", speed(*opening)});
  finding.remedy =
      opens_at != 0.0  // shut at all that was computed, or from a pressure on
          ? "Reduce the preload of the stack, make the bleed smaller, or leave the stack out: now it "
            "does nothing."
          : "Fit a softer stack, make the bleed smaller, or leave the stack out: now it does nothing.";
  judging.findings.push_back(std::move(finding));
}

const document::LawPoint* law_at_speed(const document::DirectionResult& direction, double asked) {
  for (const document::LawPoint& point : direction.law) {
    if (point.speed >= asked) return &point;
  }
  return nullptr;
}

/// The needle of the valve that acts in a stroke and can be turned in; null without one.
const document::BleedResult* needle_to_close(const JudgedDirection& direction) {
  const bool compression = direction.result.stroke == Stroke::Compression;
  const auto found =
      std::ranges::find_if(direction.valve.result.bleeds, [&](const document::BleedResult& bleed) {
        return bleed.clicks.value_or(0) > 0 &&
               (compression ? bleed.acts_in_compression : bleed.acts_in_rebound);
      });
  return found == direction.valve.result.bleeds.end() ? nullptr : &*found;
}

void bleed_carries_too_much(const Judging& judging, const JudgedDirection& direction) {
  if (!direction.result.stack || direction.result.check || !direction.valve.unit.force) return;
  const auto& keys = direction.valve.unit.force->key_forces;
  if (keys.size() < 2) return;
  const document::LawPoint* point = law_at_speed(direction.result, keys[1].speed);
  if (point == nullptr || point->carrier != document::Carrier::Bleed ||
      point->bleed_flow <= point->stack_flow)
    return;
  const auto& opening = direction.result.opening_speed;
  if (!opening || *opening >= working_speed(direction)) return;  // F205 says more
  document::Finding finding = begin_finding(judging, "F206", Severity::Look, direction, origin_of(direction));
  const double share = point->bleed_flow / std::max(point->flow, 1e-30);
  finding.title = fmt::format("At {} the bleed passes {:.0f} % of the flow: the stack has little effect.",
                              judging.phrase.speed(keys[1].speed), 100.0 * share);
  finding.numbers = {{"through the bleed", document::computed(share, units::Kind::Fraction)},
                     {"bleed", document::computed(direction.result.bleed_area, units::Kind::Area)},
                     {"stack opens at", speed(*opening)}};
  const document::BleedResult* needle = needle_to_close(direction);
  finding.remedy =
      fmt::format("{} a smaller bleed: then the stack shapes the curve.",
                  needle != nullptr ? fmt::format("Turn the {} in, or fit", needle->name) : "Fit");
  judging.findings.push_back(std::move(finding));
}

const file::BleedSpec* find_bleed(const JudgedValve& valve, const std::string& name) {
  if (valve.spec == nullptr) return nullptr;
  const auto found = std::ranges::find_if(
      valve.spec->bleeds, [&](const file::BleedSpec& bleed) { return bleed.name.value == name; });
  return found == valve.spec->bleeds.end() ? nullptr : &*found;
}

void needle_beyond_range(const Judging& judging, const JudgedValve& valve) {
  for (const document::BleedResult& bleed : valve.result.bleeds) {
    if (!bleed.clicks || !bleed.full_area_clicks) continue;
    const bool past_end = bleed.clicks_max && *bleed.clicks > *bleed.clicks_max;
    const bool past_bore = *bleed.clicks > *bleed.full_area_clicks;
    if (!past_end && !past_bore) continue;
    const file::BleedSpec* spec = find_bleed(valve, bleed.name);
    document::Finding finding = begin_finding(judging, "F207", Severity::Look, valve,
                                              spec != nullptr ? spec->clicks.origin : file::Origin{});
    finding.numbers = {
        {"set", document::counted_value(*bleed.clicks, "clicks")},
        {"only the bore counts from", document::counted_value(*bleed.full_area_clicks, "clicks")}};
    if (bleed.clicks_max)
      finding.numbers.push_back({"last click", document::counted_value(*bleed.clicks_max, "clicks")});
    if (past_end) {
      finding.title = fmt::format("The {} is set {} clicks out, but has only {}.", bleed.name, *bleed.clicks,
                                  *bleed.clicks_max);
      finding.remedy = fmt::format("Set it to {} or less.", *bleed.clicks_max);
      finding.in_file = "Correct `clicks` or `clicks_max`.";
    } else {
      finding.title =
          fmt::format("The {} is {} clicks out. From {:.0f} clicks on only its bore restricts the oil.",
                      bleed.name, *bleed.clicks, *bleed.full_area_clicks);
      finding.remedy = "Turn it in until a click changes something, or fit a larger bore.";
    }
    judging.findings.push_back(std::move(finding));
  }
}

void beyond_what_was_solved(const Judging& judging, const JudgedDirection& direction) {
  for (const document::LawPoint& point : direction.result.law) {
    if (!point.beyond_table || point.speed > working_speed(direction)) continue;
    document::Finding finding =
        begin_finding(judging, "F209", Severity::Look, direction, origin_of(direction));
    finding.title = fmt::format(
        "From {} on the curve is extended beyond the solved range: the valve would need a pressure drop "
        "above {}.",
        judging.phrase.speed(point.speed), judging.phrase.drop(point.drop));
    finding.numbers = {{"from", speed(point.speed)}, {"drop there", drop(point.drop)}};
    finding.remedy = "Check ports and bleeds for a typing mistake: no damper works at such a pressure drop.";
    judging.findings.push_back(std::move(finding));
    return;
  }
}

// gas and air

struct JudgedPressure {
  PressureLimits limits;
  const char* what;
  const char* usual;
};

void pressure_too_high(const Judging& judging, const JudgedUnit& unit, double gauge,
                       const JudgedPressure& judged, const file::Origin& origin) {
  const PressureLimits& limits = judged.limits;
  if (gauge <= limits.look) return;
  document::Finding finding =
      begin_finding(judging, "F208", gauge > limits.stop ? Severity::Stop : Severity::Look, unit, origin);
  finding.title = fmt::format("{} is set to {}; {}.", judged.what, judging.phrase.gauge(gauge), judged.usual);
  finding.numbers = {
      {"set", document::Value{gauge, units::Kind::Pressure, units::Reference::Gauge, {}, {}}},
      {"usual up to", document::Value{limits.look, units::Kind::Pressure, units::Reference::Gauge, {}, {}}}};
  finding.remedy =
      "Check the unit (bar, psi, MPa) and the maker's limit before you add gas: a body that bursts can kill.";
  judging.findings.push_back(std::move(finding));
}

double gauge_of(const file::Quantity& written, double ambient) {
  return written.si - (written.reference == units::Reference::Absolute ? ambient : 0.0);
}

}  // namespace

void judge_cavitation(const Judging& judging) {
  for_each_unit(judging, [&](const JudgedUnit& unit) {
    if (!unit.result.force) return;
    for (const document::CavitationResult& result : unit.result.force->cavitation) {
      chamber_runs_short(judging, unit, result);
      margin_is_thin(judging, unit, result);
    }
  });
}

void judge_flow(const Judging& judging) {
  for_each_direction(judging, [&](const JudgedDirection& direction) {
    port_chokes(judging, direction);
    stack_never_opens(judging, direction);
    bleed_carries_too_much(judging, direction);
    beyond_what_was_solved(judging, direction);
  });
  for_each_valve(judging, [&](const JudgedValve& valve) { needle_beyond_range(judging, valve); });
}

void judge_pressures(const Judging& judging) {
  const double ambient = judging.document.conditions.ambient_pressure;
  for_each_unit(judging, [&](const JudgedUnit& unit) {
    if (unit.spec.reservoir && unit.spec.reservoir->pressure) {
      pressure_too_high(
          judging, unit, gauge_of(unit.spec.reservoir->pressure, ambient),
          {kReservoirPressure, "The reservoir", "7 to 14 bar(g) is usual, more than 20 bar(g) is not"},
          unit.spec.reservoir->pressure.origin);
    }
    if (!unit.spec.air_spring) return;
    for (const auto& chamber : {unit.spec.air_spring->positive, unit.spec.air_spring->negative}) {
      if (!chamber || !chamber->pressure) continue;
      pressure_too_high(
          judging, unit, gauge_of(chamber->pressure, ambient),
          {kAirSpringPressure, "The air spring", "4 to 12 bar(g) is usual, more than 15 bar(g) is not"},
          chamber->pressure.origin);
    }
  });
}

}  // namespace shimwright::judge::internal
