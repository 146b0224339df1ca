#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "file/schema.h"
#include "job/adjuster_choice.h"
#include "job/run_force.h"
#include "job/run_header.h"
#include "job/settings_steps.h"
#include "num/root.h"
#include "spring/atmosphere.h"
#include "spring/spring_change.h"

namespace shimwright::job::internal {
namespace {

constexpr double kTemperatureStep = 10.0;                   // [K]
constexpr double kAltitudeStep = 1000.0;                    // [m]
constexpr double kRiderSteps[] = {-10.0, -5.0, 5.0, 10.0};  // [kg]

// oil

damper::DamperLaws laws_at(const resolve::DamperParts& parts, const damper::SolvedDamper& solved,
                           double temperature) {
  return damper::damper_laws(parts.model, solved.stacks, oil::liquid_at(parts.oil, temperature));
}

std::string turn_words(const std::string& adjuster, int change) {
  return fmt::format("turn the {} {} {}", adjuster, document::counted(std::abs(change), "click", "clicks"),
                     change < 0 ? "in" : "out");
}

/// One adjuster for each stroke that has one, those that act in both strokes first: what they do to the other
/// stroke is then there when its own is turned.
std::vector<const resolve::AdjusterModel*> one_for_each_stroke(const GuideDraft& draft) {
  const resolve::DamperParts& parts = *draft.models.damper;
  std::vector<const resolve::AdjusterModel*> chosen;
  for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
    const auto* adjuster = adjuster_for(stroke, parts, *draft.models.solved, draft.speeds());
    if (adjuster != nullptr) chosen.push_back(adjuster);
  }
  const auto acts_in_both = [&](const resolve::AdjusterModel* one) {
    return std::ranges::count(parts.adjusters, one->adjuster, &resolve::AdjusterModel::adjuster) > 1;
  };
  if (chosen.size() == 2 && chosen[0]->adjuster == chosen[1]->adjuster) chosen.pop_back();
  std::ranges::stable_partition(chosen, acts_in_both);
  return chosen;
}

void add_oil_at(GuideDraft& draft, double step) {
  const resolve::DamperParts& parts = *draft.models.damper;
  const document::Phrase& phrase = draft.run.phrase;
  const double temperature = parts.temperature + step;
  const oil::Liquid liquid = oil::liquid_at(parts.oil, temperature);
  const damper::DamperLaws& laws_now = draft.models.solved->laws;
  const damper::DamperLaws laws = laws_at(parts, *draft.models.solved, temperature);
  const double speed = draft.speeds()[0];

  document::OtherCondition other;
  other.condition = fmt::format("oil {} {}", phrase(std::abs(step), units::Kind::TemperatureDifference),
                                step < 0.0 ? "colder" : "warmer");
  other.when = {"conditions.oil_temperature", "",
                document::computed(parts.temperature, units::Kind::Temperature),
                document::computed(temperature, units::Kind::Temperature)};
  std::string changes;
  for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
    const double before = damping_force(parts, laws_now, stroke, speed);
    const double after = damping_force(parts, laws, stroke, speed);
    changes += fmt::format("{}{} {}", changes.empty() ? "" : ", ", word(stroke),
                           phrase.force_change(after - before));
    other.numbers.push_back({word(stroke) + " force before", document::computed(before, units::Kind::Force)});
    other.numbers.push_back({word(stroke) + " force after", document::computed(after, units::Kind::Force)});
  }
  other.effect = fmt::format("At {}: {}.", phrase.speed(speed), changes);

