#include "job/cavitation_advice.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "job/run_header.h"
#include "judge/pressure_limits.h"
#include "resolve/resolve_reservoir.h"

namespace shimwright::job {
namespace {

/// Part of the drop that a softer stack can take away at the best: ports and the least lift keep the rest.
constexpr double kLeastPistonDrop = 10e3;  // [Pa]

struct Advice {
  const resolve::DamperParts& parts;
  const ForceRun& run;
  const damper::CavitationReport& report;
  const document::Phrase& phrase;
  document::CavitationResult& result;
  std::vector<std::string> ways;  // each a clause that could begin a sentence: "raise the reservoir to ..."

  const damper::Chambers& chambers() const { return parts.model.chambers; }

  damper::CavitationReport report_with(const damper::DamperLaws& laws, double more_pressure) const {
    damper::Chambers chambers = resolve::chambers_in(parts, report.stroke);
    chambers.reservoir_pressure += more_pressure;
    return damper::cavitation(chambers, laws, report.stroke, report.speed_max, report.margin_wanted);
  }
  static bool holds(const damper::CavitationReport& found) {
    return found.margin >= found.margin_wanted && std::isinf(found.onset_speed);
  }

  /// Pressure that is missing in the reservoir, so that the margin holds at every speed up to the working
  /// one.
  double missing_pressure() const {
    double more = std::max(0.0, report.margin_wanted - report.margin);
    // it may be lost at a lower speed and come back
    constexpr double kStep = 0.1e5;  // [Pa]
    while (more <= judge::kReservoirPressure.look &&
           std::isfinite(report_with(run.solved->laws, more).onset_speed))
      more += kStep;
    return more;
  }

  /// Whether a stack of the unit has to bear more than it should once this is done: it then works at a drop
  /// that it was spared while the oil tore.
  bool harms_a_stack(double more_pressure, const damper::DamperLaws& laws) const {
    if (!run.harms_a_stack) return false;
    resolve::DamperParts changed = parts;
    changed.model.chambers.reservoir_pressure += more_pressure;
    return run.harms_a_stack(changed, laws);
  }

