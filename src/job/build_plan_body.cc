#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "job/build_plan_steps.h"
#include "job/run_header.h"

namespace shimwright::job::internal {
namespace {

constexpr double kPourAccuracy =
    0.01;  // of the volume, with a measuring cylinder (common practice, no source)
constexpr double kDepthAccuracy =
    1e-3;  // of a free piston, with a depth gauge [m] (common practice, no source)

std::string minutes(double seconds) {
  return fmt::format("{:.0f}", seconds / 60.0);
}

document::HoldPoint volume_hold(std::string what, const document::Value& volume) {
  document::HoldPoint hold;
  hold.what = std::move(what);
  hold.expected = volume;
  hold.low = document::computed(volume.si * (1.0 - kPourAccuracy), units::Kind::Volume);
  hold.high = document::computed(volume.si * (1.0 + kPourAccuracy), units::Kind::Volume);
  return hold;
}

/// What heat and rod ask of the reservoir, and what is then left of it.
std::string room_words(const PlanDraft& draft) {
  if (!draft.unit.reservoir || draft.unit.reservoir->states.empty()) return "";
  const document::ReservoirResult& reservoir = *draft.unit.reservoir;
  const document::ReservoirState& fullest = reservoir.states.back();
  if (!(reservoir.growth > 0.0)) return "";
  std::string words =
      fmt::format("At {} the oil needs {} more room.", draft.phrase.temperature(fullest.temperature),
                  draft.phrase.volume(reservoir.growth));
  if (reservoir.room_known && fullest.room_left >= 0.0)
    words += fmt::format(" With the rod fully in, {} are then left.", draft.phrase.volume(fullest.room_left));
  return words;
}

/// What a rod that stops short of its end hides.
std::string short_stop_words(const PlanDraft& draft) {
  const document::FillResult& fill = *draft.unit.fill;
  const document::Phrase& phrase = draft.phrase;
  if (!fill.stop) {
    constexpr double kShown = 10e-3;
    return fmt::format("For each {} that it stops short, at least {} of oil is missing or is air.",
                       phrase.length(kShown), phrase.volume(fill.rod_area * kShown));
  }
  const document::StopReading& stop = *fill.stop;
  if (!stop.short_stop_air)
    return "Air does not show here: what pushes the rod out pushes just as hard with it.";
  std::string words = fmt::format("A rod that stops {} short hides {} of air, or that much oil is missing.",
                                  phrase.length(stop.short_stop), phrase.volume(*stop.short_stop_air));
  if (stop.hidden_air && *stop.hidden_air > 0.0)
    words += fmt::format(" Less than {} does not show.", phrase.volume(*stop.hidden_air));
  return words;
}

/// Takes the steps that fit one thing after another in the damper.
document::BuildStep& add_made(PlanDraft& draft, UnitState makes, std::initializer_list<UnitState> needs,
                              std::string text, std::string why = {}) {
  const std::vector<UnitState> needed = draft.made_of(needs);
  document::BuildStep& step = draft.add(std::move(text), std::move(why));
  step.needs = needed;
  step.makes = {makes};
  return step;
}

void add_seal_steps(PlanDraft& draft) {
  if (!draft.spec.piston_valve) return;
  document::BuildStep& band = draft.add("Put the piston band in its groove and run a finger round it.",
                                        "An edge that sticks out scrapes the tube and drags.");
  band.needs = draft.made_of({UnitState::PistonValveTight});
  band.hold = look_hold("band in its groove, no edge sticks out");
  add_made(draft, UnitState::SealsGreased, {UnitState::PistonValveTight, UnitState::FootValveTight},
           "Put a thin film of grease on the band and the seals. Put no grease on the shims.",
           "A dry seal tears on the first stroke.");
}

/// A foot valve that has steps of its own, or is only bought in one piece.
bool has_foot(const PlanDraft& draft) {
  return draft.spec.foot_valve.has_value();
}

void add_foot_step(PlanDraft& draft, const char* where) {
  if (!has_foot(draft)) return;
  document::BuildStep& step = add_made(
      draft, UnitState::FootValveIn, {UnitState::FootValveTight, UnitState::SealsGreased},
      fmt::format("Fit the foot valve in {}.", where), "Oil that passes beside it does not pass its stacks.");
  step.hold = look_hold("foot valve seated, its O-ring not pinched");
}

void add_rod_into_tube(PlanDraft& draft, std::initializer_list<UnitState> needs, std::string how) {
  document::BuildStep& step =
      add_made(draft, UnitState::RodInTube, needs,
               "Hold the tube by its end, never where the piston passes. " + std::move(how),
               "If the piston is straight, the band goes in without force.");
  step.caution = "A dent from the vice jams the piston. You cannot repair the tube.";
}

void add_bleed_step(PlanDraft& draft, std::initializer_list<UnitState> needs) {
  if (!draft.unit.fill) return;
  const document::FillResult& fill = *draft.unit.fill;
  // a short unit has its whole travel and no range
  const std::string low = draft.phrase.length(fill.bleed_stroke_low);
  const std::string high = draft.phrase.length(fill.bleed_stroke_high);
  const std::vector<UnitState> needed = draft.made_of(needs);
  document::BuildStep& stroke = draft.add(
      fmt::format(
          "Hold the unit upright and stroke the rod slowly, {}, for {} to {} minutes, until no bubbles "
          "rise. Keep the oil above the piston.",
          low == high ? "its full " + high : low + " to " + high, minutes(fill.bleed_time_low),
          minutes(fill.bleed_time_high)),
      "Short quick strokes only break the air into small bubbles. (Common practice, no source.)");
  stroke.needs = needed;
  stroke.hold = look_hold("no more bubbles");
  add_made(draft, UnitState::Bled, {UnitState::OilIn, UnitState::RodInTube},
           "Let the unit stand for a few minutes, and tap it.", "Fine bubbles need time to rise.");
}

void add_ring_step(PlanDraft& draft) {
  draft
      .add("Fit the snap ring. Push it round with a blunt tool: it must sit fully in its groove everywhere.",
           "A ring that is only half in its groove comes out under pressure.")
      .hold = look_hold("snap ring fully in its groove all round");
}

/// Rod position and temperature that the volumes hold for.
void add_position_step(PlanDraft& draft) {
  if (!draft.unit.fill) return;
  const document::FillResult& fill = *draft.unit.fill;
  draft
      .add(fmt::format("Set the rod {}. Oil and parts must be at {}.", fill.rod_at,
                       draft.phrase.temperature(fill.fill_temperature)),
           "The oil volume holds for this position only.")
      .hold = look_hold("rod " + fill.rod_at);
}

bool has_oil_for_damper(const PlanDraft& draft) {
  return draft.unit.fill && std::ranges::any_of(draft.unit.fill->chambers, [](const auto& chamber) {
           return chamber.room == document::FillRoom::Cartridge;
         });
}

/// A body open at the top: foot valve and gas side, oil, then the rod into the oil.
void add_open_body(PlanDraft& draft) {
  draft.section = "Into the body";
  add_seal_steps(draft);
  add_gas_side_step(draft);
  add_foot_step(draft, "the body");
  draft.section = "Fill";
  const bool poured = add_pour_step(
      draft, document::FillRoom::Cartridge,
      {UnitState::SealsGreased, UnitState::FootValveIn, UnitState::GasSideReady}, {UnitState::OilIn});
  add_pour_step(draft, document::FillRoom::Reservoir, {UnitState::GasSideReady, UnitState::FootValveIn}, {});
  if (!draft.spec.piston_valve) return;
  add_rod_into_tube(
      draft, {UnitState::OilIn, UnitState::HeadOnRod, UnitState::PistonValveTight, UnitState::SealsGreased},
      poured ? "Lower the piston gently and straight into the oil. Catch the oil that runs over."
             : "Push the piston in gently and straight.");
  if (poured) {
    draft.section = "Bleed";
    add_bleed_step(draft, {UnitState::OilIn, UnitState::RodInTube});
    add_position_step(draft);
    document::BuildStep& head = add_made(draft, UnitState::Closed, {UnitState::Bled, UnitState::RodInTube},
                                         "Top up to the rim. Push the seal head in until no air is under it.",
                                         "Air under the seal head is the first that the damper feels.");
    head.hold = look_hold("full to the rim before the seal head goes in");
  } else {
    add_made(draft, UnitState::Closed, {UnitState::RodInTube}, "Push the seal head in to its stop.");
  }
  add_ring_step(draft);
}

/// A cartridge: the rod first, then oil from the other end, then the foot valve with the compensator on top.
void add_cartridge(PlanDraft& draft) {
  draft.section = "Into the tube";
  add_seal_steps(draft);
  if (draft.spec.piston_valve) {
    add_rod_into_tube(draft, {UnitState::HeadOnRod, UnitState::PistonValveTight, UnitState::SealsGreased},
                      "Push the piston in gently and straight, and the seal head to its stop.");
    add_ring_step(draft);
  }
  if (has_oil_for_damper(draft)) {
    draft.section = "Fill";
    add_position_step(draft);
    add_pour_step(draft, document::FillRoom::Cartridge, {UnitState::RodInTube, UnitState::SealsGreased},
                  {UnitState::OilIn});
    draft.section = "Bleed";
    add_bleed_step(draft, {UnitState::OilIn, UnitState::RodInTube});
  }
  draft.section = "Close the cartridge";
  add_gas_side_step(draft);
  add_pour_step(draft, document::FillRoom::Reservoir, {UnitState::GasSideReady}, {});
  if (draft.has_made(UnitState::OilIn)) {
    draft
        .add(fmt::format("Check that the rod is still {}. Top up to the rim.", draft.unit.fill->rod_at),
             "The oil that the strokes moved must be back.")
        .needs = {UnitState::Bled};
  }
  add_foot_step(draft, "the cartridge, slowly: air and surplus oil must get out");
  add_made(draft, UnitState::Closed,
           {UnitState::Bled, UnitState::FootValveIn, UnitState::RodInTube, UnitState::CompensatorIn},
           "Close the cartridge.")
      .hold = look_hold("cartridge closed and dry outside");
}

/// An open bath: the damper is assembled dry and filled in the leg.
void add_bath(PlanDraft& draft) {
  draft.section = "Into the tube";
  add_seal_steps(draft);
  if (draft.spec.piston_valve)
    add_rod_into_tube(draft, {UnitState::HeadOnRod, UnitState::PistonValveTight, UnitState::SealsGreased},
                      "Push the piston in gently and straight.");
  add_foot_step(draft, "the lower end of the tube");
  add_made(draft, UnitState::Closed, {UnitState::RodInTube, UnitState::FootValveIn},
           "Fit the seal head in the tube, to its stop.");
  if (draft.spec.piston_valve) add_ring_step(draft);
}

void add_gas_step(PlanDraft& draft) {
  if (!traits_of(draft.spec).charged || !draft.spec.reservoir->pressure) return;
  const file::Quantity& pressure = draft.spec.reservoir->pressure;
  draft.section = "Gas";
  document::BuildStep& gas =
      add_made(draft, UnitState::GasIn, {UnitState::Closed, UnitState::GasSideReady},
               fmt::format("Fill the reservoir with dry nitrogen to {}, rod fully out, everything at {}.",
                           pressure.text, draft.phrase.temperature(draft.conditions.fill_temperature.si)),
               "The pressure keeps the air dissolved in the oil. " + room_words(draft));
  if (gas.why.ends_with(' ')) gas.why.pop_back();
  gas.caution =
      "Use a regulator and a hose made for nitrogen. Never use oxygen. Never use air from a cylinder.";
  gas.hold = pressure_hold("reservoir", pressure);
}

/// What a compensator with a port lets out; one without keeps all of it.
void add_purge_step(PlanDraft& draft) {
  if (!draft.unit.fill || !draft.unit.fill->purge_port) return;
  const document::FillResult& fill = *draft.unit.fill;
  double purge = 0.0;
  for (const document::FillChamber& chamber : fill.chambers) purge += chamber.purge;
  const std::vector<UnitState> needed = draft.made_of({UnitState::Closed, UnitState::GasIn});
  document::BuildStep& last =
      draft.add("Make one full stroke and catch the oil that comes out of the port of the compensator.",
                "With a correct fill almost nothing comes out.");
  last.needs = needed;
  document::HoldPoint hold;
  hold.what = "oil out in the last stroke";
  hold.expected = document::computed(purge, units::Kind::Volume);
  hold.low = document::computed(0.0, units::Kind::Volume);
  hold.high = document::computed(std::max(fill.purge_accepted, 1.2 * purge), units::Kind::Volume);
  last.hold = hold;
}

}  // namespace

bool add_pour_step(PlanDraft& draft, document::FillRoom room, std::initializer_list<UnitState> needs,
                   std::initializer_list<UnitState> makes) {
  if (!draft.unit.fill) return false;
  const auto& chambers = draft.unit.fill->chambers;
  const auto found = std::ranges::find(chambers, room, &document::FillChamber::room);
  if (found == chambers.end()) return false;
  if (!(found->pour > 0.0)) return false;
  const std::string where = room == document::FillRoom::Outer ? "the outer tube" : "the " + word(room);
  const std::vector<UnitState> needed = draft.made_of(needs);
  document::BuildStep& step = draft.add(
      fmt::format("Pour {} of {} into {}.", draft.phrase.volume(found->pour), oil_words(draft.unit), where));
  step.hold = volume_hold("oil in " + where, document::computed(found->pour, units::Kind::Volume));
  step.parts = {{PartKind::Oil, {}, {}, static_cast<int>(found - chambers.begin())}};
  step.needs = needed;
  step.makes = makes;
  return true;
}

void add_gas_side_step(PlanDraft& draft) {
  const UnitTraits traits = traits_of(draft.spec);
  if (traits.sprung) {
    document::BuildStep& step =
        add_made(draft, UnitState::CompensatorIn,
                 {UnitState::FootValveTight, UnitState::SealsGreased, UnitState::PartsClean},
                 "Put the compensator together: spring, then free piston with a greased seal.",
                 "The spring keeps the oil under pressure and pushes the rod out.");
    step.parts = {{PartKind::FreePiston, {}, {}, 0}, {PartKind::CompensatorSpring, {}, {}, 0}};
    step.hold = look_hold("free piston slides by hand and comes back");
    return;
  }
  if (!traits.charged) return;
  const file::ReservoirSpec& spec = *draft.spec.reservoir;
  if (!spec.piston) {
    document::BuildStep& step =
        add_made(draft, UnitState::GasSideReady, {UnitState::SealsGreased, UnitState::PartsClean},
                 "Fit the bladder in the reservoir, without folds and without pressure.",
                 "A fold cracks, and the gas gets into the oil.");
    step.parts = {{PartKind::Bladder, {}, {}, 0}};
    step.hold = look_hold("bladder in its seat all round");
    return;
  }
  const double area = 0.25 * std::numbers::pi * spec.piston.si * spec.piston.si;
  document::BuildStep& step = add_made(
      draft, UnitState::GasSideReady, {UnitState::SealsGreased, UnitState::PartsClean},
      fmt::format("Push the free piston, its seal greased, into the reservoir until {} are left on its gas "
                  "side. Leave the gas valve open.",
                  draft.phrase.volume(spec.volume.si)),
      "In a plain bore this is the depth beside. A hollow cap holds some of the volume: then measure with "
      "oil.");
  step.parts = {{PartKind::FreePiston, {}, {}, 0}};
  step.hold = length_hold("depth of the gas side", spec.volume.si / area, kDepthAccuracy);
}

void add_damper_steps(PlanDraft& draft) {
  const UnitTraits traits = traits_of(draft.spec);
  if (!traits.has_damper) return;
  if (traits.open_bath) return add_bath(draft);
  if (traits.filled_open) {
    add_open_body(draft);
  } else {
    add_cartridge(draft);
  }
  add_gas_step(draft);
  add_purge_step(draft);
  add_acceptance_steps(draft);
}

void add_acceptance_steps(PlanDraft& draft) {
  if (!draft.unit.fill) return;
  const document::FillResult& fill = *draft.unit.fill;
  draft.section = "Accept";
  const std::vector<UnitState> needed = draft.made_of({UnitState::Closed, UnitState::Bled, UnitState::GasIn,
                                                       UnitState::CompensatorIn, UnitState::OuterAirOut});
  document::BuildStep& out =
      draft.add(fmt::format("Push the rod in and {}. It must move smoothly and without noise.",
                            fill.comes_out ? "let it come out" : "pull it out to its end"),
                fill.comes_out ? short_stop_words(draft) : "");
  out.needs = needed;
  out.makes = {UnitState::Tried};
  if (fill.stop && fill.comes_out) {
    document::HoldPoint hold;
    hold.what = "stops short of its end by";
    hold.expected = document::computed(fill.stop->well_bled, units::Kind::Length);
    hold.low = document::computed(0.0, units::Kind::Length);
    hold.high = document::computed(fill.stop->accepted, units::Kind::Length);
    out.hold = hold;
  }
  if (fill.release) out.why += (out.why.empty() ? "" : " ") + fill.release->words;
  // the rod of an open bath stands in the leg's own oil
  if (!traits_of(draft.spec).open_bath) {
    draft
        .add("Wipe the rod dry, stroke it ten times, and check it again.",
             "Oil on the rod means that a seal leaks.")
        .hold = look_hold("rod dry");
  }
  const auto seen = std::ranges::find_if(fill.symptoms, &document::Symptom::observed);
  if (seen != fill.symptoms.end() && !seen->causes.empty()) {
    draft.add(fmt::format("Seen on this unit: {}. Most likely: {}.", seen->seen, seen->causes.front().cause),
              seen->causes.front().remedy);
  }
  draft.add("If a check fails, go through the causes in the order of the table. Then fill and bleed again.",
            "The table shows the most likely cause first.");
}

}  // namespace shimwright::job::internal
