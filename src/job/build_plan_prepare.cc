#include <fmt/core.h>

#include <algorithm>

#include "assembly/directions.h"
#include "job/build_plan_steps.h"

namespace shimwright::job::internal {
namespace {

bool under_pressure(const file::UnitSpec& spec) {
  return traits_of(spec).charged || spec.air_spring || (spec.reservoir && spec.reservoir->pressure) ||
         (spec.trapped_air && spec.trapped_air->pressure);
}

bool has_shims(const document::UnitResult& unit) {
  return std::ranges::any_of(unit.valves, [](const document::ValveResult& valve) {
    return std::ranges::any_of(valve.directions,
                               [](const document::DirectionResult& side) { return side.stack.has_value(); });
  });
}

}  // namespace

void add_prepare_steps(PlanDraft& draft) {
  draft.section = "Prepare";
  const file::UnitSpec& spec = draft.spec;
  if (under_pressure(spec)) {
    document::BuildStep& out =
        draft.add("Let out all gas and air through the valve before you loosen anything.",
                  "Under pressure a cap flies off at the last turn of its thread.");
    out.caution =
        "Gas under pressure shoots parts out. Point the valve away from you and wear safety glasses.";
    out.makes = {UnitState::PressureOut};
  }
  if (!spec.coil_springs.empty()) {
    document::BuildStep& out = draft.add(
        "Take the spring out. First wind off the preload. Hold the rest of the load with a proper spring "
        "compressor.");
    out.caution = "A preloaded spring can break fingers. Keep your face and hands out of its way.";
    out.needs = draft.made_of({UnitState::PressureOut});
    out.makes = {UnitState::SpringOut};
  }
  if (traits_of(spec).has_damper) {
    document::BuildStep& clean = draft.add(
        "Remove all old threadlocker from the threads of post and nut, down to bare metal. Degrease the "
        "threads.",
        "With new threadlocker on old, the torque is only a guess.");
    clean.caution =
        "Heat softens threadlocker but ruins seals. Heat only the nut. Keep the flame away from seals, bands "
        "and O-rings. Do not touch the hot thread.";
    clean.hold = look_hold("threads bare and dry, nut turns on by hand");
    clean.needs = draft.made_of({UnitState::PressureOut, UnitState::SpringOut});
    clean.makes = {UnitState::ThreadsClean};
  }
  document::BuildStep& wash = draft.add(
      "Wash every part in clean solvent, blow it dry and put it down in the order of the pick list. Count "
      "the shims.",
      "You find a missing shim here, or the rider finds it on the trail.");
  wash.hold = look_hold("all parts of the pick list are there");
  wash.needs = draft.made_of({UnitState::PressureOut, UnitState::SpringOut, UnitState::ThreadsClean});
  wash.makes = {UnitState::PartsClean};
  if (!has_shims(draft.unit)) return;
  draft
      .add(
          "Hold each shim to the light and move a fingernail over its edge. Replace a shim that is bent, "
          "nicked or marked.",
          "A crack in a shim starts as a mark.")
      .hold = look_hold("shims flat and without marks");
}

void add_rod_steps(PlanDraft& draft) {
  const file::UnitSpec& spec = draft.spec;
  if (!spec.piston_valve) return;
  draft.section = "Rod";
  if (spec.bump_stop) {
    document::BuildStep& stop = draft.add("Slide the bump stop on the rod.",
                                          "With the seal head and the piston on, it no longer goes on.");
    stop.parts = {{PartKind::BumpStop, {}, {}, 0}};
    stop.needs = {UnitState::PartsClean};
  }
  document::BuildStep& head =
      draft.add("Cover the thread of the post with a bullet or tape. Slide the seal head over the rod.",
                "An uncovered thread cuts the lip of the seal.");
  head.needs = {UnitState::PartsClean};
  head.makes = {UnitState::HeadOnRod};
  if (const assembly::Direction* seal = assembly::find_direction("rod-seal")) {
    head.text += fmt::format(" Rod seal: {} towards {}.", seal->side, seal->toward);
    head.why = document::sentence_case("the wrong way round, " + std::string(seal->if_reversed) + ".");
  }
  if (!spec.top_out) return;
  document::BuildStep& spring = draft.add("Slide the top-out spring on the rod, behind the seal head.",
                                          "It stands between the seal head and the piston.");
  spring.parts = {{PartKind::TopOutSpring, {}, {}, 0}};
  spring.needs = {UnitState::HeadOnRod};
}

}  // namespace shimwright::job::internal
