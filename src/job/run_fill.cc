#include "job/run_header.h"
#include "job/run_post.h"
#include "job/run_release.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <numbers>

namespace shimwright::job {
namespace {

constexpr double kHalfInch =
    12.7e-3;  // the stop short that the trade's rule speaks of (common practice, no source)

std::string cause_words(assembly::Cause cause) {
  switch (cause) {
    case assembly::Cause::AirInCartridge:
      return "air left in the cartridge";
    case assembly::Cause::MissingOil:
      return "too little oil";
    case assembly::Cause::LeakingSeal:
      return "a leaking seal";
    case assembly::Cause::TooMuchOil:
      return "too much oil";
    case assembly::Cause::ReturnForceLost:
      return "nothing pushes the rod out";
    case assembly::Cause::TightGuide:
      break;
  }
  return "the rod is tight";
}

/// The symptom itself, where it is the only one.
bool is_symptom(assembly::Fact fact) {
  return fact == assembly::Fact::StopsShort || fact == assembly::Fact::DoesNotComeOut ||
         fact == assembly::Fact::BubblesGoOn;
}

/// What speaks for a cause. A single symptom is not said again: the causes are listed under it.
std::string evidence_words(const std::vector<assembly::Evidence>& evidence, bool single_symptom,
                           const document::Phrase& phrase) {
  std::string all;
  for (const assembly::Evidence& item : evidence) {
    if (single_symptom && is_symptom(item.fact)) continue;
    if (!all.empty()) all += "; ";
    if (item.weight < 0) all += "against it: ";
    if (item.fact == assembly::Fact::StopsShort) {
      all += fmt::format("the rod stops {} short", phrase.length(item.found));
    } else {
      all += words(item.fact);
    }
  }
  return all.empty() ? "only this symptom" : all;
}

document::Symptom symptom_of(const std::vector<std::string>& seen, bool observed,
                             const assembly::Diagnosis& diagnosis, const document::Phrase& phrase) {
  document::Symptom symptom;
  symptom.seen = seen.empty() ? "the rod comes out fully, without noise, and dry"
                              : fmt::format("{}", fmt::join(seen, ", "));
  symptom.observed = observed;
  for (const assembly::LikelyCause& cause : diagnosis.causes) {
    document::LikelyCause& row = symptom.causes.emplace_back();
    row.cause = cause_words(cause.cause);
    row.evidence = evidence_words(cause.evidence, seen.size() == 1, phrase);
    row.remedy = cause.remedy;
    if (cause.volume > 0.0) row.volume = cause.volume;
  }
  return symptom;
}

/// The symptoms, one clause each.
std::vector<std::string> symptoms_in(const assembly::Observation& seen, const document::Phrase& phrase) {
  std::vector<std::string> all;
  const auto add = [&](std::string clause) { all.push_back(std::move(clause)); };
  if (seen.comes_out == assembly::ComesOut::StopsShort) {
    add(fmt::format("the rod stops {} short", phrase.length(seen.short_by)));
  }
  if (seen.comes_out == assembly::ComesOut::NotAtAll) add("the rod does not come out");
  if (seen.bubbles == assembly::Bubbles::Continue) add("the bubbles do not stop");
  if (seen.purged) add(fmt::format("the last stroke pushes out {}", phrase.volume(*seen.purged)));
  if (seen.drag == assembly::Drag::Tight) add("the rod is tight");
  if (seen.drag == assembly::Drag::Notchy) add("the rod is tight in places");
  if (seen.oil_outside) add("there is oil outside");
  return all;
}

double oil_taken(const resolve::FillModel& model) {
  if (model.cartridge) return assembly::oil_volume(*model.cartridge);
  return model.spec->cartridge.value_or(0.0);
}

void add_symptoms(const resolve::FillModel& model, const damper::MotionModel* at_rest,
                  const assembly::BleedPlan& plan, const document::Phrase& phrase,
                  document::FillResult& result) {
  const double oil = oil_taken(model);
  if (!(oil > 0.0)) return;
  assembly::TriedCartridge cartridge{model.rod_diameter, model.stroke, oil, model.return_force,
                                     model.seal_drag};
  if (result.stop) cartridge.well_bled_stop = result.stop->well_bled;
  const auto add = [&](const assembly::Observation& seen, bool observed) {
    cartridge.air_behind_stop.reset();
    if (at_rest != nullptr && seen.comes_out == assembly::ComesOut::StopsShort)
      cartridge.air_behind_stop = air_behind_stop(*at_rest, seen.short_by);
    const assembly::Diagnosis diagnosis = assembly::diagnose_acceptance(seen, cartridge);
    if (observed) result.accepted = diagnosis.accepted;
    result.symptoms.push_back(symptom_of(symptoms_in(seen, phrase), observed, diagnosis, phrase));
  };
  if (model.observation) add(*model.observation, true);

  assembly::Observation seen;
  seen.comes_out = assembly::ComesOut::StopsShort;
  seen.short_by =
      std::min(cartridge.well_bled_stop + kHalfInch, 0.5 * (cartridge.well_bled_stop + model.stroke));
  add(seen, false);
  seen = {};
  seen.comes_out = assembly::ComesOut::NotAtAll;
  add(seen, false);
  seen = {};
  seen.bubbles = assembly::Bubbles::Continue;
  seen.bled_for = plan.seconds_high;
  add(seen, false);
  seen = {};
  if (model.has_purge_port) {
    seen.purged = 4.0 * plan.purge_accepted;
    add(seen, false);
  }
  seen = {};
  seen.drag = assembly::Drag::Notchy;
  add(seen, false);
}

double growth_of(const resolve::FillModel& model, double volume) {
  if (!(volume > 0.0) || !(model.fill_density > 0.0)) return 0.0;
  assembly::Warming warming;
  warming.oil_volume = volume;
  warming.fill_density = model.fill_density;
  warming.work_density = model.work_density;
  warming.body_expansion = model.body_expansion;
  warming.rise = model.working_temperature - model.fill_temperature;
  return assembly::oil_growth(warming);
}

/// `apart`: what of it is poured elsewhere.
document::FillChamber chamber_of(const resolve::FillModel& model, document::FillRoom room,
                                 const file::Quantity& stated, std::optional<double> volume,
                                 double apart = 0.0) {
  document::FillChamber chamber;
  chamber.room = room;
  if (stated) chamber.stated = typed_value(stated);
  chamber.volume = volume;
  chamber.pour = std::max(0.0, (stated ? stated.si : volume.value_or(0.0)) - apart);
  // a room that is known is filled, whatever was stated
  chamber.growth = growth_of(model, std::max(0.0, volume.value_or(stated.value_or(0.0)) - apart));
  return chamber;
}

}  // namespace

document::ReservoirResult reservoir_result(const resolve::ReservoirModel& model, const oil::OilModel& oil,
                                           const resolve::Conditions& conditions) {
  document::ReservoirResult result;
  result.oil_volume = model.oil_volume;
  result.oil_assumed = model.oil_assumed;
  result.gas_assumed = model.gas_assumed;
  result.rod_volume = model.reservoir.rod_area * model.travel;
  result.growth = resolve::growth_at(model, oil, conditions.oil_temperature);
  for (const double temperature : {conditions.fill_temperature, conditions.oil_temperature}) {
    for (const bool fully_in : {false, true}) {
      const assembly::ReservoirState state =
          resolve::reservoir_at(model, oil, fully_in ? model.travel : 0.0, temperature);
      document::ReservoirState& told = result.states.emplace_back();
      told.rod_at = fully_in ? document::RodAt::FullyIn : document::RodAt::FullyOut;
      told.temperature = temperature;
      told.pressure = state.pressure;
      if (model.reservoir.gas_volume > 0.0) told.gas_volume = state.gas_volume;
      told.rod_force = (state.pressure - conditions.ambient_pressure) * model.reservoir.rod_area;
      told.room_left = state.room_left;
      told.locked = state.locked;
    }
  }
  result.room_known =
      model.reservoir.gas_volume > 0.0 || model.reservoir.capacity < assembly::Reservoir::kUnlimitedCapacity;
  return result;
}

document::FillResult fill_result(const resolve::FillModel& model, const damper::MotionModel* at_rest,
                                 const file::HandTestSpec* hand_test, const document::Phrase& phrase) {
  const file::FillSpec& spec = *model.spec;
  document::FillResult result;
  result.rod_at =
      spec.rod_at.value_or(file::RodAt::FullyOut) == file::RodAt::FullyOut ? "fully out" : "fully in";
  result.fill_temperature = model.fill_temperature;
  result.working_temperature = model.working_temperature;
  result.rod_area = 0.25 * std::numbers::pi * model.rod_diameter * model.rod_diameter;
  if (at_rest != nullptr) result.stop = stop_reading(*at_rest, hand_test);

  const assembly::BleedPlan plan = assembly::bleed_plan(model.rod_diameter, model.stroke);
  result.bleed_stroke_low = plan.stroke_low;
  result.bleed_stroke_high = plan.stroke_high;
  result.bleed_time_low = plan.seconds_low;
  result.bleed_time_high = plan.seconds_high;
  result.purge_accepted = plan.purge_accepted;

  if (spec.cartridge || model.cartridge) {
    std::optional<double> volume;
    if (model.cartridge) volume = assembly::oil_volume(*model.cartridge);
    document::FillChamber chamber = chamber_of(model, document::FillRoom::Cartridge, spec.cartridge, volume,
                                               spec.reservoir.value_or(0.0));
    // a closed unit is topped up until it is full: what the job says it takes changes nothing of that
    if (model.has_purge_port && model.reservoir) {
      chamber.purge = assembly::expected_purge({.rod_diameter = model.rod_diameter,
                                                .stroke = model.stroke,
                                                .capacity = model.reservoir->reservoir.capacity})
                          .first_stroke;
    }
    result.chambers.push_back(std::move(chamber));
  }
  if (spec.outer || model.tube) {
    std::optional<double> volume;
    if (model.tube && model.level) volume = assembly::oil_at_air_gap(*model.tube, *model.level);
    result.chambers.push_back(chamber_of(model, document::FillRoom::Outer, spec.outer, volume));
  }
  result.level = model.level;
  result.purge_port = model.has_purge_port;
  result.comes_out = result.stop ? result.stop->pushed_out : model.return_force > model.seal_drag;
  if (spec.reservoir)
    result.chambers.push_back(chamber_of(model, document::FillRoom::Reservoir, spec.reservoir, std::nullopt));
  add_symptoms(model, at_rest, plan, phrase, result);
  return result;
}

}  // namespace shimwright::job