  // each is turned with those before it turned; what a rider does not feel is left alone
  resolve::DamperParts turned = parts;
  std::string actions;
  std::vector<const resolve::AdjusterModel*> moved;
  for (const resolve::AdjusterModel* adjuster : one_for_each_stroke(draft)) {
    const double before = damping_force(parts, laws_now, adjuster->stroke, speed);
    const double after = damping_force(parts, laws, adjuster->stroke, speed);
    const bool felt = std::abs(after - before) >= kFeltShare * before;
    const int change = felt ? restoring_clicks(turned, *draft.models.solved, *adjuster, liquid, speed) : 0;
    other.numbers.push_back({adjuster->name, document::counted_value(change, "clicks")});
    if (change == 0) continue;
    damper::set_clicks(turned.model, adjuster->adjuster, adjuster->clicks + change);
    moved.push_back(adjuster);
    actions += (actions.empty() ? "" : "; ") + turn_words(adjuster->name, change);
    if (!other.cure) other.cure = document::Cure{draft.unit.name, {}, {}};
    other.cure->changes.push_back({adjuster->origin.path, adjuster->name,
                                   document::counted_value(adjuster->clicks, "clicks"),
                                   document::counted_value(adjuster->clicks + change, "clicks")});
  }
  const damper::DamperLaws laws_turned =
      damper::damper_laws(turned.model, draft.models.solved->stacks, liquid);
  for (const resolve::AdjusterModel* adjuster : moved)
    other.cure->effects.push_back(
        {.goal = document::CureGoal::Force,
         .stroke = adjuster->stroke,
         .speed = speed,
         .before =
             document::computed(damping_force(parts, laws, adjuster->stroke, speed), units::Kind::Force),
         .after = document::computed(damping_force(parts, laws_turned, adjuster->stroke, speed),
                                     units::Kind::Force)});
  if (parts.adjusters.empty())
    other.action = "No clicker: change nothing.";
  else
    other.action = actions.empty() ? "Leave the clickers." : document::sentence_case(actions) + ".";
  draft.guide.other.push_back(std::move(other));
}

// air

const spring::AirSpring& air_of(const resolve::SpringModel& springs) {
  return std::get<spring::AirSpring>(springs.unit.elements[*springs.air_element].law);
}

double sag_travel(const GuideDraft& draft) {
  if (draft.unit.springs) {
    for (const document::SagResult& sag : draft.unit.springs->sag) {
      if (sag.under == document::SagLoad::Rider) return sag.travel;
    }
  }
  return draft.models.springs->unit.travel / 3.0;
}

void add_air_at(GuideDraft& draft, std::string condition, const spring::SpringChange& change) {
  const resolve::SpringModel& springs = *draft.models.springs;
  const document::Phrase& phrase = draft.run.phrase;
  const double travel = sag_travel(draft);
  const double force = spring::force_change(change, springs.unit, springs.conditions, travel);

  // pressure that brings the force at sag back, by the slope of force over pressure
  constexpr double kProbe = 1e3;
  const spring::Conditions there = spring::changed(springs.conditions, change);
  const double slope = spring::force_change({.element = *springs.air_element, .pressure = kProbe},
                                            springs.unit, there, travel) /
                       kProbe;
  const double pressure = -force / slope;
  const double reading = spring::gauge_reading(air_of(springs), there);
  const double scale = there.temperature / air_of(springs).positive.sealed_temperature;

  document::OtherCondition other;
  other.condition = std::move(condition);
  // equal chambers on both sides of one piston feel nothing of the air outside
  constexpr double kFelt = 0.5;
  if (std::abs(force) < kFelt) {
    other.effect = fmt::format("The gauge reads {}; the force at sag stays the same.", phrase.gauge(reading));
    other.action = "Change nothing.";
  } else {
    other.effect = fmt::format("The gauge reads {}; the force at sag changes by {}.", phrase.gauge(reading),
                               phrase.force_change(force));
    other.action = fmt::format("Then set the positive chamber to {}: the force at sag is the same as before.",
                               phrase.gauge(reading + pressure * scale));
  }
  other.numbers = {
      {"force at sag", document::computed(force, units::Kind::Force)},
      {"pressure change", document::computed(pressure * scale, units::Kind::PressureDifference)},
      {"gauge before setting",
       document::Value{reading, units::Kind::Pressure, units::Reference::Gauge, {}, {}}},
      {"gauge to set",
       document::Value{reading + pressure * scale, units::Kind::Pressure, units::Reference::Gauge, {}, {}}}};
  draft.guide.other.push_back(std::move(other));
}

