#include "report/figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/phrases.h"

namespace shimwright::report {
namespace {

using units::Kind;
using units::System;

Token token_of(shimwright::Stroke stroke) {
  return stroke == shimwright::Stroke::Compression ? Token::Compression : Token::Rebound;
}

Dash dash_of(shimwright::Stroke stroke) {
  return stroke == shimwright::Stroke::Compression ? Dash::Solid : Dash::Long;
}

std::string axis_title(std::string_view quantity, Kind kind, System system) {
  return fmt::format("{} [{}]", quantity, units::unit_name(kind, system));
}

std::string clicks_text(int clicks) {
  return fmt::format("{} click{}", clicks, clicks == 1 ? "" : "s");
}

/// Up for compression, down for rebound.
double side(shimwright::Stroke stroke) {
  return stroke == shimwright::Stroke::Compression ? 1.0 : -1.0;
}

/// Every so many clicks, so that the fan stays a fan on paper; the ends always.
bool in_fan(std::size_t k, std::size_t n) {
  constexpr std::size_t kLines = 6;
  const std::size_t every = std::max<std::size_t>(1, n / kLines);
  return k + 1 == n || (k % every == 0 && k + every <= n);
}

/// The other clicks as a fan behind the present curve; only the outermost two are named,
/// with their adjuster where it is not alone in its stroke.
void add_fan(Plot& plot, const document::ClickFamily& family, bool alone, System system) {
  for (std::size_t k = 0; k < family.members.size(); ++k) {
    const document::FamilyMember& member = family.members[k];
    if (member.present || !in_fan(k, family.members.size())) continue;
    Series s;
    const bool outermost = k == 0 || k + 1 == family.members.size();
    if (outermost) s.name = (alone ? "" : family.adjuster + ", ") + clicks_text(member.clicks);
    s.stroke = {token_of(family.stroke), 0.45, dash_of(family.stroke), 0.4};
    for (std::size_t i = 0; i < family.speed.size(); ++i) {
      s.x.push_back(units::to_unit(family.speed[i], Kind::Speed, system));
      s.y.push_back(side(family.stroke) * units::to_unit(member.force[i], Kind::Force, system));
      s.dotted.push_back(i < member.cavitated.size() && member.cavitated[i]);
    }
    plot.series.push_back(std::move(s));
  }
}

int n_families(const document::ForceResult& force, shimwright::Stroke stroke) {
  return int(std::count_if(force.families.begin(), force.families.end(),
                           [&](const document::ClickFamily& family) { return family.stroke == stroke; }));
}

/// Of the one adjuster of a stroke; null where there are several, or none.
const document::FamilyMember* present_member(const document::ForceResult& force, shimwright::Stroke stroke) {
  if (n_families(force, stroke) != 1) return nullptr;
  for (const document::ClickFamily& family : force.families)
    if (family.stroke == stroke)
      for (const document::FamilyMember& member : family.members)
        if (member.present) return &member;
  return nullptr;
}

}  // namespace

Plot force_plot(const document::UnitResult& unit, System system) {
  Plot plot;
  plot.title = "Damping force over shaft speed";
  plot.x.title = axis_title("shaft speed", Kind::Speed, system);
  plot.y.title = axis_title("force against the motion: compression up, rebound down", Kind::Force, system);
  plot.y.magnitudes = true;
  if (!unit.force) return plot;

  for (const document::ClickFamily& family : unit.force->families)
    add_fan(plot, family, n_families(*unit.force, family.stroke) == 1, system);
  for (const document::ForceCurve& curve : unit.force->curves) {
    Series s;
    const document::FamilyMember* present = present_member(*unit.force, curve.stroke);
    s.name = word(curve.stroke) + (present ? ", " + clicks_text(present->clicks) : ", as set");
    s.stroke = {token_of(curve.stroke), 1.5, dash_of(curve.stroke), 1};
    for (const document::ForcePoint& p : curve.points) {
      s.x.push_back(units::to_unit(p.speed, Kind::Speed, system));
      s.y.push_back(side(curve.stroke) * units::to_unit(p.force, Kind::Force, system));
      s.dotted.push_back(p.cavitated);
    }
    const auto first =
        std::find_if(curve.points.begin(), curve.points.end(), [](const auto& p) { return p.cavitated; });
    if (first != curve.points.end())
      plot.marks.push_back({units::to_unit(first->speed, Kind::Speed, system),
                            side(curve.stroke) * units::to_unit(first->force, Kind::Force, system),
                            "draws air beyond " + units::format(first->speed, Kind::Speed, system),
                            Token::Stop});
    plot.series.push_back(std::move(s));
  }
  plot.caption = unit.force->families.empty() ? "No clicker acts on this damper: one curve for each stroke."
                                              : "Full ink: the clicks as set. Tint: the other clicks.";
  if (!plot.marks.empty()) plot.caption += " Dots: a chamber draws air and the force falls off the curve.";
  if (!unit.force->outcome.ok()) plot.caption += " " + status_words(unit.force->outcome);
  return plot;
}

Plot pressure_plot(const document::UnitResult& unit, shimwright::Stroke stroke, System system) {
  Plot plot;
  plot.title = fmt::format("Chamber pressures, {}", word(stroke));
  plot.x.title = axis_title("shaft speed", Kind::Speed, system);
  plot.y.title = fmt::format("absolute pressure [{}]",
                             units::unit_name(Kind::Pressure, system, units::Reference::Absolute));
  if (!unit.force) return plot;
  for (const document::ForceCurve& curve : unit.force->curves) {
    if (curve.stroke != stroke) continue;
    Series chamber{"compression chamber", {}, {}, {}, {Token::Ink, 1.2, Dash::Solid, 1}};
    Series rod{"rod chamber", {}, {}, {}, {token_of(stroke), 1.5, dash_of(stroke), 1}};
    for (const document::ForcePoint& p : curve.points) {
      const double x = units::to_unit(p.speed, Kind::Speed, system);
      chamber.x.push_back(x);
      rod.x.push_back(x);
      chamber.y.push_back(units::to_unit(p.compression_pressure, Kind::Pressure, system));
      rod.y.push_back(units::to_unit(p.rod_pressure, Kind::Pressure, system));
      (stroke == shimwright::Stroke::Compression ? rod : chamber).dotted.push_back(p.cavitated);
    }
    plot.series = {chamber, rod};
  }
  for (const document::CavitationResult& c : unit.force->cavitation) {
    if (c.stroke != stroke || plot.series.empty() || plot.series[0].x.empty()) continue;
    const double y = units::to_unit(c.release_pressure, Kind::Pressure, system);
    const auto& x = plot.series[0].x;
    plot.series.push_back(
        {"air comes out", {x.front(), x.back()}, {y, y}, {}, {Token::Stop, 0.8, Dash::Short, 1}});
  }
  plot.caption = "The lower line must stay above the red one; where it meets it the oil gives off air.";
  return plot;
}

Plot spring_plot(const document::UnitResult& unit, System system) {
  Plot plot;
  plot.title = "Spring force over travel";
  plot.x.title = axis_title("travel", Kind::Length, system);
  plot.y.title = axis_title("force", Kind::Force, system);
  if (!unit.springs) return plot;
  const document::SpringResult& springs = *unit.springs;
  Series sum{"all springs", {}, {}, {}, {Token::Ink, 1.6, Dash::Solid, 1}};
  std::vector<Series> shares(springs.names.size());
  static constexpr Dash kDashes[] = {Dash::Long, Dash::Short, Dash::Chain, Dash::Solid};
  for (std::size_t k = 0; k < shares.size(); ++k) {
    shares[k].name = springs.names[k];
    shares[k].stroke = {Token::Steel, 0.9, kDashes[k % 4], 1};
  }
  for (const document::SpringPoint& p : springs.points) {
    const double x = units::to_unit(p.travel, Kind::Length, system);
    sum.x.push_back(x);
    sum.y.push_back(units::to_unit(p.force, Kind::Force, system));
    for (std::size_t k = 0; k < shares.size() && k < p.shares.size(); ++k) {
      shares[k].x.push_back(x);
      shares[k].y.push_back(units::to_unit(p.shares[k], Kind::Force, system));
    }
  }
  if (shares.size() > 1) plot.series = shares;
  plot.series.push_back(sum);
  for (const document::SagResult& sag : springs.sag) {
    if (sag.topped_out || sag.bottomed) continue;
    const auto at =
        std::min_element(springs.points.begin(), springs.points.end(), [&](const auto& a, const auto& b) {
          return std::abs(a.travel - sag.travel) < std::abs(b.travel - sag.travel);
        });
    if (at == springs.points.end()) continue;
    plot.marks.push_back(
        {units::to_unit(sag.travel, Kind::Length, system), units::to_unit(at->force, Kind::Force, system),
         sag.name + " sag " + units::format(sag.travel, Kind::Length, system), Token::Steel});
  }
  plot.caption = shares.size() > 1 ? "Force of one unit from fully out. The thick line is the sum, each thin "
                                     "one what that spring gives."
                                   : "Force of one unit from fully out.";
  if (!springs.outcome.ok()) plot.caption += " " + status_words(springs.outcome);
  return plot;
}

Plot lift_plot(const document::StackResult& stack, System system) {
  Plot plot;
  plot.title = "Lift over pressure drop";
  plot.x.title = axis_title("pressure drop over the face shim", Kind::PressureDifference, system);
  plot.y.title = axis_title("lift", Kind::Length, system);
  Series seat{"at the seat", {}, {}, {}, {Token::Ink, 1.5, Dash::Solid, 1}};
  Series rim{"at the rim", {}, {}, {}, {Token::Steel, 1.0, Dash::Short, 1}};
  for (std::size_t i = 0; i < stack.line.pressure.size(); ++i) {
    const double x = units::to_unit(stack.line.pressure[i], Kind::PressureDifference, system);
    seat.x.push_back(x);
    rim.x.push_back(x);
    seat.y.push_back(units::to_unit(stack.line.lift_at_seat[i], Kind::Length, system));
    rim.y.push_back(units::to_unit(stack.line.lift_at_rim[i], Kind::Length, system));
  }
  plot.series = {seat, rim};
  plot.caption = fmt::format("Theory: {}.", word(stack.theory));
  if (!stack.outcome.ok()) plot.caption += " " + status_words(stack.outcome);
  return plot;
}

}  // namespace shimwright::report
