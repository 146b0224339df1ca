#include "assembly/acceptance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "assembly/fill.h"
#include "base/check.h"

namespace shimwright::assembly {
namespace {

// what the rules call short, all common practice, no source
constexpr double kAirShortLow = 6e-3;    // "about half an inch" is air ...
constexpr double kAirShortHigh = 20e-3;  // ... and much more than that is more than bubbles usually hold

/// Collects evidence by cause.
class Case {
 public:
  void add(Cause cause, int weight, Fact fact, double found = 0.0, double expected = 0.0) {
    evidence_[cause].push_back({fact, found, expected, weight});
  }

  std::vector<LikelyCause> likeliest_first() const;

 private:
  std::map<Cause, std::vector<Evidence>> evidence_;
};

std::string_view remedy_for(Cause cause) {
  switch (cause) {
    case Cause::AirInCartridge:
      return "Fill with the rod fully out. Bleed again, upright, with long slow strokes, until no bubbles "
             "rise.";
    case Cause::MissingOil:
      return "Pull the rod fully out, top up to the stated volume, and bleed again.";
    case Cause::LeakingSeal:
      return "Take the seal head out. Check the lip of the seal and its direction, the O-rings, and the rod "
             "for marks.";
    case Cause::TooMuchOil:
      return "With the rod fully out, let the extra oil out through the purge port. Then close the port.";
    case Cause::ReturnForceLost:
      return "Check the gas pressure, or check that the compensator has its spring and that the spring is "
             "not broken.";
    case Cause::TightGuide:
      return "Take the rod out. Check that it is straight, that the seal head is square, and that the edge "
             "of the piston band does not stick out.";
  }
  SW_CHECK(false, static_cast<int>(cause));
  return {};
}

std::vector<LikelyCause> Case::likeliest_first() const {
  std::vector<LikelyCause> causes;
  for (const auto& [cause, evidence] : evidence_) {
    LikelyCause likely{.cause = cause, .remedy = remedy_for(cause), .evidence = evidence};
    for (const Evidence& item : evidence) likely.score += item.weight;
    std::ranges::stable_sort(likely.evidence, std::ranges::greater{}, &Evidence::weight);
    if (likely.score > 0) causes.push_back(std::move(likely));
  }
  std::ranges::stable_sort(causes, std::ranges::greater{}, &LikelyCause::score);
  return causes;
}

bool is_short(const Observation& seen, const TriedCartridge& cartridge) {
  return seen.comes_out == ComesOut::StopsShort && seen.short_by > cartridge.well_bled_stop + kStopOfNoMatter;
}

void weigh_travel(Case& file, const Observation& seen, const TriedCartridge& cartridge) {
  if (is_short(seen, cartridge)) {
    file.add(Cause::AirInCartridge, 2, Fact::StopsShort, seen.short_by, 0.0);
    file.add(Cause::MissingOil, 1, Fact::StopsShort, seen.short_by, 0.0);
    if (seen.short_by >= kAirShortLow && seen.short_by <= kAirShortHigh) {
      file.add(Cause::AirInCartridge, 1, Fact::HalfAnInchShort, seen.short_by, 12.7e-3);
    }
    if (seen.short_by > kAirShortHigh) {
      file.add(Cause::MissingOil, 2, Fact::ShortBeyondBubbles, seen.short_by, kAirShortHigh);
    }
    if (seen.short_by > 0.5 * cartridge.stroke) {
      file.add(Cause::LeakingSeal, 2, Fact::ShortBeyondHalfStroke, seen.short_by, 0.5 * cartridge.stroke);
    }
  }
  if (seen.comes_out == ComesOut::NotAtAll) {
    file.add(Cause::LeakingSeal, 3, Fact::DoesNotComeOut);
    file.add(Cause::TightGuide, 1, Fact::DoesNotComeOut);
    file.add(Cause::ReturnForceLost, 1, Fact::DoesNotComeOut);
  }
  // a return force that the seal's drag eats up explains a rod that stays where it is
  const bool stays = is_short(seen, cartridge) || seen.comes_out == ComesOut::NotAtAll;
  if (stays && cartridge.return_force > 0.0 && cartridge.return_force <= cartridge.seal_drag) {
    file.add(Cause::ReturnForceLost, 3, Fact::PushNoMoreThanDrag, cartridge.return_force,
             cartridge.seal_drag);
  }
}

void weigh_bubbles(Case& file, const Observation& seen, const TriedCartridge& cartridge,
                   const BleedPlan& plan) {
  if (seen.bubbles == Bubbles::Continue) {
    file.add(Cause::LeakingSeal, 2, Fact::BubblesGoOn);
    file.add(Cause::AirInCartridge, 1, Fact::BubblesGoOn);
    if (seen.bled_for && *seen.bled_for < plan.seconds_low) {
      file.add(Cause::AirInCartridge, 2, Fact::BledTooShort, *seen.bled_for, plan.seconds_low);
    }
    if (seen.bled_for && *seen.bled_for >= plan.seconds_high) {
      file.add(Cause::LeakingSeal, 1, Fact::BledLongEnough, *seen.bled_for, plan.seconds_high);
      file.add(Cause::AirInCartridge, -1, Fact::BledLongEnough, *seen.bled_for, plan.seconds_high);
    }
  }
  if (seen.bubbles == Bubbles::Stopped && is_short(seen, cartridge)) {
    file.add(Cause::AirInCartridge, -1, Fact::BubblesEnded);
    file.add(Cause::MissingOil, 2, Fact::BubblesEndedYetShort, seen.short_by, 0.0);
  }
}

void weigh_the_rest(Case& file, const Observation& seen, const BleedPlan& plan) {
  if (seen.purged && *seen.purged > plan.purge_accepted) {
    file.add(Cause::TooMuchOil, 3, Fact::PurgesMore, *seen.purged, plan.purge_accepted);
    file.add(Cause::MissingOil, -2, Fact::PurgesMore, *seen.purged, plan.purge_accepted);
  }
  if (seen.oil_outside) file.add(Cause::LeakingSeal, 3, Fact::OilOutside);
  if (seen.drag == Drag::Tight) file.add(Cause::TightGuide, 2, Fact::Tight);
  if (seen.drag == Drag::Notchy) file.add(Cause::TightGuide, 3, Fact::Notchy);
  if (seen.drag == Drag::Smooth) file.add(Cause::TightGuide, -2, Fact::Smooth);
}

/// Air or oil that belongs to a cause.
double volume_for(Cause cause, const Observation& seen, double hidden, const BleedPlan& plan) {
  switch (cause) {
    case Cause::AirInCartridge:
    case Cause::MissingOil:
      return hidden;
    case Cause::TooMuchOil:
      return std::max(0.0, seen.purged.value_or(0.0) - plan.purge_accepted);
    case Cause::LeakingSeal:
    case Cause::ReturnForceLost:
    case Cause::TightGuide:
      return 0.0;
  }
  SW_CHECK(false, static_cast<int>(cause));
  return 0.0;
}

}  // namespace

std::string_view words(Fact fact) {
  switch (fact) {
    case Fact::StopsShort:
      return "stops short by";
    case Fact::HalfAnInchShort:
      return "trapped air usually leaves it about half an inch short";
    case Fact::ShortBeyondBubbles:
      return "it stops short by more than trapped bubbles usually cause";
    case Fact::ShortBeyondHalfStroke:
      return "short by more than half of the stroke";
    case Fact::DoesNotComeOut:
      return "the rod does not come out at all";
    case Fact::PushNoMoreThanDrag:
      return "the return force is not larger than the usual drag";
    case Fact::BubblesGoOn:
      return "the bubbles do not stop";
    case Fact::BledTooShort:
      return "the unit was bled for less time than usual";
    case Fact::BledLongEnough:
      return "the unit was bled for the usual time";
    case Fact::BubblesEnded:
      return "the bubbles have stopped";
    case Fact::BubblesEndedYetShort:
      return "the bubbles have stopped, but the rod still stops short";
    case Fact::PurgesMore:
      return "it pushes out more oil than a correct fill does";
    case Fact::OilOutside:
      return "there is oil outside after wiping";
    case Fact::Tight:
      return "it is tight all the way";
    case Fact::Notchy:
      return "it is tight in places";
    case Fact::Smooth:
      return "it moves smoothly";
  }
  SW_CHECK(false, static_cast<int>(fact));
  return {};
}

Problems problems_in(const TriedCartridge& cartridge) {
  Problems problems;
  const auto require = [&](bool holds, const char* field, double got, const char* allowed) {
    if (!holds) problems.push_back({field, got, 0.0, allowed});
  };
  require(cartridge.rod_diameter > 0.0, "rod_diameter", cartridge.rod_diameter, "larger than zero");
  require(cartridge.stroke > 0.0, "stroke", cartridge.stroke, "larger than zero");
  require(cartridge.oil_volume > 0.0, "oil_volume", cartridge.oil_volume, "larger than zero");
  require(cartridge.return_force >= 0.0, "return_force", cartridge.return_force, "zero or larger");
  require(cartridge.seal_drag >= 0.0, "seal_drag", cartridge.seal_drag, "zero or larger");
  require(cartridge.well_bled_stop >= 0.0, "well_bled_stop", cartridge.well_bled_stop, "zero or larger");
  return problems;
}

Problems problems_in(const Observation& observation, const TriedCartridge& cartridge) {
  Problems problems;
  const bool stops_short = observation.comes_out == ComesOut::StopsShort;
  if (stops_short && !(observation.short_by > 0.0 && observation.short_by <= cartridge.stroke)) {
    problems.push_back(
        {"short_by", observation.short_by, cartridge.stroke, "larger than zero, within the stroke"});
  }
  if (observation.purged && !(*observation.purged >= 0.0)) {
    problems.push_back({"purged", *observation.purged, 0.0, "zero or larger"});
  }
  if (observation.bled_for && !(*observation.bled_for >= 0.0)) {
    problems.push_back({"bled_for", *observation.bled_for, 0.0, "zero or larger"});
  }
  return problems;
}

Diagnosis diagnose_acceptance(const Observation& observation, const TriedCartridge& cartridge) {
  SW_CHECK(problems_in(cartridge).empty(), cartridge.rod_diameter, cartridge.stroke, cartridge.oil_volume);
  SW_CHECK(problems_in(observation, cartridge).empty(), observation.short_by, cartridge.stroke);
  const BleedPlan plan = bleed_plan(cartridge.rod_diameter, cartridge.stroke);

  // what the stop hides
  Diagnosis diagnosis;
  if (observation.comes_out == ComesOut::StopsShort) {
    diagnosis.hidden_volume =
        cartridge.air_behind_stop.value_or(rod_volume(cartridge.rod_diameter, observation.short_by));
    diagnosis.hidden_fraction = diagnosis.hidden_volume / cartridge.oil_volume;
  }

  // every fact to the causes it speaks for
  Case file;
  weigh_travel(file, observation, cartridge);
  weigh_bubbles(file, observation, cartridge, plan);
  weigh_the_rest(file, observation, plan);
  diagnosis.causes = file.likeliest_first();
  for (LikelyCause& likely : diagnosis.causes) {
    likely.volume = volume_for(likely.cause, observation, diagnosis.hidden_volume, plan);
  }
  diagnosis.accepted = diagnosis.causes.empty();
  return diagnosis;
}

}  // namespace shimwright::assembly
