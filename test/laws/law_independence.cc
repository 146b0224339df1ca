// A number does not change with what else is asked.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "document/document_json.h"
#include "laws.h"

namespace shimwright::laws {
namespace {

/// A hundredth of a printed digit: the tables of the valves keep a tenth of that between their points.
constexpr double kSame = 1e-5;

bool same(double a, double b) {
  return std::abs(a - b) <= kSame * std::max(std::abs(a), std::abs(b)) + 1e-9;
}

using Headline = std::vector<std::pair<std::string, double>>;

void add_force(const document::UnitResult& unit, Headline& line) {
  if (!unit.force) return;
  for (const document::KeyForce& key : unit.force->key_forces) {
    line.emplace_back(fmt::format("{} compression at {} m/s", unit.name, key.speed), key.compression);
    line.emplace_back(fmt::format("{} rebound at {} m/s", unit.name, key.speed), key.rebound);
  }
  for (const document::CavitationResult& result : unit.force->cavitation) {
    line.emplace_back(unit.name + " margin in " + word(result.stroke), result.margin_at_working_speed);
    line.emplace_back(unit.name + " margin lost in " + word(result.stroke), result.speed_lost.value_or(-1.0));
  }
}

Headline forces_of(const document::ResultDocument& document) {
  Headline line;
  for (const document::UnitResult& unit : document.units) add_force(unit, line);
  return line;
}

void compare(const Headline& a, const Headline& b, const std::string& what,
             std::vector<std::string>& broken) {
  if (a.size() != b.size()) {
    broken.push_back(what + ": there are other numbers");
    return;
  }
  for (std::size_t i = 0; i < a.size(); ++i)
    if (!same(a[i].second, b[i].second))
      broken.push_back(
          fmt::format("{}: {} is {:.8g}, and {:.8g}", what, a[i].first, a[i].second, b[i].second));
}

/// One speed, asked with others beside it.
void other_speeds(const LawCase& at, std::vector<std::string>& broken) {
  // beyond its range a number is said to be a guess
  const auto in_range = [](const document::ResultDocument& one) {
    return std::ranges::all_of(
        one.units, [](const document::UnitResult& unit) { return !unit.force || unit.force->outcome.ok(); });
  };
  if (!in_range(at.document)) return;
  const Headline plain = forces_of(at.document);
  for (const std::vector<double>& speeds :
       {std::vector{0.02}, std::vector{0.05, 0.5}, std::vector{0.1, 12.0}}) {
    job::RunOptions options;
    options.sections = {.force = true};
    options.speeds = speeds;
    const auto other = at.run(options);
    if (!other) continue;
    compare(plain, forces_of(*other), fmt::format("curve up to {} m/s", speeds.back()), broken);
  }
}

/// The clicks of one adjuster, as an option and in the file, and as its family shows them.
void clicks_two_ways(const LawCase& at, std::vector<std::string>& broken) {
  for (const document::UnitResult& unit : at.document.units) {
    if (!unit.force) continue;
    for (const document::ClickFamily& family : unit.force->families) {
      if (family.members.size() < 2) continue;
      const document::FamilyMember& member =
          family.members.front().present ? family.members.back() : family.members.front();
      job::RunOptions options;
      options.sections = {.force = true};
      options.clicks = {{job::name_in_unit(unit.name, family.adjuster), member.clicks}};
      const auto turned = at.run(options);
      if (!turned) continue;
      for (const document::UnitResult& other : turned->units) {
        if (other.name != unit.name || !other.force) continue;
        for (const document::ForceCurve& curve : other.force->curves) {
          if (curve.stroke != family.stroke) continue;
          for (std::size_t i = 0; i < family.speed.size() && i < curve.points.size(); i += 15)
            if (!same(member.force[i], curve.points[i].force))
              broken.push_back(
                  fmt::format("{} at {} clicks, {} at {:.3g} m/s: {:.8g} in its family, {:.8g} when set",
                              family.adjuster, member.clicks, word(family.stroke), family.speed[i],
                              member.force[i], curve.points[i].force));
        }
      }
    }
  }
}

/// Springs asked for alone.
void sections_alone(const LawCase& at, std::vector<std::string>& broken) {
  job::RunOptions options;
  options.sections = {.springs = true};
  const auto springs = at.run(options);
  if (!springs) return;
  for (std::size_t i = 0; i < springs->units.size(); ++i) {
    const auto& alone = springs->units[i].springs;
    const auto& whole = at.document.units[i].springs;
    if (alone.has_value() != whole.has_value()) {
      broken.push_back("the springs of " + springs->units[i].name + " are there only sometimes");
    } else if (alone && (!same(alone->preload_force, whole->preload_force) ||
                         !same(alone->end_force, whole->end_force))) {
      broken.push_back("the springs of " + springs->units[i].name + " push otherwise when asked alone");
    }
  }
}

/// A unit alone in its job.
void units_alone(const LawCase& at, std::vector<std::string>& broken) {
  const Tree* units = at.tree.find("unit");
  if (units == nullptr || units->items.size() < 2) return;
  for (std::size_t i = 0; i < units->items.size(); ++i) {
    Tree tree = at.tree;
    tree.find("unit")->items = {units->items[i]};
    job::RunOptions options;
    options.sections = {.force = true};
    const auto alone = at.run(tree, options);
    if (!alone || alone->units.size() != 1) continue;
    Headline whole;
    add_force(at.document.units[i], whole);
    compare(whole, forces_of(*alone), "the unit alone", broken);
  }
}

/// A reader of inches has the same numbers.
void other_units(const LawCase& at, std::vector<std::string>& broken) {
  job::RunOptions options;
  options.sections = {.force = true};
  options.system = units::System::Imperial;
  const auto imperial = at.run(options);
  if (imperial) compare(forces_of(at.document), forces_of(*imperial), "imperial", broken);
}

}  // namespace

std::vector<std::string> broken_by_asking(const LawCase& at) {
  std::vector<std::string> broken;
  other_speeds(at, broken);
  clicks_two_ways(at, broken);
  sections_alone(at, broken);
  units_alone(at, broken);
  other_units(at, broken);
  return broken;
}

}  // namespace shimwright::laws
