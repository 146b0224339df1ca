#include "document/document_plots.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "base/check.h"

namespace shimwright::document {
namespace {

using units::Kind;
using units::System;

constexpr std::size_t kFanLines = 7;  // so few that the fan stays a fan

PlotInk ink_of(Stroke stroke) {
  return stroke == Stroke::Compression ? PlotInk::Compression : PlotInk::Rebound;
}

PlotDash dash_of(Stroke stroke) {
  return stroke == Stroke::Compression ? PlotDash::Solid : PlotDash::Long;
}

PlotDash other_dash(Stroke stroke) {
  return stroke == Stroke::Compression ? PlotDash::Long : PlotDash::Solid;
}

/// Up for compression, down for rebound.
double side(Stroke stroke) {
  return stroke == Stroke::Compression ? 1.0 : -1.0;
}

std::string clicks_text(int clicks) {
  return fmt::format("{} click{}", clicks, clicks == 1 ? "" : "s");
}

/// Empty where nothing is set: only then a line needs to say it for each point.
std::vector<bool> if_any(std::vector<bool> flags) {
  if (std::ranges::find(flags, true) == flags.end()) flags.clear();
  return flags;
}

void add_trouble(const Outcome& outcome, PlotSpec& plot) {
  if (!outcome.ok()) plot.caption += " " + status_words(outcome);
}

// ---- force

/// Which of n members a fan shows: evenly spread, the ends always.
std::set<std::size_t> fan_members(std::size_t n) {
  std::set<std::size_t> chosen;
  const std::size_t lines = std::min(n, kFanLines);
  for (std::size_t k = 0; k < lines; ++k)
    chosen.insert(lines == 1 ? 0 : (2 * k * (n - 1) + lines - 1) / (2 * (lines - 1)));
  return chosen;
}

std::vector<double> drawn_force(const ClickFamily& family, const FamilyMember& member) {
  std::vector<double> y;
  for (const double force : member.force) y.push_back(side(family.stroke) * force);
  return y;
}

/// The other clicks behind the present curve. Only the outermost two are named, with their adjuster where it
/// is not alone in its stroke.
void add_fan(const ClickFamily& family, bool alone, PlotSpec& plot) {
  const std::size_t n = family.members.size();
  for (const std::size_t k : fan_members(n)) {
    const FamilyMember& member = family.members[k];
    if (member.present) continue;
    const std::string clicks = clicks_text(member.clicks);
    PlotLine line;
    line.key = fmt::format("{} {} {}", word(family.stroke), family.adjuster, member.clicks);
    if (k == 0 || k + 1 == n) line.name = alone ? clicks : family.adjuster + ", " + clicks;
    line.column = fmt::format("{}, {} {}", word(family.stroke), family.adjuster, clicks);
    line.x = family.speed;
    line.y = drawn_force(family, member);
    line.dotted = if_any(member.cavitated);
    line.ink = ink_of(family.stroke);
    line.dash = dash_of(family.stroke);
    line.weight = PlotWeight::Thin;
    line.behind = true;
    line.down = family.stroke == Stroke::Rebound;
    plot.lines.push_back(std::move(line));
  }
}

/// The tint between the outermost clicks.
void add_reach(const ClickFamily& family, PlotSpec& plot) {
  if (family.members.size() < 2) return;
  PlotBand band;
  band.key = fmt::format("{} {}", word(family.stroke), family.adjuster);
  band.x = family.speed;
  band.low = drawn_force(family, family.members.front());
  band.high = drawn_force(family, family.members.back());
  band.ink = ink_of(family.stroke);
  plot.bands.push_back(std::move(band));
}

std::ptrdiff_t n_families(const ForceResult& force, Stroke stroke) {
  return std::ranges::count(force.families, stroke, &ClickFamily::stroke);
}

/// "rebound, 10 clicks" where one adjuster acts in the stroke.
std::string curve_name(const ForceResult& force, Stroke stroke) {
  const auto n = n_families(force, stroke);
  if (n > 1) return word(stroke) + ", as set";
  if (n == 0) return word(stroke);
  const auto family = std::ranges::find(force.families, stroke, &ClickFamily::stroke);
  const auto member = std::ranges::find(family->members, true, &FamilyMember::present);
  return member == family->members.end() ? word(stroke) : word(stroke) + ", " + clicks_text(member->clicks);
}

PlotLine curve_line(const ForceCurve& curve, std::string name) {
  PlotLine line;
  line.key = word(curve.stroke);
  line.name = std::move(name);
  for (const ForcePoint& point : curve.points) {
    line.x.push_back(point.speed);
    line.y.push_back(side(curve.stroke) * point.force);
    line.dotted.push_back(point.cavitated);
  }
  line.dotted = if_any(std::move(line.dotted));
  line.ink = ink_of(curve.stroke);
  line.dash = dash_of(curve.stroke);
  line.weight = PlotWeight::Heavy;
  line.down = curve.stroke == Stroke::Rebound;
  return line;
}

/// Where a chamber begins to draw air.
void add_onset(const ForceCurve& curve, const ForceResult& force, System system, PlotSpec& plot) {
  const auto first = std::ranges::find(curve.points, true, &ForcePoint::cavitated);
  if (first == curve.points.end()) return;
  const auto limit = std::ranges::find(force.cavitation, curve.stroke, &CavitationResult::stroke);
  plot.marks.push_back(
      {first->speed, side(curve.stroke) * first->force,
       fmt::format("air in the {} from {}", limit == force.cavitation.end() ? "oil" : limit->chamber,
                   units::format(first->speed, Kind::Speed, system)),
       PlotInk::Stop});
}

// ---- pressures

/// The chamber that runs short of pressure in a stroke.
bool rod_at_risk(Stroke stroke) {
  return stroke == Stroke::Compression;
}

PlotLine pressure_line(const ForceCurve& curve, const char* key, const char* name,
                       double ForcePoint::* pressure) {
  PlotLine line;
  line.key = key;
  line.name = name;
  for (const ForcePoint& point : curve.points) {
    line.x.push_back(point.speed);
    line.y.push_back(point.*pressure);
  }
  return line;
}

/// The reservoir thin, the chamber that is pressed on plain, the one at risk heavy in the ink of its stroke.
void add_pressures(const ForceCurve& curve, PlotSpec& plot) {
  PlotLine reservoir = pressure_line(curve, "reservoir", "reservoir", &ForcePoint::reservoir_pressure);
  reservoir.ink = PlotInk::Steel;
  reservoir.dash = PlotDash::Short;

  PlotLine compression =
      pressure_line(curve, "compression", "compression chamber", &ForcePoint::compression_pressure);
  PlotLine rod = pressure_line(curve, "rod", "rod chamber", &ForcePoint::rod_pressure);
  PlotLine& risk = rod_at_risk(curve.stroke) ? rod : compression;
  PlotLine& other = rod_at_risk(curve.stroke) ? compression : rod;
  other.dash = other_dash(curve.stroke);
  risk.dash = dash_of(curve.stroke);
  risk.ink = ink_of(curve.stroke);
  risk.weight = PlotWeight::Heavy;
  for (const ForcePoint& point : curve.points) risk.dotted.push_back(point.cavitated);
  risk.dotted = if_any(std::move(risk.dotted));
  plot.lines = {std::move(reservoir), std::move(other), std::move(risk)};
}

// ---- springs

/// Force at a travel, straight between the points.
double force_at(const std::vector<SpringPoint>& points, double travel) {
  const auto above = std::ranges::lower_bound(points, travel, {}, &SpringPoint::travel);
  if (above == points.begin()) return points.front().force;
  if (above == points.end()) return points.back().force;
  const SpringPoint& below = *std::prev(above);
  return below.force +
         (above->force - below.force) * (travel - below.travel) / (above->travel - below.travel);
}

void add_shares(const SpringResult& springs, PlotSpec& plot) {
  static constexpr PlotDash kDashes[] = {PlotDash::Long, PlotDash::Short, PlotDash::Chain, PlotDash::Solid};
  for (std::size_t k = 0; k < springs.names.size(); ++k) {
    PlotLine line;
    line.key = fmt::format("share {}", k);
    line.name = springs.names[k];
    for (const SpringPoint& point : springs.points) {
      if (k >= point.shares.size()) continue;
      line.x.push_back(point.travel);
      line.y.push_back(point.shares[k]);
    }
    line.ink = PlotInk::Steel;
    line.dash = kDashes[k % std::size(kDashes)];
    plot.lines.push_back(std::move(line));
  }
}

void add_sag_marks(const SpringResult& springs, System system, PlotSpec& plot) {
  if (springs.points.empty()) return;
  for (const SagResult& sag : springs.sag) {
    if (sag.topped_out || sag.bottomed) continue;
    plot.marks.push_back(
        {sag.travel, force_at(springs.points, sag.travel),
         fmt::format("{} sag {}", word(sag.under), units::format(sag.travel, Kind::Length, system)),
         PlotInk::Ink});
  }
}

void add_limit(const std::optional<double>& travel, const char* words, const char* sentence, System system,
               PlotSpec& plot) {
  if (!travel) return;
  plot.rules.push_back({*travel, words, PlotInk::Stop});
  plot.caption += fmt::format(" At {} {}.", units::format(*travel, Kind::Length, system), sentence);
}

}  // namespace

PlotSpec force_plot(const ForceResult& force, System system) {
  PlotSpec plot;
  plot.id = PlotId::ForceOverSpeed;
  plot.name = "force";
  plot.title = "Damping force over shaft speed";
  plot.x = {.title = "shaft speed", .kind = Kind::Speed, .zero = true, .ratios = true};
  plot.y = {
      .title = "force, compression up, rebound down", .kind = Kind::Force, .zero = true, .magnitudes = true};
  for (const ClickFamily& family : force.families) {
    add_reach(family, plot);
    add_fan(family, n_families(force, family.stroke) == 1, plot);
  }
  for (const ForceCurve& curve : force.curves) {
    plot.lines.push_back(curve_line(curve, curve_name(force, curve.stroke)));
    add_onset(curve, force, system, plot);
  }
  plot.caption = force.families.empty() ? "No clicker acts on this damper: one curve for each stroke."
                                        : "Heavy: the clicks as set. Tint: what the other clicks give.";
  if (!plot.marks.empty()) {
    plot.dots = "air in the oil";
    plot.caption += " Dots: air comes out of the oil, and the damper no longer follows its curve.";
  }
  add_trouble(force.outcome, plot);
  return plot;
}

PlotSpec pressure_plot(const ForceResult& force, Stroke stroke, System system) {
  PlotSpec plot;
  plot.id = pressure_plot_id(stroke);
  plot.name = "pressures, " + word(stroke);
  plot.title = "Chamber pressures, " + word(stroke);
  plot.x = {.title = "shaft speed", .kind = Kind::Speed, .zero = true, .ratios = true};
  plot.y = {.title = "absolute pressure",
            .kind = Kind::Pressure,
            .reference = units::Reference::Absolute,
            .zero = true};
  const auto curve = std::ranges::find(force.curves, stroke, &ForceCurve::stroke);
  if (curve == force.curves.end() || curve->points.empty()) return plot;
  add_pressures(*curve, plot);
  if (!plot.lines.back().dotted.empty()) plot.dots = "air in the oil";

  const auto limit = std::ranges::find(force.cavitation, stroke, &CavitationResult::stroke);
  if (limit != force.cavitation.end()) {
    PlotLine line;
    line.key = "air";
    line.name = "air comes out";
    line.x = {curve->points.front().speed, curve->points.back().speed};
    line.y = {limit->release_pressure, limit->release_pressure};
    line.ink = PlotInk::Stop;
    line.dash = PlotDash::Short;
    plot.lines.push_back(std::move(line));
    const std::string chamber = rod_at_risk(stroke) ? "rod" : "compression";
    plot.caption =
        limit->speed_lost
            ? fmt::format(
                  "The {} chamber meets \"air comes out\" at {}: from there on the oil gives off air.",
                  chamber, units::format(*limit->speed_lost, Kind::Speed, system))
            : fmt::format("The {} chamber stays above \"air comes out\", where the oil would give off air.",
                          chamber);
  }
  add_trouble(force.outcome, plot);
  return plot;
}

PlotSpec spring_plot(const SpringResult& springs, System system) {
  const bool several = springs.names.size() > 1;
  PlotSpec plot;
  plot.id = PlotId::SpringsOverTravel;
  plot.name = "springs";
  plot.title = "Spring force over travel";
  plot.x = {.title = "travel", .kind = Kind::Length, .zero = true};
  plot.y = {.title = "force", .kind = Kind::Force, .zero = true};
  if (several) add_shares(springs, plot);

  PlotLine sum;
  sum.key = "sum";
  sum.name = several ? "all springs" : springs.names.empty() ? "spring" : springs.names.front();
  for (const SpringPoint& point : springs.points) {
    sum.x.push_back(point.travel);
    sum.y.push_back(point.force);
  }
  sum.weight = PlotWeight::Heavy;
  plot.lines.push_back(std::move(sum));

  add_sag_marks(springs, system, plot);
  plot.caption = "Force of one unit from fully out.";
  if (several) plot.caption += " Heavy: the sum. Thin: what each spring gives.";
  add_limit(springs.air_end_travel, "air used up", "the air is used up and the leg is full of oil", system,
            plot);
  add_limit(springs.coil_bind_travel, "coil solid", "a coil is solid", system, plot);
  add_trouble(springs.outcome, plot);
  return plot;
}

PlotSpec lift_plot(const StackResult& stack) {
  PlotSpec plot;
  plot.id = PlotId::LiftOverPressure;
  plot.name = "lift";
  plot.title = "Lift over pressure drop";
  plot.x = {.title = "pressure drop over the face shim", .kind = Kind::PressureDifference, .zero = true};
  plot.y = {.title = "lift", .kind = Kind::Length, .thickness = true, .zero = true};

  PlotLine rim;
  rim.key = "rim";
  rim.name = "at the rim";
  rim.x = stack.line.pressure;
  rim.y = stack.line.lift_at_rim;
  rim.ink = PlotInk::Steel;
  rim.dash = PlotDash::Short;

  PlotLine seat;
  seat.key = "seat";
  seat.name = "at the seat";
  seat.x = stack.line.pressure;
  seat.y = stack.line.lift_at_seat;
  seat.weight = PlotWeight::Heavy;

  plot.lines = {std::move(rim), std::move(seat)};
  plot.caption = fmt::format("How far the face shim stands off its seat as pressure rises. Theory: {}.",
                             word(stack.theory));
  add_trouble(stack.outcome, plot);
  return plot;
}

std::vector<PlotSpec> unit_plots(const UnitResult& unit, System system) {
  std::vector<PlotSpec> plots;
  if (unit.force) {
    plots.push_back(force_plot(*unit.force, system));
    for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound})
      plots.push_back(pressure_plot(*unit.force, stroke, system));
  }
  if (unit.springs && !unit.springs->points.empty()) plots.push_back(spring_plot(*unit.springs, system));
  return plots;
}

const PlotSpec* find_plot(std::span<const PlotSpec> plots, PlotId id) {
  const auto found = std::ranges::find(plots, id, &PlotSpec::id);
  return found == plots.end() ? nullptr : &*found;
}

PlotId pressure_plot_id(Stroke stroke) {
  return stroke == Stroke::Compression ? PlotId::PressuresCompression : PlotId::PressuresRebound;
}

}  // namespace shimwright::document
