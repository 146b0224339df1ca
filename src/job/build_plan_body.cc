#include <fmt/format.h>

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
      fmt::format("At {} it takes {} more.", draft.phrase.temperature(fill.working_temperature),
                  draft.phrase.volume(chamber.growth));
  if (chamber.name == "cartridge" && fill.capacity_known && fill.spare_capacity >= 0.0) {
    words += fmt::format(" The compensator then has {} left.", draft.phrase.volume(fill.spare_capacity));
  }
  return words;
}

void add_pour_step(PlanDraft& draft, const document::FillChamber& chamber) {
  const double volume = chamber.stated ? chamber.stated->si : chamber.volume.value_or(0.0);
  if (!(volume > 0.0)) return;
  const std::string where = chamber.name == "outer" ? "the outer tube" : "the " + chamber.name;
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
        .add("Let all gas and air out through its own valve before anything is loosened.",
             "A cap under pressure leaves its thread at the last turn.")
        .caution =
        "Gas under pressure drives parts out like shot. Point the valve away from you and wear glasses.";
  }
  if (!spec.coil_springs.empty()) {
    draft
        .add(
            "Take the spring out: wind the preload off first, and hold what remains in a compressor made for "
            "it.")
        .caution = "A preloaded spring breaks fingers. Keep your face and hands out of its line.";
  }
  document::BuildStep& clean = draft.add(
      "Clean the threads of post and nut of all old threadlocker, down to bare metal, and degrease them.",
      "New threadlocker on old turns the torque into a guess.");
  clean.caution =
      "Heat softens threadlocker, and ruins seals. Heat the nut alone, keep the flame away from seals, bands "
      "and O-rings, "
      "and do not touch the thread after.";
  clean.hold = look_hold("threads bare and dry, nut runs on by fingers");
  draft
      .add(
          "Wash every part in clean solvent, blow it dry and lay it out in the order of the pick list. Count "
          "the shims.",
          "One shim too few is found here, or on the trail.")
      .hold = look_hold("all parts of the pick list there");
  draft
      .add(
          "Hold each shim to the light and draw a fingernail over its edge. Replace what is dished, nicked "
          "or marked.",
          "A cracked shim starts as a mark.")
      .hold = look_hold("shims flat and unmarked");
}

void add_closing_steps(PlanDraft& draft) {
  if (!draft.spec.piston_valve && !draft.spec.foot_valve) return;
  draft.section = "Into the tube";
  draft
      .add("Seat the piston band in its groove and run a finger round it.",
           "A proud edge shaves the tube and drags.")
      .hold = look_hold("band seated, no edge proud");
  draft.add("Put a thin film of grease on band and seals. None on the shims.",
            "Dry seals tear on the first stroke.");
  if (const assembly::Direction* seal = assembly::find_direction("rod-seal")) {
    draft
        .add(fmt::format("Slide the seal head over the rod with a bullet or tape over the thread. Rod seal: "
                         "{} towards {}.",
                         seal->side, seal->toward),
             document::sentence_case("the wrong way round, " + std::string(seal->if_reversed) + "."))
        .picture = "direction:unit:rod-seal";
  }
  draft
      .add("Hold the tube by its end, never where the piston must pass, and ease the piston in straight.",
           "The band goes in without force when it is straight.")
      .caution = "A tube dented by the vice jams the piston and cannot be mended.";
  draft
      .add(
          "Seat the snap ring, then push it round with a blunt tool: it sits fully in its groove everywhere.",
          "A ring half in its groove lets go under pressure.")
      .hold = look_hold("snap ring fully in its groove all round");
}

