#include <fmt/core.h>

#include <algorithm>
#include <numbers>

#include "file/load_check.h"

namespace shimwright::file {
namespace {

double circle_area(double diameter) {
  return 0.25 * std::numbers::pi * diameter * diameter;
}

std::string millimetres(double length) {
  return fmt::format("{:.4g} mm", length * 1e3);
}

/// `small` must be smaller than `large`; the place of the fault is `small`.
void check_smaller(const Checks& checks, Code code, const Quantity& small, const Quantity& large,
                   FaultText words) {
  if (!small || !large || small.si < large.si) return;
  words.got = small.text;
  if (words.expected.empty()) words.expected = "less than " + large.text;
  checks.fault(code, small.origin, std::move(words));
}

// ---- damper

void check_valve_in_piston(const Checks& checks, const DirectionSpec& direction, const Quantity& piston) {
  const FaultText words{"it is wider than the bore the piston runs in", "", "",
                        "correct it, or the unit's piston"};
  check_smaller(checks, Code::ValveLargerThanPiston, direction.seat, piston, words);
  for (const DiscSpec& disc : direction.stack)
    check_smaller(checks, Code::ValveLargerThanPiston, disc.outer_diameter, piston, words);
}

void check_reservoir(const Checks& checks, const ReservoirSpec& reservoir) {
  if (!reservoir.kind) return;
  const bool is_sprung = reservoir.kind.value == ReservoirKind::SprungPiston;
  const auto refuse = [&](const Quantity& value, const char* name) {
    if (!value) return;
    checks.fault(Code::ReservoirKeyOfOtherKind, value.origin,
                 {fmt::format("a reservoir of the kind \"{}\" has no {}", reservoir.kind.text, name),
                  value.text, "", fmt::format("remove {}, or change the kind", name)});
  };
  const auto need = [&](const Quantity& value, const char* name, const char* example) {
    if (!value) checks.missing(reservoir.origin, name, example);
  };
  if (is_sprung) {
    need(reservoir.piston, "piston", "\"26 mm\"");
    need(reservoir.spring_force, "spring_force", "\"90 N\"");
    need(reservoir.spring_rate, "spring_rate", "\"3.0 N/mm\"");
    refuse(reservoir.pressure, "pressure");
    refuse(reservoir.volume, "volume");
  } else {
    const bool is_gas = reservoir.kind.value == ReservoirKind::Gas;
    if (is_gas) need(reservoir.pressure, "pressure", "\"10 bar(g)\"");
    if (is_gas) need(reservoir.volume, "volume", "\"55 mL\"");
    refuse(reservoir.spring_force, "spring_force");
    refuse(reservoir.spring_rate, "spring_rate");
  }
}

// ---- springs

void check_coil_springs(const Checks& checks, const UnitSpec& unit) {
  for (std::size_t i = 0; i < unit.coil_springs.size(); ++i) {
    const CoilSpringSpec& spring = unit.coil_springs[i];
    check_spring(checks, spring);
    if (!spring.rate && !spring.wire) checks.missing(spring.origin, "rate", "\"4.6 N/mm\"");
    if (i == 0 && spring.stacked.value)
      checks.fault(
          Code::FirstSpringStacked, spring.stacked.origin,
          {"the first spring stands on no other spring", "true", "false, or a spring listed before it",
           "put the spring that it stands on before it in the list"});
  }
}

void check_air_chamber(const Checks& checks, const AirChamberSpec& chamber, const Quantity& travel,
                       bool is_squeezed) {
  if (!chamber.bore || !chamber.length) return;
  check_smaller(checks, Code::RodNotSmaller, chamber.rod, chamber.bore,
                {"the rod fills the air chamber", "", "", "correct one of the two"});
  const double area = circle_area(chamber.bore.si) - circle_area(chamber.rod.value_or(0.0));
  if (area <= 0.0) return;
  const double air = chamber.length.si - chamber.oil.value_or(0.0) / area;
  if (air <= 0.0) {
    checks.fault(Code::OilFillsAirChamber, chamber.oil.origin,
                 {"the oil fills the air chamber", chamber.oil.text,
                  fmt::format("less than {:.4g} mL", area * chamber.length.si * 1e6),
                  "correct the oil or the chamber"});
  } else if (is_squeezed && travel && air <= travel.si) {
    checks.fault(Code::AirChamberTooShort, chamber.length.origin,
                 {"no air is left with the unit fully in", chamber.length.text,
                  fmt::format("more than the travel and the oil in it, {}",
                              millimetres(travel.si + chamber.length.si - air)),
                  "write the length with the unit fully out"});
  }
}

void check_springs(const Checks& checks, const UnitSpec& unit) {
  check_coil_springs(checks, unit);
  if (unit.air_spring && unit.air_spring->positive)
    check_air_chamber(checks, *unit.air_spring->positive, unit.travel, true);
  if (unit.air_spring && unit.air_spring->negative)
    check_air_chamber(checks, *unit.air_spring->negative, unit.travel, false);

  const FaultText words{"it acts over more than the whole travel", "", "",
                        "write the part of the travel over which it acts"};
  const auto check_stop = [&](const Quantity& length) {
    if (length && unit.travel && length.si > unit.travel.si)
      check_smaller(checks, Code::StopLongerThanTravel, length, unit.travel, words);
  };
  if (unit.top_out) check_stop(unit.top_out->length);
  if (unit.bump_stop) check_stop(unit.bump_stop->length);
}

// ---- linkage

void check_linkage(const Checks& checks, const LinkageSpec& linkage, const Quantity& travel) {
  const auto not_rising = [&](const Origin& origin, const std::string& got, const std::string& expected) {
    checks.fault(Code::LinkageNotRising, origin,
                 {"the linkage's table does not rise from fully out", got, expected,
                  "sort the rows and check this one"});
  };
  if (linkage.table.empty()) return;
  const bool by_shock = linkage.table.front().shock.given;
  if (linkage.table.size() < 2)
    not_rising(linkage.table.front().origin, "one row", "at least the two ends of the travel");
  if (linkage.table.front().wheel && linkage.table.front().wheel.si != 0.0)
    not_rising(linkage.table.front().wheel.origin, linkage.table.front().wheel.text, "0 mm in the first row");

  const LinkagePoint* before = nullptr;
  for (const LinkagePoint& row : linkage.table) {
    const bool is_mixed = row.shock.given && row.leverage.given;
    const bool has_its_own = by_shock ? row.shock.given : row.leverage.given;
    if (is_mixed || !has_its_own)
      checks.fault(
          Code::LinkageMixed, row.origin,
          {"this row does not give the same thing as the first row", is_mixed ? "shock and leverage" : "",
           by_shock ? "shock, in every row" : "leverage, in every row", "give the same in every row"});
    if (before != nullptr && before->wheel && row.wheel && row.wheel.si <= before->wheel.si)
      not_rising(row.wheel.origin, row.wheel.text, "more than " + before->wheel.text);
    if (before != nullptr && before->shock && row.shock && row.shock.si <= before->shock.si)
      not_rising(row.shock.origin, row.shock.text, "more than " + before->shock.text);
    before = &row;
  }
  const Quantity& end = linkage.table.back().shock;
  constexpr double kReading = 1.02;  // two hundredths are lost in measuring
  if (end && travel && end.si > travel.si * kReading)
    checks.fault(Code::LinkageBeyondTravel, end.origin,
                 {"the linkage needs more travel than the shock has", end.text, "at most " + travel.text,
                  "correct the table or the travel"});
}

// ---- fill

void check_fill(const Checks& checks, const FillSpec& fill, const UnitSpec& unit) {
  const auto fits = [&](const Quantity& small, const Quantity& large, const char* what) {
    if (small && large && small.si > large.si)
      checks.fault(Code::FillDoesNotFit, small.origin,
                   {what, small.text, "at most " + large.text, "correct one of the two"});
  };
  if (fill.space) {
    fits(fill.space->rod_inside, fill.space->length, "the rod in this space is longer than the space");
    fits(fill.space->rod_bore, unit.rod, "a bore wider than the rod");
    fits(unit.rod, fill.space->bore, "the rod is wider than the space it runs in");
  }
  if (fill.tube) {
    fits(fill.tube->level, fill.tube->height, "the level is below the floor");
    for (const StandingSpec& standing : fill.tube->standing) {
      fits(standing.bottom, standing.top, "its lower end is above its upper end");
      fits(standing.diameter, fill.tube->bore, "it is wider than the tube it stands in");
    }
  }
  if (fill.acceptance)
    fits(fill.acceptance->short_by, unit.travel, "the missing travel is more than the whole travel");
}

// ---- unit

void check_layout(const Checks& checks, const UnitSpec& unit) {
  const bool is_leg = unit.kind && unit.kind.value == UnitKind::ForkLeg;
  const bool is_shock = unit.kind && unit.kind.value == UnitKind::Shock;
  if (is_leg && unit.linkage)
    checks.fault(Code::LayoutDoesNotSuit, unit.linkage->origin,
                 {"a fork leg has no linkage", "", "a linkage in a shock unit",
                  "remove it, or write kind = \"shock\""});
  if (is_shock && unit.layout && unit.layout.value == Layout::OpenBath)
    checks.fault(Code::LayoutDoesNotSuit, unit.layout.origin,
                 {"a shock has no open bath", unit.layout.text, "\"reservoir shock\"",
                  "write layout = \"reservoir shock\""});
  const bool is_bath = !is_shock && unit.layout && unit.layout.value == Layout::OpenBath;
  if (is_bath && unit.reservoir && unit.reservoir->kind &&
      unit.reservoir->kind.value != ReservoirKind::AirOverOil)
    checks.fault(Code::LayoutDoesNotSuit, unit.reservoir->kind.origin,
                 {"nothing presses on the oil of an open bath but air", unit.reservoir->kind.text,
                  "\"air over oil\"", "correct the kind or the layout"});
  const auto no_own_oil = [&](const std::string& text, const Origin& origin) {
    checks.fault(Code::LayoutDoesNotSuit, origin,
                 {"the damper of an open bath has no oil of its own", text, "the oil of the leg, as outer",
                  "remove it, or correct the layout"});
  };
  if (is_bath && unit.fill && unit.fill->cartridge)
    no_own_oil(unit.fill->cartridge.text, unit.fill->cartridge.origin);
  if (is_bath && unit.fill && unit.fill->reservoir)
    no_own_oil(unit.fill->reservoir.text, unit.fill->reservoir.origin);
  if (is_bath && unit.fill && unit.fill->space) no_own_oil("", unit.fill->space->origin);
  const auto no_outer = [&](const Quantity& oil) {
    checks.fault(Code::LayoutDoesNotSuit, oil.origin,
                 {"a shock has no outer tube with oil", oil.text, "the oil of a fork leg",
                  "remove it, or write kind = \"fork leg\""});
  };
  if (is_shock && unit.fill && unit.fill->outer) no_outer(unit.fill->outer);
  if (is_shock && unit.fill && unit.fill->tube)
    no_outer({.text = unit.fill->tube->level.text, .origin = unit.fill->tube->origin});
}

void check_adjusters(const Checks& checks, const UnitSpec& unit) {
  std::vector<const Text*> seen;
  for (const auto& valve : {&unit.piston_valve, &unit.foot_valve}) {
    if (!valve->has_value()) continue;
    for (const BleedSpec& bleed : (*valve)->bleeds) {
      if (!bleed.name) continue;
      const auto same = [&](const Text* text) { return text->value == bleed.name.value; };
      if (std::any_of(seen.begin(), seen.end(), same))
        checks.fault(
            Code::DuplicateName, bleed.name.origin,
            {"two bleeds of this unit have the same name", bleed.name.value, "", "rename one of the two"});
      seen.push_back(&bleed.name);
    }
  }
}

}  // namespace

void check_spring(const Checks& checks, const CoilSpringSpec& spring) {
  if (spring.rate && spring.wire)
    checks.fault(Code::StatedTwice, spring.wire.origin,
                 {"the spring is given by its rate and by its wire", spring.wire.text, "one of the two",
                  "remove the rate or the wire"});
  if (spring.wire && !spring.mean_diameter) checks.missing(spring.origin, "mean_diameter", "\"36.5 mm\"");
  if (spring.wire && !spring.active_coils) checks.missing(spring.origin, "active_coils", "60");
  check_smaller(checks, Code::SpringSolidTooLong, spring.solid_length, spring.free_length,
                {"the spring is as long when solid as when free", "", "", "correct one of the lengths"});
  if (spring.mean_diameter && spring.wire && spring.mean_diameter.si <= 2.0 * spring.wire.si)
    checks.fault(Code::CoilTooTight, spring.mean_diameter.origin,
                 {"the coil is too small for its wire", spring.mean_diameter.text,
                  "more than twice the wire, " + spring.wire.text,
                  "write the diameter from middle to middle of the wire"});
  if (!spring.preload || !spring.free_length || !spring.solid_length) return;
  const double room = spring.free_length.si - spring.solid_length.si;
  if (room > 0.0 && spring.preload.si >= room)
    checks.fault(Code::PreloadTooLong, spring.preload.origin,
                 {"the preload compresses the spring until it is solid", spring.preload.text,
                  "less than " + millimetres(room), "correct the preload"});
}

void check_oil(const Checks& checks, const OilSpec& oil) {
  const std::vector<ViscosityPoint>& points = oil.viscosity;
  if (points.empty()) return;
  const bool is_complete = (points.size() == 2) != oil.viscosity_index.given && points.size() <= 2;
  if (!is_complete) {
    checks.fault(Code::ViscosityIncomplete,
                 oil.viscosity_index ? oil.viscosity_index.origin : points.front().origin,
                 {"the viscosities do not show how the oil gets thinner when warm",
                  fmt::format("{} {}", points.size(), points.size() == 1 ? "viscosity" : "viscosities"),
                  "two, or one and viscosity_index", "give two viscosities, or one and the index"});
    return;
  }
  if (points.size() != 2) return;
  const ViscosityPoint* cold = points.data();
  const ViscosityPoint* warm = cold + 1;
  if (!cold->at || !warm->at || !cold->value || !warm->value) return;
  if (cold->at.si == warm->at.si) {
    checks.fault(Code::ViscosityPointsAlike, warm->at.origin,
                 {"both viscosities are given at the same temperature", warm->at.text, "two temperatures",
                  "correct one of them"});
    return;
  }
  if (cold->at.si > warm->at.si) std::swap(cold, warm);
  check_smaller(checks, Code::ViscosityNotFalling, warm->value, cold->value,
                {"the oil does not get thinner when it gets warm", "", "", "swap the two values"});
}

void check_unit(const Checks& checks, const UnitSpec& unit) {
  check_layout(checks, unit);
  check_smaller(checks, Code::RodNotSmaller, unit.rod, unit.piston,
                {"the rod is not smaller than its piston", "", "", "correct rod or piston"});
  if (unit.oil && !unit.oil.name) check_oil(checks, *unit.oil);
  for (const auto& valve : {&unit.piston_valve, &unit.foot_valve})
    if (valve->has_value()) check_valve(checks, **valve);
  if (unit.piston_valve)
    for (const auto& direction : {&unit.piston_valve->compression, &unit.piston_valve->rebound})
      if (direction->has_value()) check_valve_in_piston(checks, **direction, unit.piston);
  check_adjusters(checks, unit);
  if (unit.reservoir) check_reservoir(checks, *unit.reservoir);
  check_springs(checks, unit);
  if (unit.linkage) check_linkage(checks, *unit.linkage, unit.travel);
  if (unit.fill) check_fill(checks, *unit.fill, unit);
  if (unit.motion) check_motion(checks, unit);
}

}  // namespace shimwright::file
