#include "job/compare.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "file/key_changes.h"

namespace shimwright::job {
namespace {

using units::Kind;

/// The same unit in the other document: by name, or else by place in the list.
const document::UnitResult* partner_of(const document::ResultDocument& other,
                                       const document::UnitResult& unit, std::size_t index) {
  const auto found = std::ranges::find(other.units, unit.name, &document::UnitResult::name);
  if (found != other.units.end()) return &*found;
  return index < other.units.size() ? &other.units[index] : nullptr;
}

using Numbers = std::vector<std::pair<std::string, std::pair<Kind, double>>>;

void pair_up(const std::string& unit, const Numbers& first, const Numbers& second,
             std::vector<document::NumberPair>& pairs) {
  for (const auto& [name, value] : first) {
    pairs.push_back({unit, name, value.first, value.second, std::nullopt});
    const auto same = std::ranges::find(second, name, &Numbers::value_type::first);
    if (same != second.end()) pairs.back().second = same->second.second;
  }
  for (const auto& [name, value] : second) {
    const auto same = std::ranges::find(first, name, &Numbers::value_type::first);
    if (same == first.end()) pairs.push_back({unit, name, value.first, std::nullopt, value.second});
  }
}

std::string speed_name(double speed) {
  return units::format_plain(speed, Kind::Speed, units::System::Metric);
}

Numbers forces_of(const document::UnitResult* unit) {
  Numbers numbers;
  if (unit == nullptr || !unit->force) return numbers;
  for (const document::KeyForce& key : unit->force->key_forces) {
    numbers.push_back({"compression force at " + speed_name(key.speed), {Kind::Force, key.compression}});
  }
  for (const document::KeyForce& key : unit->force->key_forces) {
    numbers.push_back({"rebound force at " + speed_name(key.speed), {Kind::Force, key.rebound}});
  }
  numbers.push_back({"static rod force", {Kind::Force, unit->force->static_rod_force}});
  return numbers;
}

Numbers margins_of(const document::UnitResult* unit) {
  Numbers numbers;
  if (unit == nullptr) return numbers;
  if (unit->force) {
    for (const document::CavitationResult& result : unit->force->cavitation) {
      numbers.push_back(
          {"pressure margin in " + word(result.stroke) + " at " + speed_name(result.working_speed),
           {Kind::PressureDifference, result.margin_at_working_speed}});
    }
  }
  for (const document::ValveResult& valve : unit->valves) {
    for (const document::DirectionResult& direction : valve.directions) {
      if (!direction.stack) continue;
      const std::string where = word(valve.place) + ", " + word(direction.stroke);
      if (!direction.stack->points.empty()) {
        numbers.push_back(
            {"highest stress, " + where, {Kind::Stress, direction.stack->points.back().highest_stress}});
      }
      if (direction.stack->fatigue_margin) {
        numbers.push_back({"fatigue margin, " + where, {Kind::Number, *direction.stack->fatigue_margin}});
      }
    }
    if (valve.post && valve.post->thread) {
      numbers.push_back(
          {"engaged turns, " + word(valve.place), {Kind::Number, valve.post->thread->engaged_turns}});
    }
  }
  return numbers;
}

Numbers springs_of(const document::UnitResult* unit) {
  Numbers numbers;
  if (unit == nullptr || !unit->springs || unit->springs->points.empty()) return numbers;
  const document::SpringResult& springs = *unit->springs;
  const auto at = [&](double share) {
    const auto index =
        static_cast<std::size_t>(std::lround(share * static_cast<double>(springs.points.size() - 1)));
    return springs.points[index].force;
  };
  numbers.push_back({"spring force fully out", {Kind::Force, at(0.0)}});
  numbers.push_back({"spring force at a third", {Kind::Force, at(1.0 / 3.0)}});
  numbers.push_back({"spring force at two thirds", {Kind::Force, at(2.0 / 3.0)}});
  numbers.push_back({"spring force at full travel", {Kind::Force, at(1.0)}});
  for (const document::SagResult& sag : springs.sag)
    numbers.push_back({word(sag.under) + " sag", {Kind::Length, sag.wheel_travel}});
  return numbers;
}

Numbers oil_of(const document::ResultDocument& document, const document::UnitResult* unit) {
  Numbers numbers;
  if (unit == nullptr) return numbers;
  const auto oil = std::ranges::find(document.oils, unit->oil, &document::OilResult::name);
  if (oil == document.oils.end()) return numbers;
  numbers.push_back({"oil viscosity, working", {Kind::KinematicViscosity, oil->working.kinematic_viscosity}});
  numbers.push_back({"oil density, working", {Kind::Density, oil->working.density}});
  if (oil->viscosity_index) numbers.push_back({"viscosity index", {Kind::Number, *oil->viscosity_index}});
  return numbers;
}

bool same_finding(const document::Finding& a, const document::Finding& b) {
  return a.code == b.code && a.place.unit == b.place.unit && a.place.valve == b.place.valve &&
         a.place.stroke == b.place.stroke;
}

/// Findings of `from` that `other` has not.
std::vector<document::Finding> only_in(const std::vector<document::Finding>& from,
                                       const std::vector<document::Finding>& other) {
  std::vector<document::Finding> only;
  std::ranges::copy_if(from, std::back_inserter(only), [&](const document::Finding& finding) {
    return std::ranges::none_of(other,
                                [&](const document::Finding& twin) { return same_finding(finding, twin); });
  });
  return only;
}

void compare_units(const document::ResultDocument& a, const document::ResultDocument& b,
                   const std::string& name, const document::UnitResult* first,
                   const document::UnitResult* second, document::Comparison& comparison) {
  pair_up(name, forces_of(first), forces_of(second), comparison.forces);
  pair_up(name, margins_of(first), margins_of(second), comparison.margins);
  pair_up(name, springs_of(first), springs_of(second), comparison.springs);
  pair_up(name, oil_of(a, first), oil_of(b, second), comparison.oils);
}

}  // namespace

document::Comparison compare_jobs(const file::JobSpec& first_spec, const document::ResultDocument& first,
                                  const file::JobSpec& second_spec, const document::ResultDocument& second) {
  document::Comparison comparison;
  comparison.first_title = first.header.title;
  comparison.second_title = second.header.title;
  for (file::KeyChange& change : file::key_changes(first_spec, second_spec)) {
    comparison.keys.push_back({std::move(change.path), std::move(change.first), std::move(change.second)});
  }
  for (std::size_t i = 0; i < first.units.size(); ++i) {
    compare_units(first, second, first.units[i].name, &first.units[i], partner_of(second, first.units[i], i),
                  comparison);
  }
  for (std::size_t i = first.units.size(); i < second.units.size(); ++i) {
    if (partner_of(first, second.units[i], i) == nullptr) {
      compare_units(first, second, second.units[i].name, nullptr, &second.units[i], comparison);
    }
  }
  comparison.gone = only_in(first.findings, second.findings);
  comparison.come = only_in(second.findings, first.findings);
  return comparison;
}

}  // namespace shimwright::job