void add_fill_steps(PlanDraft& draft) {
  if (!draft.unit.fill && !draft.spec.trapped_air) return;
  draft.section = "Fill";
  if (draft.unit.fill) {
    const document::FillResult& fill = *draft.unit.fill;
    draft
        .add(fmt::format("Set the rod {}. Oil and parts are at {}.", fill.rod_at,
                         draft.phrase.temperature(fill.fill_temperature)),
             "The volumes below hold for this position and no other.")
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
        .add("Leg fully in, spring out, upright: set the oil level from the top of the tube.",
             "The air above it is the end of the spring.")
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
      .add(fmt::format("Stroke the rod slowly, {}, for {} to {} minutes, upright, until no bubble rises.",
                       low == high ? "all of its " + high : low + " to " + high, minutes(fill.bleed_time_low),
                       minutes(fill.bleed_time_high)),
           "Short quick strokes only break the air up. (Common practice, no source.)")
      .hold = look_hold("no more bubbles");
  draft.add(fmt::format("Let it stand, then top up with the rod {}, and close it.", fill.rod_at),
            "Fine bubbles need time to rise.");
  double purge = 0.0;
  for (const document::FillChamber& chamber : fill.chambers) purge += chamber.purge;
  document::BuildStep& last =
      draft.add("Make one last full stroke and catch what comes out of the purge port.",
                "A right fill purges almost nothing.");
  document::HoldPoint hold;
  hold.what = "purged in the last stroke";
  hold.expected = document::computed(purge, units::Kind::Volume);
  hold.low = document::computed(0.0, units::Kind::Volume);
  hold.high = document::computed(std::max(fill.purge_accepted, 1.2 * purge), units::Kind::Volume);
  last.hold = hold;
}

void add_acceptance_steps(PlanDraft& draft) {
  if (!draft.unit.fill) return;
  const document::FillResult& fill = *draft.unit.fill;
  draft.section = "Accept";
  document::BuildStep& out =
      draft.add("Push the rod in and let it come out, or draw it out: to its end, smooth and quiet.",
                fmt::format("Each {} it stops short hides about {} of air or missing oil.",
                            draft.phrase.length(10e-3), draft.phrase.volume(fill.short_stop_volume)));
  document::HoldPoint hold;
  hold.what = "stops short of its end by";
  hold.expected = document::computed(0.0, units::Kind::Length);
  hold.low = document::computed(0.0, units::Kind::Length);
  hold.high = document::computed(2e-3, units::Kind::Length);
  out.hold = hold;
  if (fill.release) out.why += " " + fill.release->words;
  draft.add("Wipe the rod dry, stroke it ten times, and look again.", "Oil on the rod is a seal that leaks.")
      .hold = look_hold("rod dry");
  const auto seen = std::ranges::find_if(fill.symptoms, &document::Symptom::observed);
  if (seen != fill.symptoms.end() && !seen->causes.empty()) {
    draft.add(fmt::format("Seen on this unit: {}. Likeliest: {}.", seen->seen, seen->causes.front().cause),
              seen->causes.front().remedy);
  }
  draft.add(
      "If any of this fails, go through the causes in the order of the table, and fill and bleed again.",
      "The test read backwards says what to look at first.");
}

void add_setting_steps(PlanDraft& draft) {
  draft.section = "Set";
  const file::UnitSpec& spec = draft.spec;
  if (has_gas(spec) && spec.reservoir->pressure) {
    document::BuildStep& gas =
        draft.add(fmt::format("Fill the reservoir with dry nitrogen to {}, rod fully out.",
                              spec.reservoir->pressure.text),
                  "The pressure keeps air in the oil.");
    gas.caution = "Only with a regulator and a hose made for it. Never oxygen, never air from a cylinder.";
    gas.hold = pressure_hold("reservoir", spec.reservoir->pressure);
  }
  for (const file::CoilSpringSpec& spring : spec.coil_springs) {
    if (!spring.preload) continue;
    document::BuildStep& fit =
        draft.add(fmt::format("Fit the spring with {} of preload.", spring.preload.text));
    fit.caution = "The spring is under load from the first turn of the collar on.";
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
          draft.add(fmt::format("{}: turn in until it seats, with two fingers, then {} clicks out.",
                                document::sentence_case(bleed.name), *bleed.clicks),
                    "Force marks the seat, and every click counts from there.");
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
    hold.what = sag.name + " sag, at the wheel";
    hold.expected = document::computed(sag.wheel_travel, units::Kind::Length);
    hold.low = *sag.low;
    hold.high = *sag.high;
    draft
        .add(sag.name == "static" ? "On the machine: measure the sag without the rider, once from above and "
                                    "once from below, and take the middle."
                                  : "The same with the rider in riding gear.",
             sag.name == "static" ? "Friction holds it up one way and down the other." : "")
        .hold = hold;
  }
}

}  // namespace shimwright::job::internal
