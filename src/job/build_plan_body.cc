#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "assembly/directions.h"
#include "job/build_plan_steps.h"
#include "job/run_header.h"

namespace shimwright::job::internal {
namespace {

constexpr double kPourAccuracy =
    0.01;  // of the volume, with a measuring cylinder (common practice, no source)
constexpr double kLevelAccuracy = 1e-3;  // of an oil level [m] (common practice, no source)
constexpr double kGaugeAccuracy = 0.02;  // of a hand gauge (common practice, no source)
constexpr double kLengthAccuracy =
    0.5e-3;  // of a preload measured on the collar [m] (common practice, no source)

bool has_gas(const file::UnitSpec& spec) {
  return spec.reservoir && spec.reservoir->kind && spec.reservoir->kind.value == file::ReservoirKind::Gas;
}

document::HoldPoint pressure_hold(std::string what, const file::Quantity& pressure) {
  document::HoldPoint hold;
  hold.what = std::move(what);
  hold.expected = typed_value(pressure);
  hold.low = hold.high = hold.expected;
  hold.low->typed.clear();
  hold.high->typed.clear();
  hold.low->si *= 1.0 - kGaugeAccuracy;
  hold.high->si *= 1.0 + kGaugeAccuracy;
  return hold;
}

document::HoldPoint volume_hold(std::string what, const document::Value& volume) {
  document::HoldPoint hold;
  hold.what = std::move(what);
  hold.expected = volume;
  hold.low = document::computed(volume.si * (1.0 - kPourAccuracy), units::Kind::Volume);
  hold.high = document::computed(volume.si * (1.0 + kPourAccuracy), units::Kind::Volume);
  return hold;
}

std::string minutes(double seconds) {
  return fmt::format("{:.0f}", seconds / 60.0);
}

std::string growth_words(const PlanDraft& draft, const document::FillChamber& chamber) {
  if (!(chamber.growth > 0.0)) return "";
  const document::FillResult& fill = *draft.unit.fill;
  std::string words =
      fmt::format("At {} the oil needs {} more room.", draft.phrase.temperature(fill.working_temperature),
                  draft.phrase.volume(chamber.growth));
  if (chamber.room == document::FillRoom::Cartridge && fill.capacity_known && fill.spare_capacity >= 0.0) {
    words +=
        fmt::format(" The compensator then has {} of room left.", draft.phrase.volume(fill.spare_capacity));
  }
  return words;
}

void add_pour_step(PlanDraft& draft, const document::FillChamber& chamber) {
  const double volume = chamber.stated ? chamber.stated->si : chamber.volume.value_or(0.0);
  if (!(volume > 0.0)) return;
  const std::string where =
      chamber.room == document::FillRoom::Outer ? "the outer tube" : "the " + word(chamber.room);
  document::BuildStep& step =
      draft.add(fmt::format("Pour {} of {} into {}.", draft.phrase.volume(volume), draft.unit.oil, where),
                growth_words(draft, chamber));
  step.hold = volume_hold("oil in " + where,
                          chamber.stated ? *chamber.stated : document::computed(volume, units::Kind::Volume));
}

}  // namespace

void add_prepare_steps(PlanDraft& draft) {
  draft.section = "Prepare";
  const file::UnitSpec& spec = draft.spec;
  if (has_gas(spec) || spec.air_spring) {
    draft
        .add("Let out all gas and air through the valve before you loosen anything.",
             "Under pressure a cap flies off at the last turn of its thread.")
        .caution =
        "Gas under pressure shoots parts out. Point the valve away from you and wear safety glasses.";
  }
  if (!spec.coil_springs.empty()) {
    draft
        .add(
            "Take the spring out. First wind off the preload. Hold the rest of the load with a proper spring "
            "compressor.")
        .caution = "A preloaded spring can break fingers. Keep your face and hands out of its way.";
  }
  document::BuildStep& clean = draft.add(
      "Remove all old threadlocker from the threads of post and nut, down to bare metal. Degrease the "
      "threads.",
      "With new threadlocker on old, the torque is only a guess.");
  clean.caution =
      "Heat softens threadlocker but ruins seals. Heat only the nut. Keep the flame away from seals, bands "
      "and O-rings. Do not touch the hot thread.";
  clean.hold = look_hold("threads bare and dry, nut turns on by hand");
  draft
      .add(
          "Wash every part in clean solvent, blow it dry and put it down in the order of the pick list. "
          "Count the shims.",
          "You find a missing shim here, or the rider finds it on the trail.")
      .hold = look_hold("all parts of the pick list are there");
  draft
      .add(
          "Hold each shim to the light and move a fingernail over its edge. Replace a shim that is bent, "
          "nicked or marked.",
          "A crack in a shim starts as a mark.")
      .hold = look_hold("shims flat and without marks");
}

void add_closing_steps(PlanDraft& draft) {
  if (!draft.spec.piston_valve && !draft.spec.foot_valve) return;
  draft.section = "Into the tube";
  draft
      .add("Put the piston band in its groove and run a finger round it.",
           "An edge that sticks out scrapes the tube and drags.")
      .hold = look_hold("band in its groove, no edge sticks out");
  draft.add("Put a thin film of grease on the band and the seals. Put no grease on the shims.",
            "A dry seal tears on the first stroke.");
  if (const assembly::Direction* seal = assembly::find_direction("rod-seal")) {
    draft.add(fmt::format("Cover the thread with a bullet or tape. Slide the seal head over the rod. Rod "
                          "seal: {} towards {}.",
                          seal->side, seal->toward),
              document::sentence_case("the wrong way round, " + std::string(seal->if_reversed) + "."));
  }
  draft
      .add("Hold the tube by its end, never where the piston passes. Push the piston in gently and straight.",
           "If the piston is straight, the band goes in without force.")
      .caution = "A dent from the vice jams the piston. You cannot repair the tube.";
  draft
      .add("Fit the snap ring. Push it round with a blunt tool: it must sit fully in its groove everywhere.",
           "A ring that is only half in its groove comes out under pressure.")
      .hold = look_hold("snap ring fully in its groove all round");
}

void add_fill_steps(PlanDraft& draft) {
  if (!draft.unit.fill && !draft.spec.trapped_air) return;
  draft.section = "Fill";
  if (draft.unit.fill) {
    const document::FillResult& fill = *draft.unit.fill;
    draft
        .add(fmt::format("Set the rod {}. Oil and parts must be at {}.", fill.rod_at,
                         draft.phrase.temperature(fill.fill_temperature)),
             "The volumes below are only right for this position.")
        .hold = look_hold("rod " + fill.rod_at);
    for (const document::FillChamber& chamber : fill.chambers) add_pour_step(draft, chamber);
  }
  if (draft.unit.fill && draft.unit.fill->level) {
    draft.add("Measure the oil level of the outer tube from its rim.").hold =
        length_hold("rim to oil", *draft.unit.fill->level, kLevelAccuracy);
  }
  if (draft.spec.trapped_air && draft.spec.trapped_air->level) {
    const double level = draft.spec.trapped_air->level.si;
    draft
        .add("Leg upright, fully in, without the spring: set the oil level from the top of the tube.",
             "The air above the oil is the last part of the spring.")
        .hold = length_hold("top of the tube to the oil", level, kLevelAccuracy);
  }
}

void add_bleed_steps(PlanDraft& draft) {
  if (!draft.unit.fill) return;
  const document::FillResult& fill = *draft.unit.fill;
  draft.section = "Bleed";
  // a short unit has its whole travel and no range
  const std::string low = draft.phrase.length(fill.bleed_stroke_low);
  const std::string high = draft.phrase.length(fill.bleed_stroke_high);
  draft
      .add(fmt::format("Hold the unit upright and stroke the rod slowly, {}, for {} to {} minutes, until no "
                       "bubbles rise.",
                       low == high ? "its full " + high : low + " to " + high, minutes(fill.bleed_time_low),
                       minutes(fill.bleed_time_high)),
           "Short quick strokes only break the air into small bubbles. (Common practice, no source.)")
      .hold = look_hold("no more bubbles");
  draft.add(fmt::format("Let the unit stand. Then top up with the rod {}, and close the unit.", fill.rod_at),
            "Fine bubbles need time to rise.");
  double purge = 0.0;
  for (const document::FillChamber& chamber : fill.chambers) purge += chamber.purge;
  document::BuildStep& last =
      draft.add("Make one last full stroke and catch the oil that comes out of the purge port.",
                "With a correct fill almost nothing comes out.");
  document::HoldPoint hold;
  hold.what = "oil out in the last stroke";
  hold.expected = document::computed(purge, units::Kind::Volume);
  hold.low = document::computed(0.0, units::Kind::Volume);
  hold.high = document::computed(std::max(fill.purge_accepted, 1.2 * purge), units::Kind::Volume);
  last.hold = hold;
}

void add_acceptance_steps(PlanDraft& draft) {
  if (!draft.unit.fill) return;
  const document::FillResult& fill = *draft.unit.fill;
  draft.section = "Accept";
  document::BuildStep& out = draft.add(
      "Push the rod in and let it come out, or pull it out. It must go to its end, smoothly and without "
      "noise.",
      fmt::format("For each {} that it stops short, about {} of oil is missing or is air.",
                  draft.phrase.length(10e-3), draft.phrase.volume(fill.short_stop_volume)));
  document::HoldPoint hold;
  hold.what = "stops short of its end by";
  hold.expected = document::computed(0.0, units::Kind::Length);
  hold.low = document::computed(0.0, units::Kind::Length);
  hold.high = document::computed(2e-3, units::Kind::Length);
  out.hold = hold;
  if (fill.release) out.why += " " + fill.release->words;
  draft
      .add("Wipe the rod dry, stroke it ten times, and check it again.",
           "Oil on the rod means that a seal leaks.")
      .hold = look_hold("rod dry");
  const auto seen = std::ranges::find_if(fill.symptoms, &document::Symptom::observed);
  if (seen != fill.symptoms.end() && !seen->causes.empty()) {
    draft.add(fmt::format("Seen on this unit: {}. Most likely: {}.", seen->seen, seen->causes.front().cause),
              seen->causes.front().remedy);
  }
  draft.add("If a check fails, go through the causes in the order of the table. Then fill and bleed again.",
            "The table shows the most likely cause first.");
}

void add_setting_steps(PlanDraft& draft) {
  draft.section = "Set";
  const file::UnitSpec& spec = draft.spec;
  if (has_gas(spec) && spec.reservoir->pressure) {
    document::BuildStep& gas =
        draft.add(fmt::format("Fill the reservoir with dry nitrogen to {}, rod fully out.",
                              spec.reservoir->pressure.text),
                  "The pressure keeps the air dissolved in the oil.");
    gas.caution =
        "Use a regulator and a hose made for nitrogen. Never use oxygen. Never use air from a cylinder.";
    gas.hold = pressure_hold("reservoir", spec.reservoir->pressure);
  }
  for (const file::CoilSpringSpec& spring : spec.coil_springs) {
    if (!spring.preload) continue;
    document::BuildStep& fit =
        draft.add(fmt::format("Fit the spring with {} of preload.", spring.preload.text));
    fit.caution = "The spring is under load from the first turn of the collar.";
    fit.hold = length_hold("preload", spring.preload.si, kLengthAccuracy);
  }
  if (spec.air_spring) {
    const auto add = [&](const std::optional<file::AirChamberSpec>& chamber, const char* name) {
      if (!chamber || !chamber->pressure) return;
      draft
          .add(fmt::format("Set the {} chamber to {}, leg fully out{}.", name, chamber->pressure.text,
                           spec.air_spring->set_at && spec.air_spring->set_at->temperature
                               ? ", at " + draft.phrase.temperature(spec.air_spring->set_at->temperature.si)
                               : ""))
          .hold = pressure_hold(fmt::format("{} chamber", name), chamber->pressure);
    };
    add(spec.air_spring->positive, "positive");
    add(spec.air_spring->negative, "negative");
  }
  for (const document::ValveResult& valve : draft.unit.valves) {
    for (const document::BleedResult& bleed : valve.bleeds) {
      if (!bleed.clicks) continue;
      document::BuildStep& step =
          draft.add(fmt::format("{}: turn it in with two fingers until it seats. Then turn it {} clicks out.",
                                document::sentence_case(bleed.name), *bleed.clicks),
                    "Force damages the seat, and all clicks count from the seat.");
      document::HoldPoint hold;
      hold.what = bleed.name;
      hold.expected = document::counted_value(*bleed.clicks, "clicks");
      hold.low = hold.high = hold.expected;
      step.hold = hold;
    }
  }
  if (!draft.unit.springs) return;
  for (const document::SagResult& sag : draft.unit.springs->sag) {
    if (!sag.low || !sag.high) continue;
    document::HoldPoint hold;
    hold.what = word(sag.under) + " sag, at the wheel";
    hold.expected = document::computed(sag.wheel_travel, units::Kind::Length);
    hold.low = *sag.low;
    hold.high = *sag.high;
    draft
        .add(sag.under == document::SagLoad::Static
                 ? "On the machine: measure the sag without the rider, once coming from "
                   "above and once from below. Take the middle of the two."
                 : "Measure the sag in the same way with the rider in riding gear.",
             sag.under == document::SagLoad::Static
                 ? "Friction holds the machine too high one way and too low the other way."
                 : "")
        .hold = hold;
  }
}

}  // namespace shimwright::job::internal