// rider

void add_rider_at(GuideDraft& draft, const EndModel& end, const ride::Sag& now, double step) {
  const document::Phrase& phrase = draft.run.phrase;
  const double share = end.mass.rider / draft.job.rider->mass.si;
  const double mass = end.mass.machine + end.mass.rider + share * step;
  const ride::Sag sag = ride::sag_under(mass, end.wheel, end.conditions);

  document::OtherCondition other;
  other.condition = fmt::format("rider {} {}", phrase(std::abs(step), units::Kind::Mass),
                                step < 0.0 ? "lighter" : "heavier");
  other.effect = fmt::format("Rider sag goes from {} to {}.", phrase.length(now.wheel_travel),
                             phrase.length(sag.wheel_travel));
  other.numbers = {{"sag before", document::computed(now.wheel_travel, units::Kind::Length)},
                   {"sag after", document::computed(sag.wheel_travel, units::Kind::Length)}};
  const bool air = draft.models.springs->air_element.has_value();
  const std::optional<double> change =
      change_for(end, air ? SagKnob::Pressure : SagKnob::Preload, mass, now.wheel_travel);
  const auto kind = air ? units::Kind::PressureDifference : units::Kind::Length;
  auto changes = change ? knob_changes(draft.job, end, air ? SagKnob::Pressure : SagKnob::Preload, *change)
                        : std::optional<std::vector<document::KeyChange>>{};
  if (changes) {
    other.action = fmt::format("{} by {}: then the sag is the same as before.",
                               air ? "Change the positive pressure" : "Change the preload",
                               phrase.change(*change, kind));
    other.numbers.push_back({air ? "pressure change" : "preload change", document::computed(*change, kind)});
    other.when = {"rider.mass", "", typed_value(draft.job.rider->mass),
                  document::computed(draft.job.rider->mass.si + step, units::Kind::Mass)};
    document::CureEffect effect{.goal = document::CureGoal::Sag, .under = document::SagLoad::Rider};
    effect.before = document::computed(sag.wheel_travel, units::Kind::Length);
    effect.after = document::computed(now.wheel_travel, units::Kind::Length);
    other.cure = document::Cure{draft.unit.name, std::move(*changes), {std::move(effect)}};
  } else {
    other.action = air ? "No possible pressure brings the sag back."
                       : "No possible preload brings the sag back: fit another spring.";
  }
  draft.guide.other.push_back(std::move(other));
}

}  // namespace

void add_oil_temperature(GuideDraft& draft) {
  for (const double step : {-kTemperatureStep, kTemperatureStep}) add_oil_at(draft, step);
}

void add_air_conditions(GuideDraft& draft) {
  if (!draft.models.springs || !draft.models.springs->air_element) return;
  const document::Phrase& phrase = draft.run.phrase;
  for (const double step : {-kTemperatureStep, kTemperatureStep}) {
    add_air_at(draft,
               fmt::format("air {} {}", phrase(std::abs(step), units::Kind::TemperatureDifference),
                           step < 0.0 ? "colder" : "warmer"),
               {.temperature = step});
  }
  const double there = spring::ambient_pressure(draft.run.conditions.altitude + kAltitudeStep);
  add_air_at(draft, fmt::format("{} higher", phrase.altitude(kAltitudeStep)),
             {.ambient_pressure = there - draft.run.conditions.ambient_pressure});
}

void add_rider_weights(GuideDraft& draft) {
  if (draft.run.end == nullptr || !draft.run.end->rider_known || !draft.models.springs) return;
  const EndModel& end = *draft.run.end;
  const ride::Sag now = ride::sag_under(end.mass.machine + end.mass.rider, end.wheel, end.conditions);
  const file::Bounds& rider = file::key_at(file::job_schema(), "rider.mass")->bounds;
  for (const double step : kRiderSteps) {
    const double mass = draft.job.rider->mass.si + step;
    if (mass >= rider.low && mass <= rider.high) add_rider_at(draft, end, now, step);
  }
}

}  // namespace shimwright::job::internal