  /// The cure of one key, with the margin that it leads to.
  void add_cure(document::KeyChange change, double margin) {
    document::Cure cure{run.unit->name.value, {std::move(change)}, {}};
    cure.effects.push_back({.goal = document::CureGoal::CavitationMargin,
                            .stroke = report.stroke,
                            .speed = report.speed_max,
                            .before = document::computed(report.margin, units::Kind::PressureDifference),
                            .after = document::computed(margin, units::Kind::PressureDifference)});
    result.cures.push_back(std::move(cure));
  }
};

// ---- pressure

/// Rounded away from what is too little, to what a gauge or a scale shows.
double rounded_up(double value, double step) {
  return step * std::ceil(value / step - 1e-9);
}

/// What stands in the reservoir at work, with the rod at a travel, when it is set so [Pa abs].
double at_work(const Advice& advice, const resolve::ReservoirModel& set, double travel) {
  return resolve::reservoir_at(set, advice.parts.oil, travel, advice.parts.temperature).pressure;
}

/// Pressure to set at the bench for the margin that is wanted [Pa abs].
double pressure_to_set(const Advice& advice) {
  const double wanted = advice.chambers().reservoir_pressure + advice.missing_pressure();
  return resolve::set_pressure_for(advice.parts.reservoir, advice.parts.oil, wanted,
                                   advice.parts.temperature);
}

/// The margin with another setting.
double margin_with(const Advice& advice, const resolve::ReservoirModel& set) {
  return advice.report.margin + at_work(advice, set, 0.0) - advice.chambers().reservoir_pressure;
}

bool setting_harms(const Advice& advice, const resolve::ReservoirModel& set) {
  return advice.harms_a_stack(at_work(advice, set, 0.0) - advice.chambers().reservoir_pressure,
                              advice.run.solved->laws);
}

/// Gas or air: the gauge is set higher.
void raise_gas(Advice& advice, const file::ReservoirSpec& spec) {
  const double ambient = advice.chambers().atmospheric_pressure;
  resolve::ReservoirModel set = advice.parts.reservoir;
  const double gauge = set.reservoir.gas_pressure - ambient;
  constexpr double kStep = 0.1e5;  // a pump's gauge [Pa]
  const double to = rounded_up(pressure_to_set(advice) - ambient, kStep);
  set.reservoir.gas_pressure = to + ambient;
  if (to > judge::kReservoirPressure.look || to <= gauge) return;
  if (at_work(advice, set, set.travel) - ambient > judge::kReservoirAtRest.look) return;
  if (setting_harms(advice, set)) return;
  const document::Value from{gauge, units::Kind::Pressure, units::Reference::Gauge, {}, {}};
  const document::Value after{to, units::Kind::Pressure, units::Reference::Gauge, {}, {}};
  advice.add_cure({spec.origin.path + ".pressure", "", from, after}, margin_with(advice, set));
  advice.ways.push_back(fmt::format("raise the reservoir from {} to {} with the rod fully out and cold",
                                    advice.phrase.gauge(gauge), advice.phrase.gauge(to)));
}

/// A sprung piston: its spring pushes harder.
void stiffen_spring(Advice& advice, const file::ReservoirSpec& spec) {
  resolve::ReservoirModel set = advice.parts.reservoir;
  const double area = set.reservoir.piston_area;
  const double ambient = set.reservoir.outside_pressure;
  constexpr double kStep = 5.0;  // no spring is known closer [N]
  const double now = set.reservoir.spring_force;
  const double to = rounded_up((pressure_to_set(advice) - ambient) * area, kStep);
  set.reservoir.spring_force = to;
  if (to > judge::kMostSprungPressure * area || to <= now || setting_harms(advice, set)) return;
  advice.add_cure({spec.spring_force.origin.path, "", typed_value(spec.spring_force),
                   document::computed(to, units::Kind::Force)},
                  margin_with(advice, set));
  advice.ways.push_back(
      fmt::format("give the spring of the free piston {} instead of {} with the rod fully out",
                  advice.phrase.force(to), advice.phrase.force(now)));
}

void raise_pressure(Advice& advice) {
  const auto& reservoir = advice.run.unit->reservoir;
  if (!reservoir || !reservoir->kind) return;  // an open bath stands under the air of its leg
  if (reservoir->kind.value == file::ReservoirKind::SprungPiston)
    stiffen_spring(advice, *reservoir);
  else
    raise_gas(advice, *reservoir);
}

// ---- clicks

/// The fewest clicks of a needle of this stroke that bring the margin back.
void turn_needle(Advice& advice, const resolve::AdjusterModel& adjuster) {
  for (const int step : {-1, 1}) {
    for (int clicks = adjuster.clicks + step; clicks >= 0 && clicks <= most_clicks(adjuster);
         clicks += step) {
      const damper::DamperLaws laws = laws_at_clicks(advice.parts, *advice.run.solved, adjuster, clicks);
      const damper::CavitationReport turned = advice.report_with(laws, 0.0);
      if (turned.margin < advice.report.margin) break;  // the wrong way
      if (!advice.holds(turned)) continue;
      if (advice.harms_a_stack(0.0, laws)) break;
      advice.add_cure(
          {adjuster.origin.path, adjuster.name, document::counted_value(adjuster.clicks, "clicks"),
           document::counted_value(clicks, "clicks")},
          turned.margin);
      advice.ways.push_back(
          fmt::format("turn the {} {} {} (to {})", adjuster.name,
                      document::counted(std::abs(clicks - adjuster.clicks), "click", "clicks"),
                      step < 0 ? "in" : "out", clicks));
      return;
    }
  }
}

void turn_needles(Advice& advice) {
  for (const resolve::AdjusterModel& adjuster : advice.parts.adjusters)
    if (adjuster.stroke == advice.report.stroke) turn_needle(advice, adjuster);
}

// ---- valving, in words

bool has_stack(const std::optional<resolve::ValveParts>& valve, Stroke stroke) {
  if (!valve) return false;
  return (stroke == Stroke::Compression ? valve->model.compression : valve->model.rebound).stack.has_value();
}

void change_valving(Advice& advice) {
  const damper::CavitationReport& report = advice.report;
  const std::string speed = advice.phrase.speed(report.speed_max);
  if (report.stroke == Stroke::Rebound) {
    if (advice.parts.foot && report.needed_foot_drop > 0.0)
      advice.ways.push_back(fmt::format(
          "open the refill side of the foot valve, so that its pressure drop falls from {} to {} at {}",
          advice.phrase.drop(report.foot_drop), advice.phrase.drop(report.needed_foot_drop), speed));
    return;
  }
  if (has_stack(advice.parts.foot, Stroke::Compression))
    advice.ways.push_back(fmt::format(
        "make the compression stack of the foot valve stiffer, so that its pressure drop rises from {} to {} "
        "at {}",
        advice.phrase.drop(report.foot_drop), advice.phrase.drop(report.needed_foot_drop), speed));
  if (advice.parts.piston.model.compression.stack && report.allowed_piston_drop > kLeastPistonDrop)
    advice.ways.push_back(fmt::format(
        "make the {} softer, so that its pressure drop falls from {} to {} at {}",
        // beside a foot valve the trade calls it so; alone it is the whole compression side
        advice.parts.foot ? "mid-valve" : "compression stack of the piston valve",
        advice.phrase.drop(report.piston_drop), advice.phrase.drop(report.allowed_piston_drop), speed));
}

}  // namespace

void add_cavitation_advice(const resolve::DamperParts& parts, const ForceRun& run,
                           const damper::CavitationReport& report, const document::Phrase& phrase,
                           document::CavitationResult& result) {
  if (report.cure == damper::CavitationCure::None || run.unit == nullptr) return;
  Advice advice{parts, run, report, phrase, result, {}};
  change_valving(advice);
  turn_needles(advice);
  raise_pressure(advice);
  for (std::size_t i = 0; i < advice.ways.size(); ++i)
    result.advice += i == 0 ? document::sentence_case(advice.ways[i]) + "." : " Or " + advice.ways[i] + ".";
  if (result.advice.empty())
    result.advice =
        "Open the ports and bleeds on the way into this chamber: what pressure and clickers can do is not "
        "enough, or too much for a stack.";
}

}  // namespace shimwright::job
