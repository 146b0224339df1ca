#include <fmt/core.h>

#include <algorithm>

#include "job/build_plan_steps.h"
#include "job/run_header.h"
#include "resolve/resolve_leg_air.h"

namespace shimwright::job::internal {
namespace {

constexpr double kLevelAccuracy = 1e-3;  // of an oil level [m] (common practice, no source)
constexpr double kLengthAccuracy =
    0.5e-3;  // of a preload measured on the collar [m] (common practice, no source)

/// The leg's own oil: in, the air under it out, then its level, once.
void add_outer_oil(PlanDraft& draft, const UnitTraits& traits) {
  draft.section = "Outer oil";
  const bool poured = add_pour_step(draft, document::FillRoom::Outer,
                                    {UnitState::DamperInLeg, UnitState::PartsClean}, {UnitState::OuterOilIn});
  const auto level = resolve::outer_level(draft.spec);
  if (!poured) {
    if (!level) return;
    document::BuildStep& oil =
        draft.add("Pour oil into the outer tube until it stands above the level of the step below.");
    oil.needs = draft.made_of({UnitState::DamperInLeg, UnitState::PartsClean});
    oil.makes = {UnitState::OuterOilIn};
  }
  const bool fills_damper = traits.open_bath && draft.unit.fill;
  document::BuildStep& pump = draft.add(
      fills_damper
          ? fmt::format(
                "Leg upright: stroke the rod slowly over its travel for {:.0f} to {:.0f} minutes, until "
                "it drags evenly both ways and no bubbles rise.",
                draft.unit.fill->bleed_time_low / 60.0, draft.unit.fill->bleed_time_high / 60.0)
          : "Leg upright: move the outer tube slowly over its travel ten times. Let it stand for a few "
            "minutes.",
      "The air under the oil comes up, and the level falls. (Common practice, no source.)");
  pump.needs = {UnitState::OuterOilIn};
  pump.makes = {UnitState::OuterAirOut};
  if (fills_damper) pump.makes.push_back(UnitState::Bled);
  if (!level) return;
  document::BuildStep& set = draft.add(
      "Leg upright, fully in, without the spring: set the oil level, from the top "
      "of the tube.",
      "The air above the oil is the last part of the spring.");
  set.hold = length_hold("top of the tube to the oil", *level, kLevelAccuracy);
  set.needs = {UnitState::OuterAirOut};
  set.makes = {UnitState::LevelSet};
}

void add_springs(PlanDraft& draft) {
  const file::UnitSpec& spec = draft.spec;
  const std::vector<UnitState> before =
      draft.made_of({UnitState::SpringOut, UnitState::LevelSet, UnitState::OuterAirOut,
                     UnitState::DamperInLeg, UnitState::Tried, UnitState::GasIn});
  if (!spec.coil_springs.empty()) draft.section = "Spring";
  for (std::size_t i = 0; i < spec.coil_springs.size(); ++i) {
    const file::CoilSpringSpec& spring = spec.coil_springs[i];
    const bool last = i + 1 == spec.coil_springs.size();
    std::string name = spring.part ? document::readable(spring.part.value) : spring.rate.text;
    std::string text = "Fit the spring";
    if (spec.coil_springs.size() > 1 && !name.empty()) text += " " + name;
    if (spring.stacked.value_or(false)) text += ", on the one before it";
    document::BuildStep& fit =
        draft.add(text + (spring.preload ? fmt::format(", with {} of preload.", spring.preload.text) : "."));
    fit.parts = {{PartKind::MainSpring, {}, {}, static_cast<int>(i)}};
    fit.needs = before;
    if (last) fit.makes = {UnitState::SpringIn};
    if (!spring.preload) continue;
    fit.caution = "The spring is under load from the first turn of the collar.";
    fit.hold = length_hold("preload", spring.preload.si, kLengthAccuracy);
  }
}

void add_air(PlanDraft& draft) {
  const file::UnitSpec& spec = draft.spec;
  if (!spec.air_spring) return;
  draft.section = "Air";
  const auto oil = [&](const std::optional<file::AirChamberSpec>& chamber, const char* name, int index) {
    if (!chamber || !chamber->oil || !(chamber->oil.si > 0.0)) return;
    document::BuildStep& step = draft.add(
        fmt::format("Pour {} of the oil for its seals into the {} air chamber.", chamber->oil.text, name),
        "This oil keeps the seals of the air spring wet. The maker's manual names it.");
    step.parts = {{PartKind::AirOil, {}, {}, index}};
    step.needs = {UnitState::PartsClean};
  };
  oil(spec.air_spring->positive, "positive", 0);
  oil(spec.air_spring->negative, "negative", 1);
}

void add_closing(PlanDraft& draft) {
  document::BuildStep& cap = draft.add(
      "Close the leg: fit the cap by hand first, then tighten it to the torque of "
      "the maker's manual.",
      "A cap that goes on by hand is not cross-threaded.");
  cap.needs = draft.made_of({UnitState::SpringIn, UnitState::LevelSet, UnitState::OuterAirOut,
                             UnitState::DamperInLeg, UnitState::Tried});
  cap.makes = {UnitState::LegClosed};
}

void add_air_pressure(PlanDraft& draft) {
  const file::UnitSpec& spec = draft.spec;
  if (!spec.air_spring) return;
  const std::string at = spec.air_spring->set_at && spec.air_spring->set_at->temperature
                             ? ", at " + draft.phrase.temperature(spec.air_spring->set_at->temperature.si)
                             : "";
  const bool has_negative = spec.air_spring->negative && spec.air_spring->negative->pressure;
  const auto add = [&](const std::optional<file::AirChamberSpec>& chamber, const char* name, bool last) {
    if (!chamber || !chamber->pressure) return;
    const std::vector<UnitState> needed = draft.made_of({UnitState::LegClosed, UnitState::Tried});
    document::BuildStep& step =
        draft.add(fmt::format("Set the {} chamber to {}, {} fully out{}.", name, chamber->pressure.text,
                              traits_of(spec).is_leg ? "leg" : "shock", at));
    step.hold = pressure_hold(fmt::format("{} chamber", name), chamber->pressure);
    step.needs = needed;
    if (last) step.makes = {UnitState::AirSet};
  };
  add(spec.air_spring->positive, "positive", !has_negative);
  add(spec.air_spring->negative, "negative", true);
}

void add_clickers(PlanDraft& draft) {
  for (const document::ValveResult& valve : draft.unit.valves) {
    for (const document::BleedResult& bleed : valve.bleeds) {
      if (!bleed.clicks) continue;
      document::BuildStep& step =
          draft.add(fmt::format("{}: turn it in with two fingers until it seats. Then turn it {} out.",
                                document::sentence_case(bleed.name),
                                document::counted(*bleed.clicks, "click", "clicks")),
                    "Force damages the seat, and all clicks count from the seat.");
      document::HoldPoint hold;
      hold.what = bleed.name;
      hold.expected = document::counted_value(*bleed.clicks, "clicks");
      hold.low = hold.high = hold.expected;
      step.hold = hold;
    }
  }
  if (!draft.plan.steps.empty() && draft.plan.steps.back().section == draft.section)
    draft.plan.steps.back().makes = {UnitState::ClicksSet};
}

document::BuildStep& add_sag(PlanDraft& draft, const document::SagResult& sag) {
  const bool fixed = sag.under == document::SagLoad::Static;
  document::BuildStep& step =
      draft.add(fixed ? "On the machine: measure the sag without the rider, once coming from above and once "
                        "from below. Take "
                        "the middle of the two."
                      : "Measure the sag in the same way with the rider in riding gear.",
                fixed ? "Friction holds the machine too high one way and too low the other way." : "");
  document::HoldPoint hold;
  hold.what = word(sag.under) + " sag, at the wheel";
  hold.low = *sag.low;
  hold.high = *sag.high;
  hold.expected = document::computed(sag.wheel_travel, units::Kind::Length);
  if (sag.wheel_travel < hold.low->si || sag.wheel_travel > hold.high->si) {
    // what the springs give is not what is asked for: the box asks for the target, the words say the rest
    hold.expected = document::computed(0.5 * (hold.low->si + hold.high->si), units::Kind::Length);
    step.why += fmt::format("{}These springs give {}, outside the target.", step.why.empty() ? "" : " ",
                            draft.phrase.length(sag.wheel_travel));
  }
  step.hold = hold;
  return step;
}

}  // namespace

void add_leg_steps(PlanDraft& draft) {
  const UnitTraits traits = traits_of(draft.spec);
  if (!traits.is_leg) {
    add_springs(draft);
    return add_air(draft);
  }
  if (traits.has_damper) {
    draft.section = "Into the leg";
    const std::vector<UnitState> needed = draft.made_of({UnitState::Tried, UnitState::Closed});
    document::BuildStep& fit = draft.add(
        traits.open_bath ? "Fit the damper in the leg, and tighten the bolt at its foot to the torque of the "
                           "maker's manual."
                         : "Fit the cartridge in the leg, and tighten it to the torque of the maker's "
                           "manual.",
        "A new sealing washer costs less than a second fill.");
    fit.needs = needed;
    fit.makes = {UnitState::DamperInLeg};
  }
  if (traits.outer_oil) add_outer_oil(draft, traits);
  if (traits.open_bath) add_acceptance_steps(draft);
  add_springs(draft);
  add_air(draft);
  add_closing(draft);
}

void add_setting_steps(PlanDraft& draft) {
  draft.section = "Set";
  add_air_pressure(draft);
  draft.section = "Clickers";
  add_clickers(draft);
  draft.section = "Sag";
  if (!draft.unit.springs) return;
  document::BuildStep* last = nullptr;
  for (const document::SagResult& sag : draft.unit.springs->sag) {
    if (!sag.low || !sag.high) continue;
    const std::vector<UnitState> needed =
        draft.made_of({UnitState::SpringIn, UnitState::AirSet, UnitState::LegClosed, UnitState::Tried});
    last = &add_sag(draft, sag);
    last->needs = needed;
  }
  if (last != nullptr) last->makes = {UnitState::SagMeasured};
}

}  // namespace shimwright::job::internal
